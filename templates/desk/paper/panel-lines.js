// Panel: rows and stitches put in and taken out at the cursor, and the size of the sheet.
import { button, el, say } from '../dom.js';
import { keepValue } from './about.js';
import { height, rowOf, stitchOf, width } from './sheet.js';
import { addRows, addStitches, dropRows, dropStitches, resize } from './turn.js';

/** @typedef {import('./work.js').Work} Work */

/** The yarn of what is put in: the chosen one. @param {Work} work */
const yarn = (work) => ('yarn' in work.brush ? work.brush.yarn : work.ground);

/** @param {Work} work */
const rows = (work) => {
  const low = work.round.toLowerCase();
  /** @param {number} up */
  const add = (up) => {
    const row = rowOf(work.sheet, work.cursor.y) - 1 + up;
    const sheet = addRows(work.sheet, row, 1, yarn(work));
    work.cursor = { ...work.cursor, y: height(sheet) - 1 - row };
    work.change(sheet, `${work.round} ${row + 1} put in`);
  };
  const drop = () => {
    const { y, height: count } = work.block ?? { y: work.cursor.y, height: 1 };
    if (count >= height(work.sheet)) return say(`One ${low} must stay`);
    const row = rowOf(work.sheet, y + count - 1);
    work.choose(null);
    work.change(dropRows(work.sheet, y, count), count === 1 ? `${work.round} ${row} taken out` : `${count} ${low}s taken out`);
  };
  return el('fieldset', {}, el('legend', {}, `${work.round} at the cursor`),
    el('div', { class: 'row' }, button('Put one in above', () => add(1)), button('Put one in below', () => add(0)), button('Take out', drop)));
};

/** @param {Work} work */
const stitches = (work) => {
  /** @param {number} left */
  const add = (left) => {
    const stitch = stitchOf(work.sheet, work.cursor.x) - 1 + left;
    const sheet = addStitches(work.sheet, stitch, 1, yarn(work));
    work.cursor = { ...work.cursor, x: width(sheet) - 1 - stitch };
    work.change(sheet, `Stitch ${stitch + 1} put in`);
  };
  const drop = () => {
    const { x, width: count } = work.block ?? { x: work.cursor.x, width: 1 };
    if (count >= width(work.sheet)) return say('One stitch must stay');
    const stitch = stitchOf(work.sheet, x + count - 1);
    work.choose(null);
    work.change(dropStitches(work.sheet, x, count), count === 1 ? `Stitch ${stitch} taken out` : `${count} stitches taken out`);
  };
  return el('fieldset', {}, el('legend', {}, 'Stitch at the cursor'),
    el('div', { class: 'row' }, button('Put one in to the left', () => add(1)), button('Put one in to the right', () => add(0)), button('Take out', drop)));
};

/** @param {Work} work @returns {import('./tools.js').Panel} */
export const linesPanel = (work) => {
  const most = { type: 'number', min: 1, max: 400, required: true, class: 'few' };
  const wide = el('input', most);
  const tall = el('input', most);
  const form = el('form', {
    class: 'row',
    onsubmit: (/** @type {Event} */ event) => {
      event.preventDefault();
      const [w, h] = [Number(wide.value), Number(tall.value)];
      work.choose(null);
      work.change(resize(work.sheet, w, h, yarn(work)), `${w} stitches, ${h} ${work.round.toLowerCase()}s`);
    },
  }, el('label', {}, 'Stitches', wide), el('label', {}, `${work.round}s`, tall), el('button', {}, 'Make it this size'));
  return {
    element: el('div', { class: 'three' }, rows(work), stitches(work),
      el('fieldset', {}, el('legend', {}, 'Size: grows and shrinks at the top and the left'), form)),
    draw: () => {
      keepValue(wide, String(width(work.sheet)));
      keepValue(tall, String(height(work.sheet)));
    },
  };
};
