// Panels: marking the repeat; marks of shaping.
import { button, el, fill, say } from '../dom.js';
import { keepValue } from './about.js';
import { drawMark, MARKS } from './marks.js';
import { height, rowOf, stitchOf, width } from './sheet.js';
import { markRepeat } from './turn.js';

/**
 * @typedef {import('./work.js').Work} Work
 * @typedef {import('./sheet.js').Span} Span
 */

/** @param {Work} work @returns {import('./tools.js').Panel} */
export const repeatPanel = (work) => {
  const [s0, s1, r0, r1] = /** @type {const} */ (['from', 'to', 'from', 'to']).map(() => el('input', { type: 'number', min: 1, class: 'few' }));
  const fields = [s0, s1, r0, r1].filter((field) => field !== undefined);
  /** @param {Span | null} stitches @param {Span | null} rows */
  const mark = (stitches, rows) => work.change(markRepeat(work.sheet, stitches, rows), stitches || rows ? 'Repeat marked' : 'Repeat not marked');
  const low = work.round.toLowerCase();
  /** @param {number} i @param {number} most @returns {Span | null} */
  const pair = (i, most) => {
    const [a, b] = [Number(fields[i]?.value), Number(fields[i + 1]?.value)];
    return a >= 1 && b >= a && b <= most ? [a, b] : null;
  };
  const form = el('form', {
    class: 'row',
    onsubmit: (/** @type {Event} */ event) => {
      event.preventDefault();
      mark(pair(0, width(work.sheet)), pair(2, height(work.sheet)));
    },
  }, el('label', {}, 'Stitches from', s0), el('label', {}, 'to', s1), el('label', {}, `${work.round}s from`, r0), el('label', {}, 'to', r1),
  el('button', {}, 'Mark the repeat'));
  const fromBlock = button('Mark the chosen block', () => {
    const b = work.block;
    if (!b) return say('Choose a block first: Shift and arrows, or drag with Shift');
    mark([stitchOf(work.sheet, b.x + b.width - 1), stitchOf(work.sheet, b.x)], [rowOf(work.sheet, b.y + b.height - 1), rowOf(work.sheet, b.y)]);
  });
  return {
    element: el('div', {}, form, el('div', { class: 'row' }, fromBlock, button('Unmark', () => mark(null, null))),
      el('p', { class: 'note' }, `Stitches and ${low}s outside the repeat are worked once. Stitches count from the right, ${low}s from below. Left empty: not marked.`)),
    draw: () => {
      const { stitches, rows } = work.sheet.repeat;
      [stitches?.[0], stitches?.[1], rows?.[0], rows?.[1]].forEach((n, i) => {
        const field = fields[i];
        if (field) keepValue(field, n === undefined ? '' : String(n));
      });
    },
    sync: () => fromBlock.setAttribute('aria-disabled', String(!work.block)),
  };
};

/** @param {Work} work @returns {import('./tools.js').Panel} */
export const shapingPanel = (work) => {
  const buttons = MARKS.map(({ mark, name }) => {
    const picture = el('canvas', { width: 36, height: 36, class: 'mark-picture paper', 'aria-hidden': 'true' });
    const pen = picture.getContext('2d');
    if (pen) {
      pen.fillStyle = '#fff';
      pen.fillRect(0, 0, 36, 36);
      drawMark(pen, mark, 0, 0, 36, 36, false);
    }
    const made = button('', () => choose(mark, name));
    fill(made, picture, name);
    return made;
  });
  /** @param {string} mark @param {string} name */
  const choose = (mark, name) => {
    work.brush = { mark };
    work.page.bar();
    say(`${name} chosen; draw it on the paper`);
  };
  const faults = el('ul', { class: 'faults' });
  return {
    element: el('div', {}, el('div', { class: 'row', role: 'group', 'aria-label': 'Marks' }, buttons),
      el('p', { class: 'note' }, 'Choose a mark and draw it; a yarn chosen below the paper draws yarn again. Live stitches stand beside each row.'), faults),
    draw: () => fill(faults, work.chart.marks.map((mark) => el('li', {}, `${work.round} ${mark.row}${mark.stitch ? `, stitch ${mark.stitch}` : ''}: ${mark.message}`))),
    sync: () => buttons.forEach((made, i) =>
      made.setAttribute('aria-pressed', String('mark' in work.brush && work.brush.mark === MARKS[i]?.mark))),
  };
};
