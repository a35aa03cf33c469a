// Drafts that differ from their files: which, and saving them all.
import { Refused, attempt, get, post } from '../api.js';
import { button, el, say } from '../dom.js';

/**
 * @typedef {import('../types').Course} Course
 * @typedef {import('../types').File} File
 * @typedef {{ id: string, title: string, kind: File['kind'] }} Draft
 */

/**
 * The drafts that are not saved.
 * @param {Course} course
 * @returns {Draft[]}
 */
export const unsaved = (course) =>
  course.drafts.map(({ id, kind, title }) => ({ id, kind, title: kind === 'course' ? 'Settings of the course' : title }));

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
