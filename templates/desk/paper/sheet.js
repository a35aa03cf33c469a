// The sheet of squared paper as a value: letters, shaping marks, the marked repeat. Nothing here knows the page.
// Cells lie at x from the left and y from the top, from 0; rows and stitches are counted from 1, from the bottom right.

/**
 * @typedef {[number, number]} Span from 1, both ends included
 * @typedef {{ stitches: Span | null, rows: Span | null }} Repeat as marked; null where it is not
 * @typedef {{ cells: string[][], marks: string[][] | null, repeat: Repeat }} Sheet
 * @typedef {{ x: number, y: number }} Cell
 * @typedef {{ x: number, y: number, width: number, height: number }} Block
 */

/** The marks of shaping: what stands in the overlay. */
export const PLAIN = '.';
export const NO_STITCH = '#';

/** @param {Sheet} sheet */
export const width = (sheet) => sheet.cells[0]?.length ?? 0;
/** @param {Sheet} sheet */
export const height = (sheet) => sheet.cells.length;
/** @param {Sheet} sheet @param {number} y */
export const rowOf = (sheet, y) => height(sheet) - y;
/** @param {Sheet} sheet @param {number} x */
export const stitchOf = (sheet, x) => width(sheet) - x;
/** @param {Sheet} sheet @param {number} x @param {number} y */
export const letterAt = (sheet, x, y) => sheet.cells[y]?.[x] ?? '';
/** @param {Sheet} sheet @param {number} x @param {number} y */
export const markAt = (sheet, x, y) => sheet.marks?.[y]?.[x] ?? PLAIN;
/** @param {Sheet} sheet */
export const lines = (sheet) => sheet.cells.map((row) => row.join(''));
/** @param {Sheet} sheet @returns {Block} */
export const whole = (sheet) => ({ x: 0, y: 0, width: width(sheet), height: height(sheet) });

/** @param {string | null} text such as 1-4 @returns {Span | null} */
const span = (text) => {
  const found = /^\s*(\d+)\s*-\s*(\d+)\s*$/.exec(text ?? '');
  return found ? [Number(found[1]), Number(found[2])] : null;
};

/**
 * Letters of lines, made even where the file is ragged.
 * @param {string[]} from
 * @param {string} filler
 * @param {number} [least]
 */
const squares = (from, filler, least = 1) => {
  const rows = from.map((line) => Array.from(line));
  const most = Math.max(least, ...rows.map((row) => row.length));
  return rows.map((row) => [...Array(most - row.length).fill(filler), ...row]);
};

/**
 * The sheet of a chart as the desk tells it.
 * @param {Pick<import('../types').Chart, 'rows' | 'shaping' | 'repeat' | 'colours'>} chart
 * @returns {Sheet}
 */
export const fromChart = (chart) => {
  const cells = squares(chart.rows.length ? chart.rows : [''], chart.colours[0]?.letter ?? '.');
  const marks = chart.shaping ? squares(chart.shaping, PLAIN, cells[0]?.length) : null;
  return {
    cells,
    marks: marks && cells.map((row, y) => row.map((_, x) => marks[y]?.[x] ?? PLAIN)),
    repeat: { stitches: span(chart.repeat.stitches), rows: span(chart.repeat.rows) },
  };
};

/** @param {string[]} rows @returns {Sheet} */
export const fromLines = (rows) =>
  fromChart({ rows, shaping: null, repeat: { stitches: null, rows: null }, colours: [] });

/** @param {string[][] | null} a @param {string[][] | null} b */
const same = (a, b) =>
  a === b || (!!a && !!b && a.length === b.length && a.every((row, y) => row === b[y] || row.join() === b[y]?.join()));

/** @param {Repeat} repeat @returns {{ stitches?: string, rows?: string }} */
const repeatText = ({ stitches, rows }) => ({
  ...(stitches && { stitches: stitches.join('-') }),
  ...(rows && { rows: rows.join('-') }),
});

/**
 * What to write into the file so that it says this sheet and no longer the one before.
 * @param {Sheet} before
 * @param {Sheet} after
 * @returns {import('../types').Edit[]}
 */
export const edits = (before, after) => {
  /** @type {import('../types').Edit[]} */
  const made = [];
  if (!same(before.cells, after.cells)) made.push({ at: ['rows'], block: lines(after).join('\n') });
  if (!same(before.marks, after.marks)) {
    const text = after.marks?.map((row) => row.join('')).join('\n');
    made.push(text ? { at: ['shaping'], block: text } : { at: ['shaping'], remove: true });
  }
  return [...made, ...repeatEdits(before.repeat, after.repeat)];
};

/**
 * Only what changed, so that the line keeps its order.
 * @param {Repeat} before
 * @param {Repeat} after
 * @returns {import('../types').Edit[]}
 */
