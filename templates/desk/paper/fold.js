// Folds: parts of the view that are opened when wanted.
import { el } from '../dom.js';

/**
 * A fold with a title.
 * @param {string} title
 * @param {HTMLElement} inside
 * @param {() => void} [opened]
 */
export const drawn = (title, inside, opened) =>
  el('details', { class: 'fold', ontoggle: () => opened?.() }, el('summary', {}, el('h2', {}, title)), inside);
