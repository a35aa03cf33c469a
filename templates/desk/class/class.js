// Two charts for the class: choosing them, and the page for the projector.
import { attempt, get } from '../api.js';
import { button, el, fill } from '../dom.js';
import { quiz } from './quiz.js';

/** @typedef {import('../types').Shelf} Shelf */

/** What was chosen last, while the desk is open. */
const chosen = { a: '', b: '', letters: true };

/** Stitches and rows that a small repeat is shown over, so that two charts look as their fabric would. */
const WIDE = 24;
const HIGH = 10;

/**
 * How a chart is drawn for the class: its repeat often enough.
 * @param {import('../types').Side} side
 * @returns {import('./drawing.js').Drawn}
 */
const drawn = (side) => {
  const { stitches, rows, up } = side.repeats;
  return {
    ...side,
    across: Math.ceil(WIDE / (stitches[1] - stitches[0] + 1)),
    up: up ? Math.ceil(HIGH / (rows[1] - rows[0] + 1)) : 1,
  };
};

/**
 * @param {string} label
 * @param {Shelf[]} charts
 * @param {'a' | 'b'} which
 * @param {() => void} changed
 */
const chooser = (label, charts, which, changed) => {
  const select = el(
    'select',
    {
      onchange: () => {
        chosen[which] = select.value;
        changed();
      },
    },
    charts.map((chart) => el('option', { value: chart.id, '.selected': chart.id === chosen[which] }, chart.title)),
  );
  return el('label', {}, label, select);
};

/**
 * The chart as it will be worked, for the one who chooses.
 * @param {Shelf[]} charts
 * @param {'a' | 'b'} which
 */
const preview = (charts, which) => {
  const chart = charts.find(({ id }) => id === chosen[which]);
  return chart
    ? el('img', {
        class: 'paper',
        src: `/api/fabric/${encodeURIComponent(chart.id)}.svg`,
        alt: `${chart.title}, as worked`,
      })
    : null;
};

/** A course without two charts that may be shown. */
const tooFew = () => [
  el('h1', {}, 'Which is harder?'),
  el('p', {}, 'The class compares two charts that may be shown. This course has fewer.'),
  el('p', {}, el('a', { href: '#/charts' }, 'Go to the charts')),
];

/** Whether letters count hands: who works by voice may not want that. */
const letterKeys = () => {
  const box = el('input', {
    type: 'checkbox',
    '.checked': chosen.letters,
    onchange: () => void (chosen.letters = box.checked),
  });
  return el('label', { class: 'beside' }, box, 'The keys A and B count hands');
};

const LEAD =
  'Two charts on the wall, hands for one or the other, then what was measured, one thing at a time. ' +
  'Charts that may not be copied are not offered.';
const KEYS = 'Space or an arrow goes on, Escape leaves. Once shown, the page needs nothing more from the desk.';

/**
 * Choosing the two charts. No grade is shown here: the class may be looking on.
 * @param {import('../main.js').Desk} desk
 */
const choose = (desk) => {
  const charts = desk.course.charts.filter((chart) => chart.mayPrint);
  if (charts.length < 2) return fill(desk.root, ...tooFew());
  const first = charts[0]?.id ?? '';
  if (!charts.some(({ id }) => id === chosen.a)) chosen.a = first;
  if (!charts.some(({ id }) => id === chosen.b)) chosen.b = charts.find(({ id }) => id !== chosen.a)?.id ?? first;
  const pictures = { a: el('div', { class: 'preview' }), b: el('div', { class: 'preview' }) };
  const alike = el('p', { class: 'alike', role: 'status' });
  const go = () => void (location.hash = `#/class/${encodeURIComponent(chosen.a)}/${encodeURIComponent(chosen.b)}`);
  const start = button('Show them to the class', go, { class: 'main' });
  const changed = () => {
    fill(pictures.a, preview(charts, 'a'));
    fill(pictures.b, preview(charts, 'b'));
    start.disabled = chosen.a === chosen.b;
    alike.textContent = chosen.a === chosen.b ? 'Choose two different charts.' : '';
  };
  fill(
    desk.root,
    el('h1', {}, 'Which is harder?'),
    el('p', { class: 'lead' }, LEAD),
    el(
      'div',
      { class: 'pair' },
      el('div', {}, chooser('Chart A', charts, 'a', changed), pictures.a),
      el('div', {}, chooser('Chart B', charts, 'b', changed), pictures.b),
    ),
    letterKeys(),
    alike,
    el('p', {}, start),
    el('p', { class: 'note' }, KEYS),
  );
  changed();
};

/**
 * @param {import('../main.js').Desk} desk
 * @returns {Promise<import('../main.js').View | void>}
 */
export async function show(desk) {
  const [a, b] = desk.words;
  if (!a || !b) return choose(desk);
  /** @type {import('../types').Contest | null} */
  const contest = await attempt(() => get(`/api/class?a=${encodeURIComponent(a)}&b=${encodeURIComponent(b)}`));
  if (!contest) {
    fill(desk.root, el('h1', {}, 'Which is harder?'), el('p', {}, el('a', { href: '#/class' }, 'Choose two charts')));
    return;
  }
  Object.assign(chosen, { a, b });
  return {
    leave: quiz(desk.root, {
      contest,
      charts: [drawn(contest.sides[0]), drawn(contest.sides[1])],
      letters: chosen.letters,
    }),
  };
}
