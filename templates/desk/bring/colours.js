// The yarns of a chart that is brought in: what each is called, and two that are one.
import { button, el, fill, say } from '../dom.js';
import { swatch } from './doubts.js';
import { chartOf } from './work.js';

/** @typedef {import('./work.js').Work} Work */
/** @typedef {import('./work.js').Yarn} Yarn */

/**
 * The field for what a yarn is called.
 * @param {{ role: string }} yarn
 * @param {string} label
 * @param {(role: string) => void} named
 */
export const roleField = (yarn, label, named) => {
  const input = el('input', {
    type: 'text',
    value: yarn.role,
    'aria-label': label,
    maxlength: 40,
    autocomplete: 'off',
    spellcheck: 'false',
  });
  input.addEventListener('change', () => {
    const role = input.value.trim();
    if (role) named(role);
    else input.value = yarn.role;
  });
  return input;
};

/**
 * @param {Work} work
 * @param {Yarn} yarn
 * @param {(told: string) => void} changed
 */
const line = (work, yarn, changed) =>
  el(
    'tr',
    {},
    el('td', {}, swatch(yarn)),
    el(
      'td',
      {},
      roleField(yarn, `Name of the yarn on ${yarn.cells} stitches`, (role) => {
        work.roles.set(yarn.hex, role);
        changed(`It is called ${role} now`);
      }),
    ),
    el('td', { class: 'figures number' }, yarn.cells),
  );

/**
 * Two yarns that are one: which, and which it is.
 * @param {Work} work
 * @param {Yarn[]} yarns
 * @param {(told: string) => void} changed
 */
const merging = (work, yarns, changed) => {
  const options = (/** @type {number} */ chosen) =>
    yarns.map((yarn, i) => el('option', { value: yarn.letter, '.selected': i === chosen }, yarn.role));
  const from = el('select', {}, options(yarns.length - 1));
  const into = el('select', {}, options(0));
  const submit = (/** @type {Event} */ event) => {
    event.preventDefault();
    const [one, other] = [from, into].map(({ value }) => yarns.find(({ letter }) => letter === value));
    if (!one || !other || one === other) return changed('Choose two different yarns');
    work.merged.push({ from: one.hex, into: other.hex });
    changed(`${one.role} is ${other.role} now`);
  };
  return el(
    'form',
    { class: 'row', onsubmit: submit },
    el('label', {}, 'This yarn', from),
    el('label', {}, 'is the same as', into),
    el('button', { type: 'submit' }, 'Make them one'),
  );
};

/**
 * The list of yarns.
 * @param {Work} work
 * @param {() => void} changed
 */
export const yarnList = (work, changed) => {
  const place = el('div', {});
  const told = (/** @type {string} */ text) => {
    const held = [...place.querySelectorAll('input, select, button')].indexOf(
      /** @type {Element} */ (document.activeElement),
    );
    changed();
    draw();
    const now = /** @type {NodeListOf<HTMLElement>} */ (place.querySelectorAll('input, select, button'));
    if (held >= 0) now[Math.min(held, now.length - 1)]?.focus();
    say(text);
  };
  const draw = () => {
    const yarns = chartOf(work)?.yarns ?? [];
    fill(
      place,
      el(
        'table',
        {},
        el(
          'thead',
          {},
          el(
            'tr',
            {},
            el('th', { scope: 'col' }, el('span', { class: 'unseen' }, 'Drawn')),
            el('th', { scope: 'col' }, 'Called'),
            el('th', { scope: 'col', class: 'number' }, 'Stitches'),
          ),
        ),
        el(
          'tbody',
          {},
          yarns.map((yarn) => line(work, yarn, told)),
        ),
      ),
      yarns.length > 2 ? merging(work, yarns, told) : null,
      work.merged.length
        ? el(
            'p',
            {},
            button('Take the last merging back', () => {
              work.merged.pop();
              told('The two are yarns of their own again');
            }),
          )
        : null,
    );
  };
  draw();
  return { place, draw };
};
