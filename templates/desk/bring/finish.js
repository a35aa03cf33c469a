// The end of every way in: a title, what the yarns are called, and the chart lies on the paper.
import { attempt, post } from '../api.js';
import { el } from '../dom.js';
import { idOf, taken } from '../names.js';

/** @typedef {import('../types').Course} Course */
/** @typedef {{ lines: string[], colours: { letter: string, role: string }[] }} Ready */

/**
 * Letters of yarns that are still in the chart; two of one name are one.
 * @param {Ready} ready
 * @returns {Ready}
 */
const tidy = ({ lines, colours }) => {
  const first = new Map();
  const stands = new Map(
    colours.map(({ letter, role }) => [letter, first.get(role) ?? (first.set(role, letter), letter)]),
  );
  const relabelled = lines.map((line) => [...line].map((letter) => stands.get(letter) ?? letter).join(''));
  const used = new Set(relabelled.join(''));
  return {
    lines: relabelled,
    colours: colours.filter(({ letter, role }) => used.has(letter) && first.get(role) === letter),
  };
};

/**
 * The form at the end.
 * @param {Course} course
 * @param {{ title: string, ready: () => Ready | null, titled?: (title: string) => void, done?: () => void, warning: string }} what
 */
export const finishing = (course, what) => {
  const title = el('input', { type: 'text', required: true, value: what.title, maxlength: 80, autocomplete: 'off' });
  const file = el('p', { class: 'note', role: 'status' });
  const id = () => idOf(title.value, taken(course));
  const told = () => {
    what.titled?.(title.value);
    file.textContent = title.value.trim() ? `Its file will be charts/${id()}.yaml.` : '';
  };
  title.addEventListener('input', told);
  const submit = async (/** @type {Event} */ event) => {
    event.preventDefault();
    const ready = what.ready();
    if (!ready || !title.value.trim()) return;
    const made = await attempt(() =>
      post('/api/new', { kind: 'chart', id: id(), title: title.value.trim(), ...tidy(ready) }),
    );
    if (!made) return;
    what.done?.();
    location.hash = `#/chart/${encodeURIComponent(/** @type {import('../types').File} */ (made).id)}`;
  };
  told();
  return el(
    'form',
    { class: 'finish', onsubmit: submit },
    el('label', {}, 'Title', title),
    file,
    el('p', {}, what.warning),
    el('p', {}, el('button', { type: 'submit', class: 'main' }, 'Put it on the paper')),
  );
};
