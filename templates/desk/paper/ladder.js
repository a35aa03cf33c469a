// The ladder of the course in the right column: every lesson with its grade and step, this one boxed.
import { el, fill } from '../dom.js';
import { svg } from './drawn.js';
import { signed } from './figures.js';

/**
 * @typedef {import('./work.js').Work} Work
 * @typedef {{ id: string, title: string, grade: number, step: number | null, points: number[], number: number | null, here: boolean }} Line
 */
const PARTS = /** @type {const} */ (['floats', 'colours', 'reading', 'relief', 'handling']);
const NAMES = ['Floats', 'Colours', 'Reading', 'Relief', 'Handling'];

/**
 * The rungs from the top; a chart without a lesson stands where its grade puts it.
 * @param {Work} work
 * @param {import('../types').Course} course
 * @returns {Line[]}
 */
const rungs = (work, course) => {
  const { lesson, measured } = work.chart;
  /** @type {Line[]} */
  const made = course.lessons.map((rung, i) => {
    const here = rung.id === lesson?.id;
    const now = here ? measured : null;
    return {
      id: rung.id,
      title: rung.title,
      number: i + 1,
      here,
      grade: now?.grade ?? rung.grade,
      step: now ? now.step : rung.step,
      points: PARTS.map((name) => now?.parts[name].points ?? rung.points[name]),
    };
  });
  if (!lesson && measured) {
    const at = made.findIndex((line) => line.grade > measured.grade);
    made.splice(at < 0 ? made.length : at, 0, {
      id: '', title: 'This chart', number: null, here: true, grade: measured.grade, step: measured.step,
      points: PARTS.map((name) => measured.parts[name].points),
    });
  }
  return made.reverse();
};

/**
 * @param {HTMLElement} place
 * @param {Work} work
 * @param {import('../types').Course} course
 */
export const drawLadder = (place, work, course) => {
  const lines = rungs(work, course);
  if (!lines.length) return fill(place);
  fill(place,
    el('h3', { id: 'ladder-word' }, 'On the ladder'),
    el('table', { class: 'ladder', 'aria-labelledby': 'ladder-word' },
      el('thead', {}, el('tr', {}, el('th', {}, el('span', { class: 'unseen' }, 'Place')), el('th', {}, 'Lesson'), el('th', {}, 'How hard'), el('th', { class: 'number' }, 'Step'))),
      el('tbody', {}, lines.map(line))),
    el('ul', { class: 'fills', 'aria-label': 'Fills of the bars' }, NAMES.map((name, i) => el('li', {}, swatch(i), name))));
};

/** @param {Line} rung */
const line = (rung) =>
  el('tr', { class: rung.here && 'here', 'aria-current': rung.here && 'true' },
    el('td', { class: 'rung' }, rung.number ?? '–'),
    el('th', { scope: 'row' }, rung.here || !rung.id ? rung.title : el('a', { href: `#/lesson/${rung.id}` }, rung.title)),
    el('td', { class: 'figures' }, stack(rung.points), ' ', String(Math.round(rung.grade))),
    el('td', { class: 'number figures' }, rung.step === null ? '' : signed(rung.step)));

const defs = () => svg('defs', {},
  svg('pattern', { id: 'fill-1', width: 4, height: 4, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' }, svg('rect', { width: 1.6, height: 4, class: 'ink' })),
  svg('pattern', { id: 'fill-3', width: 3, height: 3, patternUnits: 'userSpaceOnUse' }, svg('rect', { width: 3, height: 1.1, class: 'ink' })),
  svg('pattern', { id: 'fill-4', width: 3, height: 3, patternUnits: 'userSpaceOnUse' }, svg('circle', { cx: 1.5, cy: 1.5, r: 0.8, class: 'ink' })));

/** The fill of a part, always the same. @param {number} i */
const paintOf = (i) => (i === 0 ? 'ink' : i === 2 ? 'half' : 'pattern');

/** @param {number} i */
const swatch = (i) => {
  const box = svg('svg', { width: 16, height: 12, 'aria-hidden': 'true', class: 'stack' }, defs());
  box.append(block(i, 0.5, 15));
  return box;
};

/** @param {number} i @param {number} x @param {number} wide */
const block = (i, x, wide) => {
  const made = svg('rect', { x, y: 0.5, width: wide, height: 11, class: `edge ${paintOf(i)}` });
  if (paintOf(i) === 'pattern') made.setAttribute('fill', `url(#fill-${i})`);
  return made;
};

/** @param {number[]} points */
const stack = (points) => {
  const drawn = svg('svg', { width: 102, height: 12, 'aria-hidden': 'true', class: 'stack' });
  let x = 0.5;
  points.forEach((point, i) => {
    if (point > 0.3) drawn.append(block(i, x, point));
    x += point;
  });
  drawn.setAttribute('width', String(Math.ceil(x + 1)));
  return drawn;
};
