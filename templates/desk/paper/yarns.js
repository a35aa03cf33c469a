// The yarns under the paper: which one is on the needle, and which two will not read apart.
import { button, el, fill, say } from '../dom.js';
import { patch } from './drawn.js';

/** @typedef {import('./work.js').Work} Work */

/**
 * @param {HTMLElement} place
 * @param {Work} work
 */
export const drawYarns = (place, work) => {
  const key = JSON.stringify([work.chart.colours, work.chart.clashes, work.brush]);
  if (place.dataset.key === key) return;
  place.dataset.key = key;
  const focused = place.contains(document.activeElement) ? document.activeElement?.getAttribute('data-letter') : null;
  const clashing = new Set(work.chart.clashes.flatMap((clash) => clash.letters));
  const buttons = work.chart.colours.map((colour) => {
    const on = 'yarn' in work.brush && work.brush.yarn === colour.letter;
    return button('', () => choose(work, colour.letter), { 'aria-pressed': String(on), 'data-letter': colour.letter, class: 'yarn' });
  });
  buttons.forEach((made, i) => {
    const colour = work.chart.colours[i];
    if (!colour) return;
    fill(made, patch(colour.hex, 32, 20), el('span', {}, colour.name),
      clashing.has(colour.letter) && el('span', { class: 'mark' }, 'reads badly'),
      el('span', { class: 'key' }, el('span', { class: 'unseen' }, 'key '), colour.letter));
  });
  const names = work.chart.colours.map((colour) => el('span', { class: 'row' }, patch(colour.hex, 32, 20), colour.name));
  fill(place, el('p', { class: 'legend', id: 'yarn-word' }, 'Yarn'),
    el('div', { role: 'group', 'aria-labelledby': 'yarn-word', class: 'yarn-list' }, work.readOnly ? names : buttons),
    work.chart.clashes.length > 0 && el('ul', { class: 'clashes' }, work.chart.clashes.map((clash) => el('li', {}, clash.text))));
  if (focused) buttons.find((made) => made.dataset.letter === focused)?.focus();
};

/** @param {Work} work @param {string} letter */
const choose = (work, letter) => {
  work.brush = { yarn: letter };
  work.page.bar();
  say(`${work.names.get(letter)} chosen`);
};
