// A chart pasted as text.
import { attempt, post } from '../api.js';
import { el, fill } from '../dom.js';
import { drawing } from '../class/drawing.js';
import { roleField } from './colours.js';
import { swatch } from './doubts.js';
import { finishing } from './finish.js';

/** @typedef {import('./finish.js').Ready} Ready */

/** Nothing is known of the yarns: the letters are told apart by greys. */
const GREYS = ['#ffffff', '#1b2225', '#9aa3a6', '#5b666b', '#d5dadc', '#7b868b'];

/**
 * The text as it was read: drawn, and what each letter stands for.
 * @param {import('../types').Course} course
 * @param {Ready} ready
 */
const preview = (course, ready) => {
  const greys = ready.colours.map(({ letter }, i) => ({ letter, hex: GREYS[i % GREYS.length] ?? '#ffffff' }));
  return [
    el('h3', {}, 'As read'),
    el(
      'div',
      { class: 'paper as-read-chart' },
      drawing(
        { rows: ready.lines, colours: greys, aspect: 0.78 },
        `The chart as read: ${[...(ready.lines[0] ?? '')].length} stitches, ${ready.lines.length} rows`,
      ),
    ),
    el(
      'table',
      {},
      el(
        'thead',
        {},
        el(
          'tr',
          {},
          ['Letter', 'Drawn', 'Yarn'].map((head) => el('th', { scope: 'col' }, head)),
        ),
      ),
      el(
        'tbody',
        {},
        ready.colours.map((colour, i) =>
          el(
            'tr',
            {},
            el('th', { scope: 'row' }, colour.letter),
            el('td', {}, swatch(greys[i])),
            el(
              'td',
              {},
              roleField(colour, `Yarn of the letter ${colour.letter}`, (role) => void (colour.role = role)),
            ),
          ),
        ),
      ),
    ),
    finishing(course, {
      title: '',
      ready: () => ready,
      warning:
        'A chart pasted may be looked at and measured. It may not be printed until it is known whose it is: say so on the chart’s own page, under rights.',
    }),
  ];
};

/**
 * The way in for text.
 * @param {import('../types').Course} course
 */
export const pasting = (course) => {
  const text = el('textarea', { rows: 6, required: true, spellcheck: 'false', autocomplete: 'off' });
  const place = el('div', { class: 'pasted' });
  const submit = async (/** @type {Event} */ event) => {
    event.preventDefault();
    const ready = /** @type {Ready | null} */ (await attempt(() => post('/api/pasted', { text: text.value })));
    if (!ready) return;
    fill(place, ...preview(course, ready));
    place.querySelector('input')?.focus();
  };
  return el(
    'section',
    { 'aria-labelledby': 'text' },
    el('h2', { id: 'text' }, 'A chart in letters'),
    el('p', { class: 'note' }, 'One letter a stitch, one line a row, the top row first.'),
    el(
      'form',
      { onsubmit: submit },
      el('label', {}, 'The chart', text),
      el('p', {}, el('button', { type: 'submit' }, 'Read it')),
    ),
    place,
  );
};
