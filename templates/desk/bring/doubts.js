// The stitches that could not be read beyond doubt, one after the other: the picture beside what was read.
import { button, el, fill, say } from '../dom.js';
import { outline } from './grid.js';
import { chartOf, keyOf } from './work.js';

/** @typedef {import('./work.js').Work} Work */
/** @typedef {import('./work.js').Doubt} Doubt */
/** @typedef {import('./work.js').Yarn} Yarn */

const SIZE = 224;

/**
 * The stitch in the picture, with what lies around it.
 * @param {Work} work
 * @param {Doubt} doubt
 */
const crop = (work, doubt) => {
  const canvas = el('canvas', {
    width: SIZE,
    height: SIZE,
    class: 'crop',
    role: 'img',
    'aria-label': `The picture at row ${doubt.row}, stitch ${doubt.stitch}`,
  });
  const ink = canvas.getContext('2d');
  const [stitches, rows] = [work.stitches ?? 1, work.rows ?? 1];
  const [left, top] = [(stitches - doubt.stitch) / stitches, (rows - doubt.row) / rows];
  const corners = outline(work.corners, [left, top, left + 1 / stitches, top + 1 / rows]);
  const xs = corners.map(([x]) => x);
  const ys = corners.map(([, y]) => y);
  const wide = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)) * 3;
  const [x, y] = [(Math.max(...xs) + Math.min(...xs) - wide) / 2, (Math.max(...ys) + Math.min(...ys) - wide) / 2];
  if (!ink || !(wide > 0)) return canvas;
  const scale = work.bitmap.width / work.width;
  ink.fillStyle = '#fff';
  ink.fillRect(0, 0, SIZE, SIZE);
  ink.drawImage(work.bitmap, x * scale, y * scale, wide * scale, wide * scale, 0, 0, SIZE, SIZE);
  for (const [width, colour] of /** @type {const} */ ([
    [6, '#ffffff'],
    [2.5, '#a5300d'],
  ])) {
    ink.lineWidth = width;
    ink.strokeStyle = colour;
    ink.beginPath();
    corners.forEach(([cx, cy], i) => ink[i ? 'lineTo' : 'moveTo'](((cx - x) / wide) * SIZE, ((cy - y) / wide) * SIZE));
    ink.closePath();
    ink.stroke();
  }
  return canvas;
};

/**
 * A yarn as a square.
 * @param {{ hex: string } | undefined} yarn
 */
export const swatch = (yarn) => {
  const square = el('span', { class: 'swatch', 'aria-hidden': 'true' });
  square.style.backgroundColor = yarn?.hex ?? '#ffffff';
  return square;
};

/**
 * The yarns that the stitch may be, the likeliest first.
 * @param {Doubt} doubt
 * @param {Yarn[]} yarns
 */
const choices = (doubt, yarns) => {
  const rank = (/** @type {Yarn} */ { letter }) => (letter === doubt.letter ? 0 : letter === doubt.instead ? 1 : 2);
  return [...yarns].sort((a, b) => rank(a) - rank(b));
};

/**
 * The walk through all of them. `changed` draws the chart anew; `over` says that the last one is behind.
 * @param {Work} work
 * @param {{ changed: () => void, over: () => void }} to
 */
export const walk = (work, to) => {
  const place = el('div', { class: 'doubts' });
  /** @type {(() => void)[]} */
  let acts = [];

  const go = (/** @type {number} */ by, /** @type {number} */ pressed) => {
    const doubts = chartOf(work)?.doubts ?? [];
    work.doubt = Math.min(doubts.length, Math.max(0, work.doubt + by));
    draw();
    const buttons = place.querySelectorAll('button');
    (buttons[pressed] ?? buttons[0])?.focus();
    if (work.doubt >= doubts.length) to.over();
    else say(questionOf(doubts[work.doubt], work.doubt, doubts.length));
  };

  const answer = (/** @type {Doubt} */ doubt, /** @type {Yarn} */ yarn, /** @type {number} */ pressed) => {
    work.answers.set(keyOf(doubt), yarn.hex);
    to.changed();
    go(1, pressed);
  };

  const draw = () => {
    const chart = chartOf(work);
    const doubts = chart?.doubts ?? [];
    const doubt = doubts[work.doubt];
    acts = [];
    if (!chart || !doubt) {
      const back = doubts.length ? button('Look at them again', () => go(-doubts.length, 0)) : null;
      fill(
        place,
        el('p', {}, doubts.length ? 'You have seen all doubtful stitches.' : 'Every stitch was read beyond doubt.'),
        back,
      );
      return;
    }
    const yarns = choices(doubt, chart.yarns);
    acts = [...yarns.map((yarn, i) => () => answer(doubt, yarn, i)), () => go(1, yarns.length)];
    fill(place, ...shown(work, doubt, chart, yarns, acts, () => go(-1, yarns.length + 1), doubts.length));
  };
  place.addEventListener('keydown', (event) => {
    const act =
      /^[1-9]$/.test(event.key) && !event.ctrlKey && !event.altKey && !event.metaKey
        ? acts[Number(event.key) - 1]
        : undefined;
    if (!act) return;
    event.preventDefault();
    act();
  });
  draw();
  return { place, draw };
};

/**
 * @param {Doubt | undefined} doubt
 * @param {number} index
 * @param {number} of
 */
const questionOf = (doubt, index, of) =>
  doubt ? `${index + 1} of ${of}: row ${doubt.row}, stitch ${doubt.stitch}` : '';

/**
 * @param {Work} work
 * @param {Doubt} doubt
 * @param {{ lines: string[], yarns: Yarn[], doubts: Doubt[] }} chart
 * @param {Yarn[]} yarns
 * @param {(() => void)[]} acts
 * @param {() => void} back
 * @param {number} of
 */
const shown = (work, doubt, chart, yarns, acts, back, of) => {
  const stands = [...(chart.lines[chart.lines.length - doubt.row] ?? '')][(work.stitches ?? 0) - doubt.stitch];
  const now = chart.yarns.find(({ letter }) => letter === stands);
  return [
    el(
      'p',
      { class: 'figures' },
      el('strong', {}, `${work.doubt + 1} of ${of}`),
      `, row ${doubt.row}, stitch ${doubt.stitch}`,
    ),
    el(
      'div',
      { class: 'beside' },
      el('figure', {}, crop(work, doubt), el('figcaption', {}, 'In the picture')),
      el(
        'figure',
        {},
        el('div', { class: 'as-read paper' }, swatch(now)),
        el('figcaption', {}, `Now: ${now?.role ?? ''}`),
      ),
    ),
    el(
      'div',
      { class: 'row answers', role: 'group', 'aria-label': 'What is it?' },
      yarns.map((yarn, i) =>
        el(
          'button',
          { type: 'button', onclick: acts[i], 'aria-keyshortcuts': i + 1 },
          swatch(yarn),
          `It is ${yarn.role}`,
        ),
      ),
      button('Skip', acts[yarns.length] ?? (() => {}), { 'aria-keyshortcuts': yarns.length + 1 }),
      button('One back', back, { '.disabled': work.doubt === 0 }),
    ),
    el('p', { class: 'note' }, `On these buttons the keys 1 to ${yarns.length + 1} answer, too.`),
  ];
};
