// Reading a chart from its picture: the grid laid over it, the read chart beside it, yarns, doubtful stitches, the end.
import { button, el, fill, say } from '../dom.js';
import { drawing } from '../class/drawing.js';
import { wordsOf } from '../people/words.js';
import { yarnList } from './colours.js';
import { walk } from './doubts.js';
import { finishing } from './finish.js';
import { slid } from './grid.js';
import { ARROWS, stage } from './stage.js';
import { chartOf, keyOf, read } from './work.js';

/** @typedef {import('./work.js').Work} Work */

/** Stillness before a change is read, in milliseconds. */
const PAUSE = 350;
/** Height of a stitch by its width, as most fabric has it: nothing is known of this one. */
const ASPECT = 0.78;

/**
 * A number above the picture that is read anew when it changes.
 * @param {string} label
 * @param {[number, number]} range
 * @param {(value: number) => void} changed
 */
const numberOf = (label, [min, max], changed) => {
  const input = el('input', { type: 'number', min, max, inputmode: 'numeric' });
  input.addEventListener('input', () => {
    const value = Number(input.value);
    if (Number.isInteger(value) && value >= min && value <= max) changed(value);
  });
  return { input, label: el('label', {}, label, input) };
};

/**
 * The buttons that slide the grid; the arrow keys do it, too, on any of them.
 * @param {(u: number, v: number) => void} slide in squares
 */
const slider = (slide) => {
  const by = el('select', {}, el('option', { value: 0.5 }, 'half a square'), el('option', { value: 1 }, 'one square'));
  const move = (/** @type {[number, number]} */ [u, v]) => slide(u * Number(by.value), v * Number(by.value));
  const buttons = el(
    'div',
    { class: 'row', role: 'group', 'aria-label': 'Slide the whole grid' },
    button('Left', () => move([-1, 0])),
    button('Right', () => move([1, 0])),
    button('Up', () => move([0, -1])),
    button('Down', () => move([0, 1])),
  );
  buttons.addEventListener('keydown', (event) => {
    const way = ARROWS[event.key];
    if (!way) return;
    event.preventDefault();
    move(way);
  });
  return el('div', { class: 'row' }, el('label', {}, 'Slide the grid by', by), buttons);
};

/**
 * The chart as read, doubtful stitches framed.
 * @param {Work} work
 */
const readChart = (work) => {
  const chart = chartOf(work);
  if (!chart) return el('p', { class: 'note' }, 'Nothing is read yet.');
  const [stitches, rows] = [work.traced?.stitches ?? 0, work.traced?.rows ?? 0];
  const picture = drawing(
    { rows: chart.lines, colours: chart.yarns, aspect: ASPECT },
    `The chart as read: ${stitches} stitches, ${rows} rows`,
  );
  const open = chart.doubts.filter((doubt) => !work.answers.has(keyOf(doubt)));
  const tall = 10 * ASPECT;
  const path = open
    .map(({ row, stitch }) => `M${(stitches - stitch) * 10} ${(rows - row) * tall}h10v${tall}h-10z`)
    .join('');
  for (const name of ['doubt-edge', 'doubt']) {
    const frame = document.createElementNS('http://www.w3.org/2000/svg', 'path');
    frame.setAttribute('d', path);
    frame.setAttribute('class', name);
    picture.append(frame);
  }
  return picture;
};

/**
 * @param {Work} work
 * @param {ReturnType<typeof wordsOf>} words
 */
const told = (work, words) => {
  if (!work.traced) return '';
  if (work.refusal) return 'This is what was read before.';
  const open = (chartOf(work)?.doubts ?? []).filter((doubt) => !work.answers.has(keyOf(doubt))).length;
  const doubtful =
    open === 0 ? 'no doubtful stitches' : open === 1 ? 'one doubtful stitch' : `${open} doubtful stitches`;
  return `Read: ${work.traced.stitches} stitches, ${work.traced.rows} rows, ${work.traced.colours.length} ${words.colours.toLowerCase()}, ${doubtful}.`;
};

/**
 * Reads when all is still; a newer change outdates an older answer.
 * @param {Work} work
 * @param {{ began: () => void, ended: () => void }} to
 */
const reading = (work, to) => {
  let turn = 0;
  let timer = 0;
  const now = async (/** @type {boolean} */ found) => {
    clearTimeout(timer);
    const mine = ++turn;
    to.began();
    await read(work, found, () => mine === turn);
    if (mine === turn) to.ended();
  };
  const soon = () => {
    clearTimeout(timer);
    turn += 1;
    timer = window.setTimeout(() => now(false), PAUSE);
  };
  const stop = () => {
    clearTimeout(timer);
    turn += 1;
  };
  return { now, soon, stop };
};

/**
 * All parts of the page that change when something is read.
 * @param {Work} work
 * @param {import('../main.js').Desk} desk
 * @param {() => void} done
 */
