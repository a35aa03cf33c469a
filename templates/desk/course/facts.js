// What the draft of a lesson comes to: how hard and why, its sizes in numbers, and what has none.
import { el } from '../dom.js';
import { PARTS, stepText, techniqueText } from './bar.js';
import { sentence } from './faults.js';

/**
 * @typedef {import('../types').Lesson} Lesson
 * @typedef {import('../types').Measured} Measured
 */

/** @param {Measured['parts'][import('../types').PartName]} part @param {string} id */
const partLine = (part, id) => {
  const fill = el('span', { class: 'value' });
  fill.style.width = `${part.value * 100}%`;
  const met = part.met === null ? null : el('span', { class: 'met' });
  if (met && part.met !== null) met.style.left = `${part.met * 100}%`;
  return el('li', { class: id },
    el('b', {}, part.title), el('span', { class: 'measure', 'aria-hidden': 'true' }, fill, met),
    el('span', { class: 'why' }, part.cause, el('span', { class: 'unseen figures' }, `, ${part.points} points`)));
};

/** @param {Measured} measured @returns {HTMLElement} */
export const hardness = (measured) =>
  el('section', { class: 'hard', 'aria-labelledby': 'hard-word' },
    el('h2', { id: 'hard-word' }, 'How hard is it?'),
    el('div', { class: 'grade' },
      el('p', { class: 'numeral' }, Math.round(measured.grade)),
      el('div', {},
        el('p', {}, el('b', {}, `of 100: ${measured.level}. `), sentence(measured.looks)),
        measured.step !== null && el('p', { class: 'figures' }, `Step on the ladder: ${stepText(measured.step)}`),
        measured.techniques.length > 0 && el('p', { class: 'note' }, `In it: ${measured.techniques.map(techniqueText).join(', ')}`))),
    el('ul', { class: 'parts' }, PARTS.map(({ id }) => partLine(measured.parts[id], id))),
    el('p', { class: 'note met-word' }, el('span', { class: 'met', 'aria-hidden': 'true' }), 'most met so far in the course'));

/** @param {Lesson} lesson @returns {HTMLElement | null} */
export const sizesTable = ({ sizes }) =>
  sizes.labels.length
    ? el('section', {},
        el('h2', { id: 'sizes-word' }, 'All sizes'),
        el('div', { class: 'wide', tabindex: 0, role: 'region', 'aria-labelledby': 'sizes-word' },
          el('table', { class: 'sizes' },
            el('thead', {}, el('tr', {}, el('td', {}), sizes.labels.map((label) => el('th', { scope: 'col', class: 'number' }, label)))),
            el('tbody', {}, sizes.lines.map((line) =>
              el('tr', {}, el('th', { scope: 'row' }, line.name), line.values.map((value) => el('td', { class: 'number' }, value))))))))
    : null;

/** @param {Lesson} lesson @returns {HTMLElement | null} */
export const lackingList = ({ lacking }) =>
  lacking.length
    ? el('section', { class: 'lacking', 'aria-labelledby': 'lacking-word' },
        el('h2', { id: 'lacking-word' }, 'What does not work'),
        el('ul', {}, lacking.map((one) => el('li', {}, el('p', {}, el('b', {}, sentence(one.text))), one.help && el('p', {}, sentence(one.help))))))
    : null;
