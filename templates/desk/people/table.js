// The register's table: a learner a line, a tick a lesson.
import { button, el, trouble } from '../dom.js';
import { wordsOf } from './words.js';
import { alter, tick } from './register.js';

/** @typedef {import('./register.js').Learner} Learner */
/** @typedef {import('./register.js').Change} Change */
/**
 * @typedef {{
 *   course: import('../types').Course,
 *   keep: (change: Change, told: string) => Promise<boolean>,
 *   remove: (learner: Learner) => void,
 *   known: (name: string) => boolean,
 * }} Around
 */

/**
 * The sizes that a learner may have; the one she has stands there even if the course does not know it.
 * @param {import('../types').Course} course
 * @param {string} size
 */
export const sizeOptions = (course, size) => {
  const known = course.sizes.some(({ id }) => id === size);
  return [
    el('option', { value: '', '.selected': !size }, 'not known'),
    ...course.sizes.map(({ id, label }) => el('option', { value: id, '.selected': id === size }, label)),
    !known && size ? el('option', { value: size, '.selected': true }, size) : null,
  ];
};

/**
 * A field of a line that is kept when it is left or Enter is pressed.
 * @param {Around} around
 * @param {Learner} learner
 * @param {'name' | 'colours'} which
 * @param {string} label
 */
const field = (around, learner, which, label) => {
  const input = el('input', {
    type: 'text',
    value: learner[which],
    'aria-label': label,
    'data-key': `${which} ${learner.name}`,
    autocomplete: 'off',
    '.readOnly': around.course.readOnly,
    maxlength: 80,
  });
  input.addEventListener('change', () => {
    const value = input.value.trim();
    if (value === learner[which]) return;
    if (which === 'name' && (!value || around.known(value))) {
      input.value = learner.name;
      if (value) trouble(`There is a ${value} already: add a letter or a second name.`);
      return;
    }
    // Under its new name the field is found again when all is drawn anew.
    if (which === 'name') input.dataset.key = `name ${value}`;
    around.keep(
      alter(learner.name, () => ({ [which]: value })),
      which === 'name'
        ? `${learner.name} is now ${value}`
        : `${wordsOf(around.course).colours} of ${learner.name} kept`,
    );
  });
  return input;
};

/**
 * @param {Around} around
 * @param {Learner} learner
 * @param {import('../types').Rung} lesson
 */
const tickCell = (around, learner, lesson) => {
  const box = el('input', {
    type: 'checkbox',
    '.checked': learner.done.includes(lesson.id),
    'aria-label': `${learner.name} has done ${lesson.title}`,
    'data-key': `${lesson.id} ${learner.name}`,
    '.disabled': around.course.readOnly,
  });
  box.addEventListener('change', () =>
    around.keep(
      tick(learner.name, lesson.id, box.checked),
      `${learner.name}: ${lesson.title} ${box.checked ? 'done' : 'not done'}`,
    ),
  );
  return el('td', { class: 'tick' }, el('label', {}, box));
};

/**
 * @param {Around} around
 * @param {Learner} learner
 * @param {string | null | undefined} next
 */
const line = (around, learner, next) => {
  const { course } = around;
  const size = el(
    'select',
    {
      'aria-label': `Size of ${learner.name}`,
      'data-key': `size ${learner.name}`,
      '.disabled': course.readOnly,
      onchange: () =>
        around.keep(
          alter(learner.name, () => ({ size: size.value })),
          `Size of ${learner.name} kept`,
        ),
    },
    sizeOptions(course, learner.size),
  );
  const at = course.lessons.find(({ id }) => id === next);
  return el(
    'tr',
    {},
    el('th', { scope: 'row' }, field(around, learner, 'name', `Name of ${learner.name}`)),
    el(
      'td',
      { class: 'next' },
      at
        ? el('a', { href: `#/lesson/${encodeURIComponent(at.id)}`, 'data-key': `next ${learner.name}` }, at.title)
        : (next ?? 'all done'),
    ),
    course.lessons.map((lesson) => tickCell(around, learner, lesson)),
    el('td', {}, size),
    el('td', {}, field(around, learner, 'colours', `${wordsOf(course).colours} of ${learner.name}`)),
    el(
      'td',
      { class: 'writes' },
      button('Remove', () => around.remove(learner), {
        'aria-label': `Remove ${learner.name}`,
        'data-key': `remove ${learner.name}`,
      }),
    ),
  );
};

/**
 * The whole table.
 * @param {Around} around
 * @param {import('../types').Register} register
 */
export const table = (around, register) => {
  const { course } = around;
  const head = el(
    'tr',
    {},
    el('th', { scope: 'col' }, 'Name'),
    el('th', { scope: 'col' }, 'Next lesson'),
    course.lessons.map((lesson, i) =>
      el('th', { scope: 'col', class: 'lesson' }, el('span', {}, `${i + 1} ${lesson.title}`)),
    ),
    el('th', { scope: 'col' }, 'Size'),
    el('th', { scope: 'col' }, wordsOf(course).colours),
    el('td', { class: 'writes' }),
  );
  return el(
    'table',
    {},
    el('caption', { class: 'unseen' }, 'Learners, and which lessons each has done'),
    el('thead', {}, head),
    el(
      'tbody',
      {},
      register.learners.map((learner, i) => line(around, learner, register.next[i])),
    ),
  );
};
