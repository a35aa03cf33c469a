// One lesson on the ladder: its place, what it is, how hard, how large a step, and the handle that moves it.
import { button, el } from '../dom.js';
import { sentence } from './faults.js';
import { bar, stepText, techniqueText } from './bar.js';

/**
 * @typedef {import('../types').Rung} Rung
 * @typedef {import('../types').Gap} Gap
 * @typedef {{ step: number, newTechniques: string[], over: boolean, forbidden: string[] }} Tried
 * @typedef {{
 *   rung: Rung, place: number, last: number, gap: Gap | undefined, tried: Tried | undefined, moving: boolean,
 *   titleOf: (id: string) => string, readOnly: boolean, remedies: (gap: Gap) => Node, trial: () => Node | null,
 * }} Line
 */

/** What is new, in words. @param {string[]} techniques */
const news = (techniques) => (techniques.length ? `New: ${techniques.map(techniqueText).join(', ')}` : 'Nothing new');

/** The step, and what it was before the lesson was moved. @param {Line} line */
const step = ({ rung, tried }) => {
  const now = tried?.step ?? rung.step;
  const changed = tried !== undefined && tried.step !== rung.step;
  return el('p', { class: 'step figures' },
    el('span', { class: 'unseen' }, 'Step '),
    el('b', { class: tried?.over && 'over' }, stepText(now)),
    changed && el('span', { class: 'was' }, `was ${stepText(rung.step)}`));
};

/** Handle of a lesson. @param {Line} line */
const handle = ({ rung, moving }) =>
  el('button', {
    type: 'button', class: 'handle writes', 'data-id': rung.id, 'aria-expanded': String(moving),
    'aria-label': `Move ${rung.title}`, 'aria-keyshortcuts': 'ArrowUp ArrowDown', title: 'Drag, or use the arrow keys',
  }, el('span', { class: 'grip', 'aria-hidden': 'true' }), el('span', { 'aria-hidden': 'true' }, 'Move'));

/** Why the step is too large, and what would close the gap. @param {Line} line */
const gapNote = ({ gap, tried, remedies }) =>
  gap && !tried
    ? el('div', { class: 'gap' }, el('p', {}, el('b', {}, 'Too large a step. '), sentence(gap.cause)), remedies(gap))
    : null;

/** What the tried order does to this lesson. @param {Line} line */
const triedNote = ({ rung, tried, titleOf }) => {
  if (!tried) return null;
  if (tried.forbidden.length) {
    return el('p', { class: 'forbidden' }, el('b', {}, 'Not possible. '), `It needs ${tried.forbidden.map(titleOf).join(' and ')}, which would come after it. `, el('a', { href: `#/lesson/${rung.id}` }, 'Change what it needs'));
  }
  return tried.over ? el('p', { class: 'forbidden' }, el('b', {}, 'Too large a step.')) : null;
};

/**
 * @param {Line} line
 * @returns {HTMLLIElement}
 */
export const rungLine = (line) => {
  const { rung, place, moving, tried, readOnly } = line;
  return el('li', { class: moving ? 'moving' : null, 'data-id': rung.id, value: place },
    el('span', { class: 'rung figures', 'aria-hidden': 'true' }, place),
    el('div', { class: 'what' },
      el('p', { class: 'title' }, el('a', { href: `#/lesson/${rung.id}` }, rung.title), rung.changed && el('span', { class: 'tag' }, 'not saved')),
      el('p', { class: 'note' }, news(tried?.newTechniques ?? rung.newTechniques))),
    el('p', { class: 'grade figures' }, /** @type {any} */ (bar(rung.points)), el('span', { class: 'unseen' }, 'How hard: '), el('b', {}, Math.round(rung.grade)),
      el('span', { class: 'unseen' }, ` of 100, ${rung.level}`)),
    step(line),
    !readOnly && handle(line),
    gapNote(line), triedNote(line), moving && line.trial());
};

/**
 * Below a lesson that is being moved: where it stands now, and what can be done.
 * @param {{ title: string, place: number, of: number, verdict: string, possible: boolean, earlier: () => void, later: () => void, keep: () => void, back: () => void }} now
 */
export const trialBox = (now) =>
  el('div', { class: 'trial', role: 'group', 'aria-label': `Where ${now.title} stands` },
    el('p', { class: 'verdict' }, now.verdict),
    el('div', { class: 'row' },
      button('Up', now.later, { 'data-act': 'up', disabled: now.place >= now.of }),
      button('Down', now.earlier, { 'data-act': 'down', disabled: now.place <= 1 }),
      button('Keep this order', now.keep, { class: 'main', 'data-act': 'keep', disabled: !now.possible }),
      button('Put it back', now.back, { 'data-act': 'back' })));
