// A lesson that is tried at another place of the ladder: nothing is written until the order is kept.
import { attempt, get, post } from '../api.js';
import { say } from '../dom.js';

/**
 * @typedef {import('../types').Along} Along
 * @typedef {import('../types').Course} Course
 */

export class Trial {
  /**
   * @param {Course} course
   * @param {() => void} changed draws anew
   */
  constructor(course, changed) {
    this.course = course;
    this.changed = changed;
    /** @type {string | null} */
    this.moved = null;
    /** @type {string[]} */
    this.ids = [];
    /** @type {Along | null} */
    this.along = null;
    this.asked = 0;
  }

  /** The lessons in the order that is shown. */
  get lessons() {
    const { lessons } = this.course;
    if (!this.moved) return lessons;
    const byId = new Map(lessons.map((rung) => [rung.id, rung]));
    return this.ids.flatMap((id) => byId.get(id) ?? []);
  }

  get before() {
    return this.course.lessons.map((rung) => rung.id);
  }

  get elsewhere() {
    return this.ids.join() !== this.before.join();
  }

  /** @param {string} id */
  begin(id) {
    if (this.moved !== id) this.ids = this.before;
    this.moved = id;
    this.along = null;
    this.changed();
  }

  /**
   * Puts the lesson that is moved to a place, counted from 0.
   * @param {number} place
   */
  async to(place) {
    const { moved } = this;
    if (!moved) return;
    const others = this.ids.filter((id) => id !== moved);
    const at = Math.max(0, Math.min(others.length, place));
    if (this.ids[at] === moved) return;
    this.ids = [...others.slice(0, at), moved, ...others.slice(at)];
    this.along = null;
    this.changed();
    await this.look();
  }

  /** Asks what the ladder would be. */
  async look() {
    const mine = ++this.asked;
    if (!this.elsewhere) return this.changed();
    const along = await attempt(() => /** @type {Promise<Along>} */ (post('/api/along', { ids: this.ids })));
    if (mine !== this.asked || !this.moved) return;
    this.along = along;
    this.changed();
    say(`Place ${this.ids.indexOf(this.moved) + 1} of ${this.ids.length}. ${this.verdict().text}`);
  }

  /** @param {string} id */
  title(id) {
    return this.course.lessons.find((rung) => rung.id === id)?.title ?? id;
  }

  /** What the tried order comes to, in words. */
  verdict() {
    if (!this.elsewhere) return { text: 'This is its place now. Move it up or down.', possible: false };
    if (!this.along) return { text: 'Looking …', possible: false };
    const { lessons, largest } = this.along;
    const late = lessons.find((one) => one.forbidden.length);
    if (late) {
      const needed = late.forbidden.map((id) => this.title(id)).join(' and ');
      return { text: `Not possible: ${this.title(late.id)} needs ${needed}, which would come after it.`, possible: false };
    }
    const over = lessons.filter((one) => one.over).map((one) => this.title(one.id));
    const steps = `Largest step +${largest}.`;
    return { text: over.length ? `${steps} Over the budget: ${over.join(', ')}.` : `${steps} All steps are within the budget.`, possible: true };
  }

  back() {
    this.moved = null;
    this.along = null;
    this.asked += 1;
    this.changed();
    say('Put back');
  }

  /**
   * Keeps the order.
   * @returns {Promise<Course | null>}
   */
  async keep() {
    const { ids, moved } = this;
    const course = await attempt(() => /** @type {Promise<Course>} */ (post('/api/along/keep', { ids, moved })));
    if (!course) return null;
    this.moved = null;
    this.along = null;
    this.asked += 1;
    say('The order is kept. Save to write it to the files');
    return /** @type {Promise<Course | null>} */ (attempt(() => get('/api/course')));
  }
}