const partsOf = (work, desk, done) => {
  const status = el('p', { class: 'status', role: 'status' });
  const refusal = el('div', { class: 'refusal', role: 'alert', hidden: true });
  const chart = el('div', { class: 'as-read-chart' });
  const redraw = () => fill(chart, readChart(work));
  const doubts = walk(work, {
    changed: () => {
      redraw();
      status.textContent = told(work, wordsOf(desk.course));
    },
    over: () => say('That was the last doubtful stitch'),
  });
  const yarns = yarnList(work, () => {
    redraw();
    doubts.draw();
  });
  const finish = finishing(desk.course, {
    title: work.title,
    titled: (title) => void (work.title = title),
    ready: () => {
      const now = chartOf(work);
      return now && { lines: now.lines, colours: now.yarns.map(({ letter, role }) => ({ letter, role })) };
    },
    done,
    warning:
      'A picture brought in may be looked at and measured. It may not be printed until it is known whose it is: say so on the chart’s own page, under rights.',
  });
  return { status, refusal, chart, redraw, doubts, yarns, finish };
};

/**
 * How many stitches, rows and colours there are, as numbers to change.
 * @param {Work} work
 * @param {ReturnType<typeof wordsOf>} words
 * @param {(values: Partial<Work>) => void} asked
 */
const numbersOf = (work, words, asked) => {
  const stitches = numberOf('Stitches', [1, 400], (value) => asked({ stitches: value }));
  const rows = numberOf('Rows', [1, 400], (value) => asked({ rows: value }));
  const colours = numberOf(words.colours, [2, 12], (value) => asked({ colours: value, merged: [] }));
  const show = () => {
    for (const [{ input }, value] of /** @type {const} */ ([
      [stitches, work.stitches],
      [rows, work.rows],
      [colours, work.traced?.colours.length],
    ])) {
      // What is being typed is not overwritten.
      if (document.activeElement !== input || input.value === '') input.value = value ? String(value) : '';
    }
  };
  return { box: el('div', { class: 'row numbers' }, stitches.label, rows.label, colours.label), show };
};

/**
 * A part of the page under its own heading.
 * @param {string} id
 * @param {string} title
 * @param {...(Node | null)} children
 */
const part = (id, title, ...children) => el('section', { 'aria-labelledby': id }, el('h2', { id }, title), ...children);

/**
 * Shows why a picture could not be read, and what would help.
 * @param {Work} work
 * @param {HTMLElement} place
 */
const showRefusal = (work, place) => {
  place.hidden = !work.refusal;
  if (!work.refusal) return fill(place);
  fill(
    place,
    el('p', {}, work.refusal),
    el('p', {}, 'Put the four corners on the corners of the chart and say how many stitches and rows it has.'),
  );
};

/**
 * What stands beneath the picture as soon as something is read.
 * @param {ReturnType<typeof partsOf>} parts
 */
const afterwards = (parts) =>
  el(
    'div',
    { class: 'after' },
    part('yarns', 'Yarns', parts.yarns.place),
    part('doubts', 'Doubtful stitches', parts.doubts.place),
    part('end', 'Name it', parts.finish),
  );

/**
 * The work on one picture. Answers what to do when it is left.
 * @param {import('../main.js').Desk} desk
 * @param {HTMLElement} root
 * @param {Work} work
 * @param {{ another: () => void, done: () => void }} to
 */
export const onPicture = (desk, root, work, to) => {
  const parts = partsOf(work, desk, to.done);
  const after = afterwards(parts);
  const corners = stage(work, ({ done }) => {
    if (done) reader.soon();
  });
  const again = () => {
    corners.draw();
    reader.soon();
  };
  const numbers = numbersOf(work, wordsOf(desk.course), (values) => {
    Object.assign(work, values);
    again();
  });
  const slide = (/** @type {number} */ u, /** @type {number} */ v) => {
    work.corners = slid(work.corners, u / (work.stitches ?? 20), v / (work.rows ?? 20));
    again();
  };
  const ended = () => {
    parts.status.textContent = told(work, wordsOf(desk.course));
    showRefusal(work, parts.refusal);
    after.hidden = !work.traced;
    for (const one of [corners.draw, numbers.show, parts.redraw, parts.yarns.draw, parts.doubts.draw]) one();
  };
  const reader = reading(work, { began: () => void (parts.status.textContent = 'Reading …'), ended });
  const find = button('Find the grid again', () => reader.now(true));
  const help = 'Drag a corner, or move it with the arrow keys; with Shift ten times as far.';
  fill(
    root,
    el('h1', {}, 'The chart in this picture'),
    el('p', { class: 'row' }, find, button('Another picture', to.another)),
    parts.refusal,
    el(
      'div',
      { class: 'two' },
      part(
        'grid',
        'The grid',
        el('p', { class: 'note', id: 'corner-help' }, help),
        corners.box,
        numbers.box,
        slider(slide),
      ),
      part('read', 'As read', parts.status, el('div', { class: 'paper' }, parts.chart)),
    ),
    after,
  );
  ended();
  if (!work.traced && !work.refusal) reader.now(true);
  return () => reader.stop();
};
