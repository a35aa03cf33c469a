// What the keys do on the paper.
import { say } from '../dom.js';
import { height, width } from './sheet.js';
import { copied } from './turn.js';

/** @typedef {import('./work.js').Work} Work */

const PAGE = 10;

/**
 * Where a key leads from here; null for other keys.
 * @param {Work} work
 * @param {KeyboardEvent} event
 */
const led = (work, event) => {
  const { x, y } = work.cursor;
  const [w, h] = [width(work.sheet), height(work.sheet)];
  switch (event.key) {
    case 'ArrowLeft': return { x: x - 1, y };
    case 'ArrowRight': return { x: x + 1, y };
    case 'ArrowUp': return { x, y: y - 1 };
    case 'ArrowDown': return { x, y: y + 1 };
    case 'Home': return { x: 0, y: event.ctrlKey ? 0 : y };
    case 'End': return { x: w - 1, y: event.ctrlKey ? h - 1 : y };
    case 'PageUp': return { x, y: y - PAGE };
    case 'PageDown': return { x, y: y + PAGE };
    default: return null;
  }
};

/**
 * The yarn of a key: its letter, or its place in the list.
 * @param {Work} work
 * @param {string} key
 */
const yarnOf = (work, key) => {
  const { letters } = work;
  if (letters.includes(key)) return key;
  if (letters.includes(key.toLowerCase())) return key.toLowerCase();
  return /^[1-9]$/.test(key) ? letters[Number(key) - 1] : undefined;
};

/**
 * Copies what is chosen and takes it in hand.
 * @param {Work} work
 */
export const takeUp = (work) => {
  const block = work.block ?? { ...work.cursor, width: 1, height: 1 };
  work.copy = copied(work.sheet, block);
  work.cursor = { x: block.x + block.width - 1, y: block.y + block.height - 1 };
  work.choose(null);
  hold(work, true);
  say(`Copied ${block.width} stitches by ${block.height}. Move, then Enter puts it down; Escape lays it aside`);
};

/** @param {Work} work @param {boolean} on */
export const hold = (work, on) => {
  work.holding = on && !!work.copy;
  work.page.look();
  work.page.bar();
};

/**
 * Keys with Control or Command; answers whether it was one of ours.
 * @param {Work} work
 * @param {KeyboardEvent} event
 */
export const commanded = (work, event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || work.readOnly) return false;
  const key = event.key.toLowerCase();
  if (key === 'z' && event.shiftKey) work.redo();
  else if (key === 'z') work.undo();
  else if (key === 'y') work.redo();
  else if (key === 's') work.save();
  else return false;
  event.preventDefault();
  return true;
};

/**
 * A key on the paper.
 * @param {Work} work
 * @param {KeyboardEvent} event
 */
export const pressed = (work, event) => {
  const to = led(work, event);
  if (to) {
    work.move(to, event.shiftKey && !work.holding);
    event.preventDefault();
    return;
  }
  if (work.readOnly) return;
  if (event.ctrlKey || event.metaKey) return clip(work, event);
  if (event.altKey) return;
  const yarn = yarnOf(work, event.key);
  work.since = event.timeStamp;
  if (event.key === 'Escape' && (work.holding || work.block)) {
    if (work.holding) hold(work, false);
    else work.choose(null);
  } else if (event.key === ' ' || event.key === 'Enter') work.press();
  else if (yarn && !work.holding) work.press({ yarn });
  else return;
  event.preventDefault();
};

/** @param {Work} work @param {KeyboardEvent} event */
const clip = (work, event) => {
  const key = event.key.toLowerCase();
  if (key === 'c') takeUp(work);
  else if (key === 'v' && work.copy) hold(work, true);
  else if (key === 'a') work.choose({ x: 0, y: 0, width: width(work.sheet), height: height(work.sheet) });
  else return;
  event.preventDefault();
};
