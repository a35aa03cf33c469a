// A copy of a chart that the course has.
import { attempt, post } from '../api.js';
import { el } from '../dom.js';
import { idOf, taken } from '../names.js';

/**
 * @param {import('../types').Course} course
 * @param {string} copy
 * @param {string} title
 * @returns {Promise<string | null>} the id of the copy
 */
const copyOf = async (course, copy, title) => {
  const id = idOf(title, taken(course));
  const file = /** @type {import('../types').File | null} */ (
    await attempt(() => post('/api/new', { kind: 'chart', id, copy }))
  );
  if (!file) return null;
  await attempt(() =>
    post(`/api/file/${encodeURIComponent(file.id)}`, { at: file.at, edits: [{ at: ['title'], text: title }] }),
  );
  return file.id;
};

/**
 * The way in for a chart of the library.
 * @param {import('../types').Course} course
 */
export const copying = (course) => {
  const chart = el(
    'select',
    {},
    course.charts.map(({ id, title }) => el('option', { value: id }, title)),
  );
  const picture = el('img', { class: 'paper', alt: '', onerror: () => void (picture.hidden = true) });
  const look = () => {
    picture.hidden = false;
    picture.src = `/api/fabric/${encodeURIComponent(chart.value)}.svg`;
  };
  chart.addEventListener('change', look);
  if (chart.value) look();
  const title = el('input', { type: 'text', required: true, maxlength: 80, autocomplete: 'off' });
  const submit = async (/** @type {Event} */ event) => {
    event.preventDefault();
    const id = title.value.trim() && (await copyOf(course, chart.value, title.value.trim()));
    if (id) location.hash = `#/chart/${encodeURIComponent(id)}`;
  };
  return el(
    'section',
    { 'aria-labelledby': 'copy' },
    el('h2', { id: 'copy' }, 'A chart of this course'),
    el('p', { class: 'note' }, 'The copy is yours to change; it keeps the rights and the source of its first.'),
    course.charts.length
      ? el(
          'form',
          { onsubmit: submit },
          el('label', {}, 'Chart', chart),
          picture,
          el('label', {}, 'Title of the copy', title),
          el('p', {}, el('button', { type: 'submit' }, 'Copy it')),
        )
      : el('p', {}, 'There are no charts yet.'),
  );
};
