// The shelf of charts: what each asks, how it looks, who uses it; new ones and copies begin here.
import { attempt, post } from '../api.js';
import { button, el, fill } from '../dom.js';
import { idOf, taken } from '../names.js';
import { RIGHTS } from './about.js';
import { figure } from './figures.js';

/**
 * @typedef {import('../main.js').Desk} Desk
 * @typedef {import('../types').Course} Course
 * @typedef {import('../types').Shelf} Chart
 */

const HEADS = ['Chart', 'Stitches × rows', 'Colours', 'How hard, of 100', 'Level', 'How busy it looks', 'Longest float', 'Used by', 'Who may copy it', ''];

/** @param {Desk} desk @returns {Promise<import('../main.js').View>} */
export const show = async (desk) => {
  const table = el('div', { class: 'wide', tabindex: 0, role: 'region', 'aria-label': 'Charts' });
  const form = el('div', { class: 'begin writes' });
  const shelf = { desk, table, form };
  fill(desk.root,
    el('h1', {}, 'Charts'),
    el('div', { class: 'row writes' },
      button('New chart', () => fresh(shelf), { class: 'main' }),
      el('a', { class: 'button', href: '#/bring' }, 'Bring one in from a picture or a text')),
    form, table);
  list(shelf, desk.course);
  return { changed: (_change, course) => list(shelf, course) };
};

/** @typedef {{ desk: Desk, table: HTMLElement, form: HTMLElement }} Shelf */

/** @param {Shelf} shelf @param {Course} course */
const list = (shelf, course) => {
  shelf.desk.course = course;
  const focused = document.activeElement instanceof HTMLElement && shelf.table.contains(document.activeElement) ? document.activeElement.dataset.what : null;
  fill(shelf.table, el('table', { role: 'table' },
    el('thead', {}, el('tr', {}, HEADS.map((head, i) =>
      head ? el('th', { scope: 'col', class: [2, 3, 5, 6].includes(i) && 'number' }, head) : el('td', {}, el('span', { class: 'unseen' }, 'Do'))))),
    el('tbody', {}, course.charts.toSorted((a, b) => a.title.localeCompare(b.title)).map((chart) => row(shelf, chart)))));
  if (!course.charts.length) fill(shelf.table, el('p', {}, 'No charts yet. Begin with a new one.'));
  if (focused) [...shelf.table.querySelectorAll('button')].find((made) => made.dataset.what === focused)?.focus();
};

/** @param {Shelf} shelf @param {Chart} chart */
const row = (shelf, chart) => {
  const lessons = shelf.desk.course.lessons;
  const users = chart.usedBy.map((id) => lessons.find((rung) => rung.id === id) ?? { id, title: id });
  /** @param {number} i @param {...(Node | string | number | (Node | string | null)[])} children */
  const cell = (i, ...children) => el('td', { 'data-head': HEADS[i], class: [2, 3, 5, 6].includes(i) && 'number' }, ...children);
  return el('tr', {},
    el('th', { scope: 'row' }, el('a', { href: `#/chart/${chart.id}` }, chart.title), chart.changed && el('span', { class: 'note' }, ' not saved')),
    cell(1, `${chart.stitches} × ${chart.rows}`),
    cell(2, chart.colours),
    cell(3, el('strong', {}, figure(chart.grade))),
    cell(4, chart.level),
    cell(5, figure(chart.busyness)),
    cell(6, chart.longest),
    cell(7, users.length ? users.flatMap((user, i) => [i ? ', ' : null, el('a', { href: `#/lesson/${user.id}` }, user.title)]) : el('span', { class: 'note' }, 'none')),
    cell(8, RIGHTS.find(({ id }) => id === chart.rights)?.name ?? chart.rights),
    el('td', { class: 'do writes' },
      button('Copy', () => copy(shelf, chart), { 'aria-label': `Copy ${chart.title}`, 'data-what': `copy ${chart.id}` }),
      el('a', { href: `#/make/${chart.id}` }, 'Make something of it', el('span', { class: 'unseen' }, `: ${chart.title}`))));
};

/** A free id. @param {Desk} desk @param {string} title */
const freeId = (desk, title) => idOf(title, taken(desk.course), 'chart');

/**
 * A form that asks for a title, an id and more, and begins a chart.
 * @param {Shelf} shelf
 * @param {string} head
 * @param {string} first
 * @param {HTMLElement[]} more
 * @param {() => object} body
 */
const ask = ({ desk, form }, head, first, more, body) => {
  const title = el('input', { required: true, '.value': first, size: 24, autocomplete: 'off' });
  const id = el('input', { required: true, pattern: '[a-z0-9]+(-[a-z0-9]+)*', '.value': first && freeId(desk, first), size: 18, autocomplete: 'off' });
  let own = false;
  id.addEventListener('input', () => {
    own = true;
  });
  title.addEventListener('input', () => {
    if (!own) id.value = freeId(desk, title.value);
  });
  fill(form, el('form', {
    onsubmit: async (/** @type {Event} */ event) => {
      event.preventDefault();
      const made = await attempt(() => post('/api/new', { kind: 'chart', id: id.value, title: title.value.trim(), ...body() }));
      if (made) location.hash = `#/chart/${id.value}`;
    },
  }, el('h2', {}, head),
  el('div', { class: 'row' }, el('label', {}, 'Title', title), el('label', {}, 'Name of its file', id), more,
    el('button', { class: 'main' }, 'Begin'), button('Not now', () => fill(form)))));
  title.focus();
  title.select();
};

/** @param {Shelf} shelf */
const fresh = (shelf) => {
  /** @param {number} value @param {number} max */
  const number = (value, max) => el('input', { type: 'number', min: 1, max, value, required: true, class: 'few' });
  const [stitches, rows, colours] = [number(12, 400), number(12, 400), number(2, 9)];
  ask(shelf, 'New chart', '', [el('label', {}, 'Stitches', stitches), el('label', {}, 'Rows', rows), el('label', {}, 'Colours', colours)],
    () => ({ stitches: Number(stitches.value), rows: Number(rows.value), colours: Number(colours.value) }));
};

/** @param {Shelf} shelf @param {Chart} chart */
const copy = (shelf, chart) => ask(shelf, `A copy of ${chart.title}`, `${chart.title} again`, [], () => ({ copy: chart.id }));
