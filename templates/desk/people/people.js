// The register of the class, and the learners' own logs.
import { attempt, post } from '../api.js';
import { button, el, fill, trouble } from '../dom.js';
import { add, keeping, remove } from './register.js';
import { sizeOptions, table } from './table.js';
import { idOf } from '../names.js';
import { wordsOf } from './words.js';

/** @typedef {import('./register.js').Learner} Learner */

/**
 * Draws anew without losing the place: what had the focus has it again, with what was being typed.
 * @param {HTMLElement} place
 * @param {() => void} draw
 */
const keepingPlace = (place, draw) => {
  const held =
    document.activeElement instanceof HTMLElement && place.contains(document.activeElement)
      ? document.activeElement
      : null;
  const key = held?.dataset.key;
  const typed =
    held instanceof HTMLInputElement && held.type === 'text' && held.value !== held.defaultValue ? held.value : null;
  const scroller = place.querySelector('.wide');
  const left = scroller?.scrollLeft ?? 0;
  draw();
  const now = place.querySelector('.wide');
  if (now) now.scrollLeft = left;
  if (!key) return;
  const again = [...place.querySelectorAll('[data-key]')].find(
    (one) => one instanceof HTMLElement && one.dataset.key === key,
  );
  if (!(again instanceof HTMLElement)) return;
  if (typed !== null && again instanceof HTMLInputElement) {
    again.value = typed;
    // The browser counts only what is typed from now on as a change.
    again.addEventListener('blur', () => again.dispatchEvent(new Event('change')), { once: true });
  }
  again.focus({ preventScroll: true });
};

/**
 * The line that adds a learner.
 * @param {import('../types').Course} course
 * @param {(learner: Learner) => Promise<boolean>} take
 */
const adding = (course, take) => {
  const name = el('input', { type: 'text', required: true, autocomplete: 'off', maxlength: 80 });
  const size = el('select', {}, sizeOptions(course, ''));
  const colours = el('input', { type: 'text', autocomplete: 'off', maxlength: 80 });
  const submit = async (/** @type {Event} */ event) => {
    event.preventDefault();
    if (!name.value.trim()) return;
    const taken = await take({ name: name.value.trim(), size: size.value, colours: colours.value.trim(), done: [] });
    if (taken) {
      name.value = '';
      colours.value = '';
      size.value = '';
    }
    name.focus();
  };
  return el(
    'form',
    { class: 'row writes', onsubmit: submit },
    el('label', {}, 'Name', name),
    el('label', {}, 'Size', size),
    el('label', {}, wordsOf(course).colours, colours),
    el('button', { type: 'submit' }, 'Add'),
  );
};

/**
 * The logs, and a new one.
 * @param {import('../types').Course} course
 */
const logs = (course) => {
  const name = el('input', { type: 'text', required: true, autocomplete: 'off', maxlength: 80 });
  const submit = async (/** @type {Event} */ event) => {
    event.preventDefault();
    const called = name.value.trim();
    if (!called) return;
    const person = await attempt(() =>
      post('/api/person', {
        id: idOf(
          called,
          course.people.map(({ id }) => id),
        ),
        name: called,
      }),
    );
    if (person) location.hash = `#/person/${encodeURIComponent(/** @type {import('../types').Person} */ (person).id)}`;
  };
  return el(
    'section',
    { class: 'logs', 'aria-labelledby': 'logs' },
    el('h2', { id: 'logs' }, 'Logs'),
    el(
      'p',
      { class: 'note' },
      'What one learner has finished and how it went, what fits her next, and her way to a dream.',
    ),
    course.people.length
      ? el(
          'ul',
          {},
          course.people.map((person) =>
            el('li', {}, el('a', { href: `#/person/${encodeURIComponent(person.id)}` }, person.name)),
          ),
        )
      : el('p', {}, 'No logs yet.'),
    el(
      'form',
      { class: 'row writes', onsubmit: submit },
      el('label', {}, 'Name', name),
      el('button', { type: 'submit' }, 'New log'),
    ),
  );
};

/**
 * The place where a removed learner can be put back.
 * @param {(learner: Learner, at: number) => Promise<boolean>} back
 */
const putBack = (back) => {
  const place = el('p', { class: 'back', hidden: true });
  const clear = () => void (place.hidden = true);
  const offer = (/** @type {Learner} */ learner, /** @type {number} */ at) => {
    const again = button('Put back', async () => {
      if (await back(learner, at)) clear();
    });
    fill(place, el('span', {}, `${learner.name} is removed.`), again);
    place.hidden = false;
    again.focus();
  };
  return { place, offer, clear };
};

/**
 * @param {import('../main.js').Desk} desk
 * @returns {Promise<import('../main.js').View | void>}
 */
export async function show(desk) {
  const place = el('div', { class: 'register' });
  let { course } = desk;
  const logsPlace = el('div', {}, logs(course));
  const draw = (/** @type {import('../types').Register} */ register) =>
    keepingPlace(place, () =>
      fill(
        place,
        register.learners.length
          ? el(
              'div',
              { class: 'wide', tabindex: 0, role: 'region', 'aria-label': 'Register' },
              table({ course, keep, remove: take, known }, register),
            )
          : el('p', {}, 'Nobody is in the register yet.'),
      ),
    );
  const kept = keeping(draw);
  const known = (/** @type {string} */ name) => !!kept.now()?.learners.some((learner) => learner.name === name);
  const back = putBack(async (learner, at) => {
    const done = await kept.keep(add(learner, at), `${learner.name} is put back`);
    if (done) focusOn(place, `name ${learner.name}`);
    return done;
  });
  const keep = (/** @type {import('./register.js').Change} */ change, /** @type {string} */ told) => {
    back.clear();
    return kept.keep(change, told);
  };
  const take = async (/** @type {Learner} */ learner) => {
    const now = kept.now()?.learners.find(({ name }) => name === learner.name) ?? learner;
    const at = kept.now()?.learners.indexOf(now) ?? 0;
    if (await kept.keep(remove(learner.name), `${learner.name} is removed`)) back.offer(now, at);
  };
  const taken = async (/** @type {Learner} */ learner) => {
    if (known(learner.name)) {
      trouble(`There is a ${learner.name} already: add a letter or a second name.`);
      return false;
    }
    return keep(add(learner), `${learner.name} is added`);
  };
  fill(
    desk.root,
    el('h1', {}, 'Learners'),
    el('p', { class: 'note' }, 'The register is kept in people/register.yaml, at once, and is never printed.'),
    place,
    back.place,
    adding(course, taken),
    logsPlace,
  );
  if (!(await attempt(() => kept.load().then(() => true)))) fill(place, el('p', {}, 'The register could not be read.'));
  return {
    changed: async (_, now) => {
      course = now;
      if (!logsPlace.contains(document.activeElement)) fill(logsPlace, logs(now));
      await kept.reload();
    },
  };
}

/**
 * @param {HTMLElement} place
 * @param {string} key
 */
const focusOn = (place, key) => {
  const found = [...place.querySelectorAll('[data-key]')].find(
    (one) => one instanceof HTMLElement && one.dataset.key === key,
  );
  if (found instanceof HTMLElement) found.focus();
};
