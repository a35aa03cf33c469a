// A file that cannot be read as a chart: what is wrong with it, and its text, to be mended here.
import { attempt, post } from '../api.js';
import { actions, button, el, fill, say } from '../dom.js';

/** Words of a message, with what stands in the file set apart. @param {string} text */
export const plainly = (text) => text.split('`').map((part, i) => (i % 2 ? el('code', {}, part) : part));

/** @param {import('../types').Fault[]} faults */
export const list = (faults) =>
  el('ul', { class: 'faults' }, faults.map((fault) => el('li', {},
    el('strong', {}, fault.severity === 'error' ? 'To mend: ' : 'Look: '), ...plainly(fault.message), ...plainly(fault.help ? ` (${fault.help})` : ''))));

/**
 * @param {import('../main.js').Desk} desk
 * @param {import('../types').File} file
 * @param {() => unknown} again shows the view anew
 */
export const showBroken = (desk, file, again) => {
  const text = el('textarea', { rows: 20, cols: 60, '.value': file.text, spellcheck: 'false', readonly: desk.course.readOnly });
  const mend = async () => {
    const kept = /** @type {import('../types').File | null} */ (
      await attempt(() => post(`/api/file/${encodeURIComponent(file.id)}`, { at: file.at, text: text.value })));
    if (!kept) return;
    say(kept.chart ? 'Now it is a chart' : 'Kept, but it is no chart yet');
    actions();
    await again();
    desk.root.querySelector('h1')?.setAttribute('tabindex', '-1');
    desk.root.querySelector('h1')?.focus();
  };
  fill(desk.root, el('div', { class: 'drawing broken' },
    el('h1', {}, file.id),
    el('p', {}, 'This file cannot be read as a chart yet.'),
    list(file.faults),
    el('label', {}, 'The file', text),
    el('p', {}, button('Keep this text', mend, { class: 'main writes' }))));
};
