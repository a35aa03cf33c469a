// A learner's log: what is finished and how it went, what fits next, the way to a dream.
import { attempt, get, post } from '../api.js';
import { el, fill, say } from '../dom.js';
import { myGauge, myPiece } from './fit.js';
import { capital, dayOf, hoursOf, sentence, wordsOf } from './words.js';

/** @typedef {import('../types').Person} Person */
/** @typedef {import('../types').Course} Course */

/** How it went, in the words of the log. */
const WENT = /** @type {const} */ ({ easy: 'It was easy', right: 'It was right', hard: 'It was hard' });

/**
 * One of the next three.
 * @param {Person['next'][number]} one
 */
const nextCard = (one) => {
  const href = `#/${one.kind === 'chart' ? 'chart' : 'lesson'}/${encodeURIComponent(one.id)}`;
  return el(
    'li',
    {},
    el('h3', {}, el('a', { href }, one.title)),
    el('p', { class: 'figures' }, el('strong', {}, `A step of ${one.step}`), `, how hard: ${one.grade} of 100`),
    one.reasons.map((reason) => el('p', {}, sentence(reason))),
    one.hours ? el('p', { class: 'note figures' }, hoursOf(one.hours)) : null,
  );
};

/**
 * @param {Person} person
 */
const next = (person) => [
  el('h2', { id: 'next' }, 'What fits next'),
  person.aim ? el('p', { class: 'note' }, sentence(person.aim)) : null,
  person.next.length
    ? el('ol', { class: 'cards' }, person.next.map(nextCard))
    : el('p', {}, 'Everything of this course is finished.'),
];

/**
 * @param {Person} person
 */
const finished = (person) => {
  if (!person.done.length) return el('p', {}, 'Nothing yet.');
  const line = (/** @type {Person['done'][number]} */ one) =>
    el(
      'tr',
      {},
      el('th', { scope: 'row' }, one.title),
      el('td', {}, one.went),
      el('td', {}, one.on ? dayOf(one.on) : ''),
      el('td', {}, one.note ?? ''),
    );
  return el(
    'div',
    { class: 'wide', tabindex: 0, role: 'region', 'aria-label': 'All that is finished' },
    el(
      'table',
      {},
      el(
        'thead',
        {},
        el(
          'tr',
          {},
          ['Made', 'How it went', 'Day', 'Note'].map((head) => el('th', { scope: 'col' }, head)),
        ),
      ),
      el('tbody', {}, person.done.map(line)),
    ),
  );
};

/**
 * What may have been made: the lessons, then the charts by themselves.
 * @param {Course} course
 */
const madeOptions = (course) => [
  el(
    'optgroup',
    { label: 'Lessons' },
    course.lessons.map(({ id, title }) => el('option', { value: id }, title)),
  ),
  el(
    'optgroup',
    { label: 'Charts' },
    course.charts.map(({ id, title }) => el('option', { value: id }, title)),
  ),
];

/**
 * Three answers to choose one of.
 */
const wentChoice = () => {
  const boxes = Object.entries(WENT).map(([went, words]) => {
    const box = el('input', { type: 'radio', name: 'went', value: went, '.checked': went === 'right' });
    return { box, label: el('label', { class: 'beside' }, box, words) };
  });
  return {
    group: el(
      'fieldset',
      {},
      el('legend', {}, 'How did it go?'),
      el(
        'div',
        { class: 'row' },
        boxes.map(({ label }) => label),
      ),
    ),
    value: () => boxes.find(({ box }) => box.checked)?.box.value ?? 'right',
  };
};

/**
 * The form for something finished.
 * @param {Course} course
 * @param {Person} person
 * @param {(done: Record<string, unknown>) => Promise<Person | null>} keep
 */
const doneForm = (course, person, keep) => {
  const words = wordsOf(course);
  const made = el('select', {}, madeOptions(course));
  // What was proposed is the likeliest to be finished.
  const likeliest = (/** @type {Person} */ { next }) => void (made.value = next[0]?.id ?? made.value);
  likeliest(person);
  const went = wentChoice();
  const on = el('input', { type: 'date' });
  const note = el('input', { type: 'text', maxlength: 200, autocomplete: 'off' });
  const stitches = el('input', { type: 'number', min: 1, max: 99, step: 'any', inputmode: 'decimal' });
  const rows = el('input', { type: 'number', min: 1, max: 99, step: 'any', inputmode: 'decimal' });
  const submit = async (/** @type {Event} */ event) => {
    event.preventDefault();
    const gauge = stitches.value && rows.value ? [stitches, rows].map(({ value }) => words.toTen(value)) : undefined;
    const kept = await keep({
      made: made.value,
      went: went.value(),
      on: on.value || undefined,
      note: note.value.trim() || undefined,
      gauge,
    });
    if (kept) {
      for (const input of [note, stitches, rows]) input.value = '';
      both();
      likeliest(kept);
    }
    made.focus();
  };
  const both = () => {
    rows.required = !!stitches.value;
    stitches.required = !!rows.value;
  };
  stitches.addEventListener('input', both);
  rows.addEventListener('input', both);
  return el(
    'form',
    { class: 'writes', onsubmit: submit },
    el('h3', {}, 'I finished something'),
    el('div', { class: 'row' }, el('label', {}, 'What', made), el('label', {}, 'Day (may be left out)', on)),
    went.group,
    el('div', { class: 'row' }, el('label', { class: 'long' }, 'Note (may be left out)', note)),
    el(
      'fieldset',
      {},
      el('legend', {}, `${capital(words.gauge)} measured, over ${words.over} (may be left out)`),
      el('div', { class: 'row' }, el('label', {}, 'Stitches', stitches), el('label', {}, 'Rows', rows)),
    ),
    el('p', {}, el('button', { type: 'submit', class: 'main' }, 'Put it in the log')),
  );
};

