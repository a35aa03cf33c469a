// Larger work with a sheet: rows and stitches put in and taken out, moving, turning, copying, recolouring, the repeat.
// Each answers a new sheet.
import { PLAIN, cellsOf, height, letterAt, markAt, paint, remade, shape, width } from './sheet.js';

/**
 * @typedef {import('./sheet.js').Sheet} Sheet
 * @typedef {import('./sheet.js').Block} Block
 * @typedef {import('./sheet.js').Cell} Cell
 * @typedef {import('./sheet.js').Span} Span
 */

/**
 * A marked span after lines went in (count above 0) or out (below 0) behind the number `after`.
 * @param {Span | null} span
 * @param {number} after
 * @param {number} count
 * @param {number} all how many there were
 * @returns {Span | null}
 */
const moved = (span, after, count, all) => {
  if (!span) return null;
  if (count > 0 && span[0] === 1 && span[1] === all) return [1, all + count];
  /** @param {number} n @param {boolean} last */
  const place = (n, last) => {
    if (count > 0) return n > after || (last && n === after && after > 0) ? n + count : n;
    return n > after - count ? n + count : n > after ? (last ? after : after + 1) : n;
  };
  const to = /** @type {Span} */ ([place(span[0], false), place(span[1], true)]);
  return to[1] < to[0] ? null : to;
};

/**
 * Puts in rows above row `after` (0: beneath all), copies of nothing: all in one letter.
 * @param {Sheet} sheet
 * @param {number} after
 * @param {number} count
 * @param {string} letter
 * @returns {Sheet}
 */
export const addRows = (sheet, after, count, letter) => {
  const y = height(sheet) - after;
  /** @param {string} filler */
  const fresh = (filler) => Array.from({ length: count }, () => Array(width(sheet)).fill(filler));
  return {
    cells: sheet.cells.toSpliced(y, 0, ...fresh(letter)),
    marks: sheet.marks && sheet.marks.toSpliced(y, 0, ...fresh(PLAIN)),
    repeat: { ...sheet.repeat, rows: moved(sheet.repeat.rows, after, count, height(sheet)) },
  };
};

/**
 * Puts in stitches to the left of stitch `after` (0: right of all).
 * @param {Sheet} sheet
 * @param {number} after
 * @param {number} count
 * @param {string} letter
 * @returns {Sheet}
 */
export const addStitches = (sheet, after, count, letter) => {
  const x = width(sheet) - after;
  /** @param {string[][]} grid @param {string} filler */
  const wider = (grid, filler) => grid.map((row) => row.toSpliced(x, 0, ...Array(count).fill(filler)));
  return {
    cells: wider(sheet.cells, letter),
    marks: sheet.marks && wider(sheet.marks, PLAIN),
    repeat: { ...sheet.repeat, stitches: moved(sheet.repeat.stitches, after, count, width(sheet)) },
  };
};

/**
 * Takes rows out; one always stays.
 * @param {Sheet} sheet
 * @param {number} y
 * @param {number} count
 * @returns {Sheet}
 */
export const dropRows = (sheet, y, count) => {
  if (count >= height(sheet)) return sheet;
  const after = height(sheet) - y - count;
  return {
    cells: sheet.cells.toSpliced(y, count),
    marks: sheet.marks && sheet.marks.toSpliced(y, count),
    repeat: { ...sheet.repeat, rows: moved(sheet.repeat.rows, after, -count, height(sheet)) },
  };
};

/**
 * Takes stitches out; one always stays.
 * @param {Sheet} sheet
 * @param {number} x
 * @param {number} count
 * @returns {Sheet}
 */
export const dropStitches = (sheet, x, count) => {
  if (count >= width(sheet)) return sheet;
  const after = width(sheet) - x - count;
  return {
    cells: sheet.cells.map((row) => row.toSpliced(x, count)),
    marks: sheet.marks && sheet.marks.map((row) => row.toSpliced(x, count)),
    repeat: { ...sheet.repeat, stitches: moved(sheet.repeat.stitches, after, -count, width(sheet)) },
  };
};

/**
 * Another size: grows and shrinks at the top and at the left, where a chart is worked last.
 * @param {Sheet} sheet
 * @param {number} stitches
 * @param {number} rows
 * @param {string} letter
 */
