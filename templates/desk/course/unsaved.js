// Drafts that differ from their files: which, and saving them all.
import { Refused, attempt, get, post } from '../api.js';
import { button, el, say } from '../dom.js';

/**
 * @typedef {import('../types').Course} Course
 * @typedef {import('../types').File} File
 * @typedef {{ id: string, title: string, kind: File['kind'] }} Draft
 */

/**
 * The drafts that are not saved. Files with errors and the settings are not among the lessons and charts of the course;
 * they are asked for one by one.
 * @param {Course} course
 * @returns {Promise<Draft[]>}
 */
export const unsaved = async (course) => {
  /** @type {Draft[]} */
  const found = [
    ...course.lessons.filter((rung) => rung.changed).map((rung) => ({ id: rung.id, title: rung.title, kind: /** @type {const} */ ('lesson') })),
    ...course.charts.filter((shelf) => shelf.changed).map((shelf) => ({ id: shelf.id, title: shelf.title, kind: /** @type {const} */ ('chart') })),
  ];
  const known = new Set([...course.lessons, ...course.charts].map((one) => one.id));
  const others = new Set(['course', ...course.faults.flatMap((fault) => (fault.id && fault.kind && !known.has(fault.id) ? [fault.id] : []))]);
  const files = await Promise.all([...others].map(read));
  for (const file of files) {
    if (file?.changed) found.push({ id: file.id, title: file.kind === 'course' ? 'Settings of the course' : file.id, kind: file.kind });
  }
  return found;
};

/** @param {string} id @returns {Promise<File | null>} */
const read = (id) => get(`/api/file/${encodeURIComponent(id)}`).then((file) => /** @type {File} */ (file), (error) => {
  if (error instanceof Refused) return null;
  throw error;
});

/**
 * Saves every draft; those that were changed beside the desk stay, and are told.
 * @param {Draft[]} drafts
 */
export const saveAll = async (drafts) => {
  const kept = await attempt(async () => {
    const left = [];
    for (const draft of drafts) {
      const path = `/api/file/${encodeURIComponent(draft.id)}`;
      const file = /** @type {File} */ (await get(path));
      try {
        await post(`${path}/save`, { at: file.at });
      } catch (error) {
        if (!(error instanceof Refused) || error.status !== 409) throw error;
        left.push(draft.title);
      }
    }
    if (left.length) throw new Refused(409, { message: `Changed outside the desk, so not saved: ${left.join(', ')}.`, help: 'open it and choose which to keep' });
    return drafts.length;
  });
  if (kept !== null) say(`${kept} saved`);
};

/**
 * @param {Draft[]} drafts
 * @param {() => void} save
 * @returns {HTMLElement | null}
 */
export const unsavedList = (drafts, save) =>
  drafts.length
    ? el('section', { 'aria-labelledby': 'unsaved-word', class: 'unsaved' },
        el('h2', { id: 'unsaved-word' }, 'Not saved yet'),
        el('p', { class: 'note' }, 'Kept on the desk, not written to the files.'),
        el('ul', {}, drafts.map((draft) => el('li', {}, el('a', { href: `#/${draft.kind === 'chart' ? 'chart' : 'lesson'}/${draft.id}` }, draft.title)))),
        button('Save all', save, { class: 'writes main', 'data-act': 'save-all' }))
    : null;
