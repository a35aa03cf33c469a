// Her own gauge, or a finished piece as it measures: whom it fits, and which needle next.
import { attempt, get } from '../api.js';
import { el, fill } from '../dom.js';
import { capital, sentence, wordsOf } from './words.js';

/** @typedef {import('../types').Course} Course */

/**
 * What it comes to: sentences, and a table if there is one.
 * @param {import('../types').Fit} fit
 * @param {string} title
 */
const answer = (fit, title) => [
  ...fit.lines.map((line) => el('p', {}, sentence(line))),
  fit.table
    ? el(
        'div',
        { class: 'wide', tabindex: 0, role: 'region', 'aria-label': `${title}: sizes` },
        el(
          'table',
          {},
          el(
            'thead',
            {},
            el(
              'tr',
              {},
              fit.table.head.map((head) => el('th', { scope: 'col' }, capital(head))),
            ),
          ),
          el(
            'tbody',
            {},
            fit.table.rows.map((row) =>
              el(
                'tr',
                {},
                row.map((value, i) => (i ? el('td', { class: 'figures' }, value) : el('th', { scope: 'row' }, value))),
              ),
            ),
          ),
        ),
      )
    : null,
];

/**
 * A number that is asked for.
 * @param {number} max
 */
const numberField = (max) =>
  el('input', { type: 'number', min: 1, max, step: 'any', inputmode: 'decimal', required: true });

/**
 * A question to the engine about one lesson.
 * @param {string} id
 * @param {string} title
 * @param {import('../types').Rung[]} lessons
 * @param {HTMLElement[]} fields
 * @param {() => string} query
 */
const asking = (id, title, lessons, fields, query) => {
  const lesson = el(
    'select',
    {},
    lessons.map((one) => el('option', { value: one.id }, one.title)),
  );
  const place = el('div', { class: 'answer', role: 'status' });
  const submit = async (/** @type {Event} */ event) => {
    event.preventDefault();
    const fit = await attempt(() => get(`/api/fit/${encodeURIComponent(lesson.value)}?${query()}`));
    if (fit) fill(place, ...answer(/** @type {import('../types').Fit} */ (fit), title));
  };
  return el(
    'section',
    { 'aria-labelledby': id },
    el('h2', { id }, title),
    el(
      'form',
      { class: 'row', onsubmit: submit },
      el('label', {}, 'Lesson', lesson),
      fields,
      el('button', { type: 'submit' }, 'Whom does it fit?'),
    ),
    place,
  );
};

/**
 * The lesson worked at her own gauge.
 * @param {Course} course
 */
export const myGauge = (course) => {
  const words = wordsOf(course);
  const stitches = numberField(99);
  return asking(
    'gauge',
    `My ${words.gauge}`,
    course.lessons,
    [el('label', {}, `My stitches to ${words.over}`, stitches)],
    () => `gauge=${words.toTen(stitches.value)}`,
  );
};

/** What a finished piece of that kind is called, hats first. */
const ROUND = ['hat', 'headband', 'cowl', 'mitts', 'mittens'];

/**
 * A finished piece: its stitches and what it measures round.
 * @param {Course} course
 */
export const myPiece = (course) => {
  const { unit, mm } = wordsOf(course).length;
  const stitches = numberField(999);
  const girth = numberField(300);
  const lessons = ROUND.flatMap((makes) => course.lessons.filter((lesson) => lesson.makes === makes));
  if (!lessons.length) return null;
  const title = lessons[0]?.makes === 'hat' ? 'My hat' : `My ${lessons[0]?.makes}`;
  return asking(
    'piece',
    capital(title),
    lessons,
    [el('label', {}, 'Its stitches', stitches), el('label', {}, `Its girth, ${unit}`, girth)],
    () => `stitches=${encodeURIComponent(stitches.value)}&girth=${Math.round(Number(girth.value) * mm * 10) / 10}`,
  );
};
