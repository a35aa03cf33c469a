// What would close a gap of the ladder: asked for when somebody wants to know, for it may take seconds.
import { attempt, get, post } from '../api.js';
import { button, el, fill, say } from '../dom.js';
import { sentence } from './faults.js';

/**
 * @typedef {import('../types').Course} Course
 * @typedef {import('../types').Gap} Gap
 * @typedef {import('../types').Remedy} Remedy
 */

export class Gaps {
  /**
   * @param {boolean} readOnly
   * @param {(course: Course) => void} taken
   */
  constructor(readOnly, taken) {
    this.readOnly = readOnly;
    this.taken = taken;
    /** @type {Map<string, Gap> | null} */
    this.known = null;
    /** @type {Set<string>} */
    this.open = new Set();
  }

  /** The course is another one by now. */
  forget() {
    this.known = null;
  }

  /** @param {Gap} gap @returns {HTMLElement} */
  remedies(gap) {
    const place = el('div', { class: 'remedies', 'data-gap': gap.id });
    if (this.open.has(gap.id)) this.show(gap, place, false);
    else fill(place, button('What would close it?', () => this.show(gap, place, true), { 'data-act': `gap-${gap.id}` }));
    return place;
  }

  /** @param {Gap} gap @param {HTMLElement} place @param {boolean} asked */
  async show(gap, place, asked) {
    this.open.add(gap.id);
    if (!this.known) {
      fill(place, el('p', { class: 'note' }, 'Looking for what would close it …'));
      const found = await attempt(() => /** @type {Promise<{ gaps: Gap[] }>} */ (get('/api/gaps')));
      this.known = found && new Map(found.gaps.map((one) => [one.id, one]));
    }
    const known = this.known?.get(gap.id);
    const remedies = known?.remedies ?? [];
    const cut = known?.not_searched_further;
    fill(place,
      remedies.length
        ? el('ul', { tabindex: -1 }, remedies.map((remedy) => this.line(remedy)))
        : !cut && el('p', { tabindex: -1 }, 'Nothing in this course closes it: put an easier lesson in between.'),
      cut && el('p', { class: 'note', tabindex: -1 }, 'Not searched further: to try every change of this course would take too long.'));
    if (!asked) return;
    /** @type {HTMLElement | null} */ (place.firstElementChild)?.focus();
    say(`${remedies.length} ${remedies.length === 1 ? 'remedy' : 'remedies'} found`);
  }

  /** @param {Remedy} remedy */
  line(remedy) {
    const { take } = remedy;
    return el('li', {},
      el('span', {}, sentence(remedy.text)),
      take && !this.readOnly && button('Take it', () => this.take(take), { class: 'writes' }));
  }

  /** @param {NonNullable<Remedy['take']>} take */
  async take(take) {
    const course = await attempt(() => /** @type {Promise<Course>} */ (post('/api/remedy', take)));
    if (!course) return;
    say('Taken. Save to write it to the files');
    this.taken(course);
  }
}