const repeatEdits = (before, after) => {
  const [from, to] = [repeatText(before), repeatText(after)];
  if (JSON.stringify(from) === JSON.stringify(to)) return [];
  if (!Object.keys(to).length) return [{ at: ['repeat'], remove: true }];
  if (!Object.keys(from).length) return [{ at: ['repeat'], value: to }];
  const keys = /** @type {const} */ (['stitches', 'rows']);
  return keys.filter((key) => from[key] !== to[key]).map((key) => {
    const text = to[key];
    return text === undefined ? { at: ['repeat', key], remove: true } : { at: ['repeat', key], text };
  });
};

/** @param {Sheet} a @param {Sheet} b */
export const alike = (a, b) => edits(a, b).length === 0;

/**
 * Other letters (or marks) in some cells.
 * @param {string[][]} grid
 * @param {(x: number, y: number, was: string) => string} choose
 * @param {Block} [within]
 */
export const remade = (grid, choose, within) =>
  grid.map((row, y) => {
    if (within && (y < within.y || y >= within.y + within.height)) return row;
    return row.map((was, x) =>
      within && (x < within.x || x >= within.x + within.width) ? was : choose(x, y, was));
  });

/**
 * Paints cells in one yarn.
 * @param {Sheet} sheet
 * @param {Cell[]} cells
 * @param {string} letter
 * @returns {Sheet}
 */
export const paint = (sheet, cells, letter) => {
  const made = [...sheet.cells];
  for (const { x, y } of cells) {
    const row = made[y];
    if (!row || x < 0 || x >= row.length || row[x] === letter) continue;
    if (row === sheet.cells[y]) made[y] = [...row];
    const copy = made[y];
    if (copy) copy[x] = letter;
  }
  return { ...sheet, cells: made };
};

/**
 * Puts a shaping mark on cells; an overlay with nothing on it goes.
 * @param {Sheet} sheet
 * @param {Cell[]} cells
 * @param {string} mark
 * @returns {Sheet}
 */
export const shape = (sheet, cells, mark) => {
  const blank = sheet.marks ?? sheet.cells.map((row) => row.map(() => PLAIN));
  const marks = paint({ ...sheet, cells: blank }, cells, mark).cells;
  return { ...sheet, marks: marks.some((row) => row.some((m) => m !== PLAIN)) ? marks : null };
};

/**
 * The cells from one to another, without holes.
 * @param {Cell} from
 * @param {Cell} to
 * @returns {Cell[]}
 */
export const stretch = (from, to) => {
  const steps = Math.max(Math.abs(to.x - from.x), Math.abs(to.y - from.y));
  return Array.from({ length: steps + 1 }, (_, i) => ({
    x: Math.round(from.x + ((to.x - from.x) * i) / (steps || 1)),
    y: Math.round(from.y + ((to.y - from.y) * i) / (steps || 1)),
  }));
};

/** @param {Cell} a @param {Cell} b @returns {Block} */
export const between = (a, b) => ({
  x: Math.min(a.x, b.x),
  y: Math.min(a.y, b.y),
  width: Math.abs(a.x - b.x) + 1,
  height: Math.abs(a.y - b.y) + 1,
});

/** @param {Block} block @returns {Cell[]} */
export const cellsOf = (block) =>
  Array.from({ length: block.width * block.height }, (_, i) => ({
    x: block.x + (i % block.width),
    y: block.y + Math.floor(i / block.width),
  }));

/**
 * The cells of a stroke with their mirror images about an axis (a cell, or half-way between two).
 * @param {Cell[]} cells
 * @param {'off' | 'across' | 'up' | 'both'} way
 * @param {Cell} axis
 * @returns {Cell[]}
 */
export const mirrored = (cells, way, axis) => {
  const across = way === 'across' || way === 'both' ? cells.map(({ x, y }) => ({ x: 2 * axis.x - x, y })) : [];
  const half = [...cells, ...across];
  const up = way === 'up' || way === 'both' ? half.map(({ x, y }) => ({ x, y: 2 * axis.y - y })) : [];
  return [...half, ...up];
};

/**
 * The block that is repeated, declared or not.
 * @param {Sheet} sheet
 * @returns {Block}
 */
export const repeated = (sheet) => {
  const [w, h] = [width(sheet), height(sheet)];
  const [s0, s1] = sheet.repeat.stitches ?? [1, w];
  const [r0, r1] = sheet.repeat.rows ?? [1, h];
  if (s0 < 1 || s1 > w || s0 > s1 || r0 < 1 || r1 > h || r0 > r1) return whole(sheet);
  return { x: w - s1, y: h - r1, width: s1 - s0 + 1, height: r1 - r0 + 1 };
};

/**
 * The letters of a part of the sheet that are in use, in the order given.
 * @param {Sheet} sheet
 * @param {string[]} letters
 * @param {Block} [within]
 */
export const lettersIn = (sheet, letters, within = whole(sheet)) => {
  const used = new Set(cellsOf(within).map(({ x, y }) => letterAt(sheet, x, y)));
  return letters.filter((letter) => used.has(letter));
};