/**
 * @param {import('../types').Way} way
 * @param {string} dream
 */
const wayList = (way, dream) => [
  el(
    'p',
    {},
    way.lessons.length
      ? `${way.lessons.length === 1 ? 'One lesson' : `${way.lessons.length} lessons`} to ${dream}; the largest step is ${way.largest}.`
      : `${dream} is done already.`,
  ),
  el(
    'ol',
    {},
    way.lessons.map((lesson) =>
      el(
        'li',
        { class: 'figures' },
        el('a', { href: `#/lesson/${encodeURIComponent(lesson.id)}` }, lesson.title),
        lesson.again ? ' once more' : '',
        `: a step of ${lesson.step}, how hard: ${lesson.grade}`,
        lesson.newTechniques.length
          ? `; new: ${lesson.newTechniques.map((name) => name.replaceAll('-', ' ')).join(', ')}`
          : '',
      ),
    ),
  ),
];

/**
 * The way to a dream.
 * @param {Course} course
 * @param {string} id
 */
const dreaming = (course, id) => {
  const dream = el(
    'select',
    {},
    course.lessons.toReversed().map((lesson) => el('option', { value: lesson.id }, lesson.title)),
  );
  const place = el('div', { class: 'answer', role: 'status' });
  const submit = async (/** @type {Event} */ event) => {
    event.preventDefault();
    const title = dream.selectedOptions[0]?.textContent ?? '';
    const way = await attempt(() =>
      get(`/api/person/${encodeURIComponent(id)}/way?to=${encodeURIComponent(dream.value)}`),
    );
    if (way) fill(place, ...wayList(/** @type {import('../types').Way} */ (way), title));
  };
  return el(
    'section',
    { 'aria-labelledby': 'dream' },
    el('h2', { id: 'dream' }, 'The way to a dream'),
    el(
      'form',
      { class: 'row', onsubmit: submit },
      el('label', {}, 'I want to make', dream),
      el('button', { type: 'submit' }, 'Show the way'),
    ),
    place,
  );
};

/**
 * @param {import('../main.js').Desk} desk
 * @returns {Promise<import('../main.js').View | void>}
 */
export async function show(desk) {
  const { course, root } = desk;
  const id = desk.words[0] ?? '';
  const path = `/api/person/${encodeURIComponent(id)}`;
  const first = await attempt(() => get(path));
  const home = el('p', {}, el('a', { href: '#/people' }, 'All learners'));
  if (!first) return void fill(root, home, el('h1', {}, 'No such log'));
  const person = /** @type {Person} */ (first);
  const nextPlace = el('section', { 'aria-labelledby': 'next' }, next(person));
  const donePlace = el('div', {}, finished(person));
  const take = (/** @type {Person} */ now) => {
    fill(nextPlace, ...next(now));
    fill(donePlace, finished(now));
  };
  const keep = async (/** @type {Record<string, unknown>} */ done) => {
    const now = /** @type {Person | null} */ (await attempt(() => post(`${path}/done`, done)));
    if (!now) return null;
    take(now);
    say(`Kept. Next: ${now.next.map(({ title }) => title).join(', ') || 'nothing more in this course'}`);
    return now;
  };
  fill(
    root,
    home,
    el('h1', {}, person.name),
    el('p', { class: 'note' }, `The log is kept in people/${person.id}.yaml and is never printed.`),
    nextPlace,
    el(
      'div',
      { class: 'halves' },
      el(
        'section',
        { 'aria-labelledby': 'done' },
        el('h2', { id: 'done' }, 'Finished'),
        donePlace,
        doneForm(course, person, keep),
      ),
      dreaming(course, id),
    ),
    el('div', { class: 'halves' }, myGauge(course), myPiece(course)),
  );
  return {
    changed: async () => {
      const now = await attempt(() => get(path));
      if (now && !nextPlace.contains(document.activeElement)) take(/** @type {Person} */ (now));
    },
  };
}
