// Panel: yarns changed into others, in the whole chart, a block or a row; a yarn added.
import { button, el, fill, say } from '../dom.js';
import { patch } from './drawn.js';
import { whole, width } from './sheet.js';
import { recolour } from './turn.js';

/** @typedef {import('./work.js').Work} Work */

/** @param {Work} work @returns {import('./tools.js').Panel} */
export const coloursPanel = (work) => {
  const low = work.round.toLowerCase();
  const where = el('select', { onchange: () => sync(true) },
    el('option', { value: 'row' }, `This ${low}`), el('option', { value: 'block' }, 'The chosen block'), el('option', { value: 'all' }, 'The whole chart'));
  const list = el('div', { class: 'row' });
  let key = '';
  const area = () => {
    if (where.value === 'all') return whole(work.sheet);
    return where.value === 'block' && work.block ? work.block : { x: 0, y: work.cursor.y, width: width(work.sheet), height: 1 };
  };
  /** @param {boolean} [anew] */
  const sync = (anew = false) => {
    const used = work.used(area());
    const now = JSON.stringify([used, work.chart.colours]);
    if (now === key && !anew) return;
    key = now;
    fill(list, used.map((letter) => {
      const colour = work.chart.colours.find((c) => c.letter === letter);
      return el('label', {}, el('span', {}, colour && patch(colour.hex, 20, 12), ` ${colour?.name} becomes`),
        el('select', { name: letter }, work.chart.colours.map((c) => el('option', { value: c.letter, selected: c.letter === letter }, c.name))));
    }));
  };
  const change = () => {
    /** @type {Record<string, string>} */
    const into = {};
    for (const select of list.querySelectorAll('select')) into[select.name] = select.value;
    work.change(recolour(work.sheet, into, area()), 'Yarns changed');
    sync(true);
  };
  return {
    element: el('div', {}, el('div', { class: 'row' }, el('label', {}, 'Change yarns in', where), list, button('Change', change)), adding(work)),
    draw: () => sync(),
    sync,
  };
};

/** A form for one yarn more. @param {Work} work */
const adding = (work) => {
  const letter = el('input', { class: 'few', maxlength: 2, required: true, autocomplete: 'off' });
  const role = el('input', { size: 14, required: true, autocomplete: 'off' });
  return el('form', {
    class: 'row',
    onsubmit: async (/** @type {Event} */ event) => {
      event.preventDefault();
      const [sign, name] = [letter.value.trim(), role.value.trim()];
      if (Array.from(sign).length !== 1 || !name) return;
      if (work.letters.includes(sign)) return say(`${sign} is taken`);
      if (!(await work.keep.edit([{ at: ['colours', sign], text: name }]))) return;
      work.brush = { yarn: sign };
      letter.value = '';
      role.value = '';
      work.page.bar();
      say(`${name} added and chosen`);
    },
  }, el('label', {}, 'New yarn’s letter', letter), el('label', {}, 'Its part, such as gold', role), el('button', {}, 'Add a yarn'));
};
