// Faults of the course, errors first, each with the way to its place.
import { el } from '../dom.js';

/** @typedef {import('../types').Fault} Fault */

/** Where a fault can be mended on the desk. @param {Fault} fault */
const address = (fault) => {
  if (!fault.id) return null;
  return fault.kind === 'chart' ? `#/chart/${fault.id}` : `#/lesson/${fault.id}/${fault.line}`;
};

/** What the engine says, as a sentence; names out of the file in quotes. @param {string} text */
const sentence = (text) => {
  const quoted = text.replaceAll(/`([^`]*)`/g, '“$1”');
  return `${quoted.charAt(0).toUpperCase()}${quoted.slice(1)}${/[.!?]”?$/.test(quoted) ? '' : '.'}`;
};

/** The file within the course's folder. @param {Fault} fault */
const place = (fault) => `${fault.file.split('/').slice(-2).join('/')}, line ${fault.line}`;

/** @param {Fault} fault */
const line = (fault) => {
  const to = address(fault);
  return el('li', { class: fault.severity },
    el('p', {}, el('b', {}, fault.severity === 'error' ? 'Error. ' : 'Warning. '), sentence(fault.message)),
    fault.help && el('p', { class: 'note' }, sentence(fault.help)),
    el('p', {}, to ? el('a', { href: to }, place(fault)) : el('span', { class: 'note' }, place(fault))));
};

/** @param {Fault[]} faults */
const counted = (faults) => {
  const errors = faults.filter((fault) => fault.severity === 'error').length;
  const warnings = faults.length - errors;
  const parts = [errors && `${errors} ${errors === 1 ? 'error' : 'errors'}`, warnings && `${warnings} ${warnings === 1 ? 'warning' : 'warnings'}`];
  return parts.filter(Boolean).join(', ');
};

/**
 * @param {Fault[]} faults
 * @returns {HTMLElement}
 */
export const faultList = (faults) => {
  const sorted = [...faults].sort((a, b) => Number(b.severity === 'error') - Number(a.severity === 'error'));
  return el('section', { 'aria-labelledby': 'faults-word', class: 'faults' },
    el('h2', { id: 'faults-word' }, 'Faults'),
    faults.length ? el('p', { class: 'note' }, counted(faults)) : el('p', {}, 'None.'),
    faults.length > 0 && el('ul', {}, sorted.map(line)));
};

export { counted, sentence };
