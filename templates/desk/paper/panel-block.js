// Panels: the mirror while drawing; choosing, moving, turning and copying a block.
import { button, el, say } from '../dom.js';
import { hold, takeUp } from './keys.js';
import { leftToRight, shift, upsideDown } from './turn.js';

/** @typedef {import('./work.js').Work} Work */

/** @param {Work} work @returns {import('./tools.js').Panel} */
export const mirrorPanel = (work) => {
  const ways = /** @type {const} */ ([['off', 'Off'], ['across', 'Left and right'], ['up', 'Up and down'], ['both', 'Both']]);
  const way = el('select', { onchange: () => set() }, ways.map(([id, name]) => el('option', { value: id }, name)));
  const at = el('select', { onchange: () => set() }, el('option', { value: 'middle' }, 'The middle'), el('option', { value: 'cursor' }, 'The cursor, as it is now'));
  const set = () => {
    work.mirror = {
      way: ways.find(([id]) => id === way.value)?.[0] ?? 'off',
      at: at.value === 'middle' ? 'middle' : { ...work.cursor },
    };
    work.page.look();
    say(work.mirror.way === 'off' ? 'Mirror off' : 'Mirror on: every stroke is drawn twice');
  };
  return {
    element: el('div', {}, el('div', { class: 'row' }, el('label', {}, 'Mirror while drawing', way), el('label', {}, 'Axis', at)),
      el('p', { class: 'note' }, 'A dashed line shows the axis.')),
    draw: () => {},
  };
};

/** @param {Work} work @returns {import('./tools.js').Panel} */
export const blockPanel = (work) => {
  const what = el('p', { class: 'note' });
  /** @param {number} right @param {number} down @param {string} where */
  const mover = (right, down, where) =>
    button(where, () => work.change(shift(work.sheet, work.area, right, down), `Moved ${where.toLowerCase()}`));
  const choosing = el('input', { type: 'checkbox', onchange: () => {
    work.choosing = choosing.checked;
  } });
  const put = button('Put down', () => hold(work, true));
  return {
    element: el('div', { class: 'three' },
      el('fieldset', {}, el('legend', {}, 'Block'),
        el('label', { class: 'beside' }, choosing, 'Dragging chooses a block'),
        el('div', { class: 'row' }, button('Copy', () => takeUp(work)), put, button('Choose none', () => work.choose(null))),
        el('p', { class: 'note' }, 'On the paper: Shift and arrows choose; Ctrl C copies; Ctrl V puts down where the cursor is; Escape lays it aside.')),
      el('fieldset', {}, el('legend', {}, 'Move, round and round'),
        el('div', { class: 'row' }, mover(-1, 0, 'Left'), mover(1, 0, 'Right'), mover(0, -1, 'Up'), mover(0, 1, 'Down'))),
      el('fieldset', {}, el('legend', {}, 'Turn'),
        el('div', { class: 'row' },
          button('Upside down', () => work.change(upsideDown(work.sheet, work.area), 'Turned upside down')),
          button('Left to right', () => work.change(leftToRight(work.sheet, work.area), 'Turned left to right'))),
        what)),
    draw: () => {},
    sync: () => {
      what.textContent = work.block ? 'Moving and turning act on the chosen block.' : 'Moving and turning act on the repeat.';
      put.setAttribute('aria-disabled', String(!work.copy));
    },
  };
};