export const resize = (sheet, stitches, rows, letter) => {
  const [w, h] = [width(sheet), height(sheet)];
  let made = sheet;
  if (stitches > w) made = addStitches(made, w, stitches - w, letter);
  if (stitches < w) made = dropStitches(made, 0, w - stitches);
  if (rows > h) made = addRows(made, h, rows - h, letter);
  if (rows < h) made = dropRows(made, 0, h - rows);
  return made;
};

/**
 * Both layers of a block, each cell taken from another place of it.
 * @param {Sheet} sheet
 * @param {Block} block
 * @param {(x: number, y: number) => [number, number]} from
 * @returns {Sheet}
 */
const taken = (sheet, block, from) => {
  /** @param {string[][]} grid */
  const of = (grid) =>
    remade(grid, (x, y, was) => {
      const [fx, fy] = from(x - block.x, y - block.y);
      return grid[block.y + fy]?.[block.x + fx] ?? was;
    }, block);
  return { ...sheet, cells: of(sheet.cells), marks: sheet.marks && of(sheet.marks) };
};

/**
 * Moves what lies in a block; what leaves it at one side comes in at the other.
 * @param {Sheet} sheet
 * @param {Block} block
 * @param {number} right
 * @param {number} down
 */
export const shift = (sheet, block, right, down) => {
  const { width: w, height: h } = block;
  return taken(sheet, block, (x, y) => [(((x - right) % w) + w) % w, (((y - down) % h) + h) % h]);
};

/** @param {Sheet} sheet @param {Block} block */
export const upsideDown = (sheet, block) => taken(sheet, block, (x, y) => [x, block.height - 1 - y]);

/**
 * Left becomes right; leaning marks change their lean.
 * @param {Sheet} sheet
 * @param {Block} block
 */
export const leftToRight = (sheet, block) => {
  const made = taken(sheet, block, (x, y) => [block.width - 1 - x, y]);
  /** @type {Record<string, string>} */
  const lean = { '/': '\\', '\\': '/' };
  return { ...made, marks: made.marks && remade(made.marks, (_x, _y, was) => lean[was] ?? was, block) };
};

/**
 * A copy of a block, to be put down somewhere.
 * @param {Sheet} sheet
 * @param {Block} block
 * @returns {Sheet}
 */
export const copied = (sheet, block) => {
  /** @param {string[][]} grid */
  const part = (grid) =>
    grid.slice(block.y, block.y + block.height).map((row) => row.slice(block.x, block.x + block.width));
  return {
    cells: part(sheet.cells),
    marks: sheet.marks && part(sheet.marks),
    repeat: { stitches: null, rows: null },
  };
};

/**
 * Puts a copy down with its bottom right corner at a cell, where the cursor of a knitter's chart begins.
 * @param {Sheet} sheet
 * @param {Sheet} copy
 * @param {Cell} at
 */
export const putDown = (sheet, copy, at) => {
  let made = sheet;
  const [left, top] = [at.x - width(copy) + 1, at.y - height(copy) + 1];
  for (const { x, y } of cellsOf({ x: 0, y: 0, width: width(copy), height: height(copy) })) {
    const cell = { x: left + x, y: top + y };
    made = paint(made, [cell], letterAt(copy, x, y));
    if (copy.marks || made.marks) made = shape(made, [cell], markAt(copy, x, y));
  }
  return made;
};

/**
 * Changes yarns into others, all at once, so that two may change places.
 * @param {Sheet} sheet
 * @param {Record<string, string>} into
 * @param {Block} block
 * @returns {Sheet}
 */
export const recolour = (sheet, into, block) => ({
  ...sheet,
  cells: remade(sheet.cells, (_x, _y, was) => into[was] ?? was, block),
});

/**
 * Marks what repeats; null unmarks.
 * @param {Sheet} sheet
 * @param {Span | null} stitches
 * @param {Span | null} rows
 * @returns {Sheet}
 */
export const markRepeat = (sheet, stitches, rows) => ({ ...sheet, repeat: { stitches, rows } });

/**
 * Both halves of a chart that is drawn by half: its left column, or top row, is the axis and stands once.
 * @param {Sheet} sheet
 * @param {string} way stitches, rows or both
 * @returns {Sheet}
 */
export const unfolded = (sheet, way) => {
  const across = way === 'stitches' || way === 'both';
  const up = way === 'rows' || way === 'both';
  const wide = sheet.cells.map((row) => (across ? [...row.slice(1).reverse(), ...row] : row));
  return { ...sheet, cells: up ? [...wide.slice(1).reverse(), ...wide] : wide };
};
