// The course: its ladder, where lessons are moved; faults, drafts that are not saved, the pack.
import { attempt, get, post } from '../api.js';
import { actions, button, el, fill, kept, say } from '../dom.js';
import { hatches, legend } from './bar.js';
import { drags } from './drag.js';
import { faultList } from './faults.js';
import { Gaps } from './gaps.js';
import { PackBox } from './pack.js';
import { rungLine, trialBox } from './rungs.js';
import { Trial } from './trial.js';
import { saveAll, unsaved, unsavedList } from './unsaved.js';

/**
 * @typedef {import('../types').Course} Course
 * @typedef {import('../types').File} File
 */

class Page {
  /** @param {import('../main.js').Desk} desk */
  constructor({ root, course }) {
    this.root = root;
    this.course = course;
    this.list = el('ol', { class: 'ladder', reversed: true, 'aria-label': 'The ladder, the last lesson first' });
    this.side = el('div', {});
    this.pack = new PackBox(course.readOnly);
    this.gaps = new Gaps(course.readOnly, (now) => this.taken(now));
    this.trial = new Trial(course, () => this.draw());
    /** What the last kept order changed. @type {string[]} */
    this.undoable = [];
  }

  open() {
    const { course } = this;
    fill(this.root,
      /** @type {any} */ (hatches()),
      el('div', { class: 'columns' },
        el('section', { class: 'climb', 'aria-labelledby': 'course-title' },
          this.head(),
          el('div', { class: 'heads', 'aria-hidden': 'true' }, el('span', {}, 'Lesson'), el('span', {}, 'How hard'), el('span', {}, 'Step')),
          this.list, legend()),
        el('div', { class: 'side' }, this.side, this.pack.element)));
    drags(this.list, this.trial, course.readOnly);
    this.list.addEventListener('keydown', (event) => this.key(event));
    this.draw();
    this.around();
    this.pack.load();
  }

  head() {
    const { course } = this;
    const { step, doorstep, techniques } = course.budget;
    return el('div', { class: 'head' },
      el('h1', { id: 'course-title' }, course.title),
      el('p', { class: 'note' },
        `${course.guild ? `${course.guild}. ` : ''}${course.lessons.length} lessons, the first at the bottom. A step is at most ${step} (the first in two colours: ${doorstep}), with at most ${techniques} new techniques. `,
        el('a', { href: '#/lesson/course' }, 'Settings')));
  }

  /** The side: what is wrong, what is not saved. */
  async around() {
    const { course } = this;
    const drafts = unsaved(course);
    const focus = mark(this.side);
    const list = unsavedList(drafts, () => this.save(drafts));
    fill(this.side, ...[list, faultList(course.faults)].filter((part) => part !== null));
    if (!focus()) this.root.querySelector('h1')?.focus();
    kept(drafts.length ? `${drafts.length} not saved` : 'All saved');
    actions(...(this.undoable.length && !course.readOnly ? [button('Undo the new order', () => this.undo(), { class: 'writes' })] : []));
  }

  /** The ladder, the last lesson at the top. */
  draw() {
    const focus = mark(this.list);
    const { course, trial } = this;
    const { lessons } = trial;
    const tried = new Map(trial.along?.lessons.map((one) => [one.id, one]));
    const gaps = new Map(course.gaps.map((gap) => [gap.id, gap]));
    const titles = new Map(course.lessons.map((rung) => [rung.id, rung.title]));
    const lines = lessons.map((rung, i) =>
      rungLine({
        rung, place: i + 1, last: lessons.length, gap: gaps.get(rung.id), readOnly: course.readOnly,
        tried: trial.moved ? tried.get(rung.id) : undefined, moving: trial.moved === rung.id,
        titleOf: (id) => titles.get(id) ?? id, remedies: (gap) => this.gaps.remedies(gap), trial: () => this.box(rung, i),
      }));
    fill(this.list, lines.reverse());
    focus();
    if (!lessons.length) fill(this.list, el('li', { class: 'none' }, 'No lesson yet. Draw or bring in a chart, then make something of it.'));
  }

  /** @param {import('../types').Rung} rung @param {number} i */
  box(rung, i) {
    const { trial } = this;
    const { text, possible } = trial.verdict();
    return trialBox({
      title: rung.title, place: i + 1, of: trial.lessons.length, verdict: text, possible,
      later: () => trial.to(i + 1), earlier: () => trial.to(i - 1), back: () => this.back(rung.id), keep: () => this.keep(rung.id),
    });
  }

  /** @param {string} id */
  back(id) {
    this.trial.back();
    this.handle(id)?.focus();
  }

  /** @param {string} id */
  handle(id) {
    return /** @type {HTMLElement | null} */ (this.list.querySelector(`.handle[data-id="${CSS.escape(id)}"]`));
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const { trial } = this;
    const handle = /** @type {HTMLElement | null} */ (event.target instanceof Element ? event.target.closest('.handle') : null);
    if (event.key === 'Escape' && trial.moved) return this.back(trial.moved);
    const by = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    const id = handle?.dataset.id;
    if (!by || !id) return;
    event.preventDefault();
    if (trial.moved !== id) trial.begin(id);
    trial.to(trial.ids.indexOf(id) + by);
  }

  /** @param {string} id */
  async keep(id) {
    const before = this.course;
    const course = await this.trial.keep();
    if (!course) return;
    this.taken(course, before);
    this.handle(id)?.focus();
  }

  /** An order or a remedy was taken; it can be undone. @param {Course} course @param {Course} [old] */
  taken(course, old = this.course) {
    const before = new Map(old.lessons.map((rung) => [rung.id, rung.needs.join()]));
    this.undoable = course.lessons.filter((rung) => before.get(rung.id) !== rung.needs.join()).map((rung) => rung.id);
    this.take(course);
  }

  async undo() {
    for (const id of this.undoable) {
      const path = `/api/file/${encodeURIComponent(id)}`;
      const undone = await attempt(async () => post(`${path}/undo`, { at: /** @type {File} */ (await get(path)).at }));
      if (!undone) break;
    }
    this.undoable = [];
    say('The order is as before');
    await this.read();
    this.root.querySelector('h1')?.focus();
  }

  /** @param {Parameters<typeof saveAll>[0]} drafts */
  async save(drafts) {
    await saveAll(drafts);
    this.undoable = [];
    await this.read();
  }

  async read() {
    const course = await attempt(() => /** @type {Promise<Course>} */ (get('/api/course')));
    if (course) this.take(course);
  }

  /** The course as it stands now. @param {Course} course */
  take(course) {
    const { trial } = this;
    this.course = course;
    trial.course = course;
    this.gaps.forget();
    const known = new Set(course.lessons.map((rung) => rung.id));
    if (trial.moved && (trial.ids.length !== known.size || !trial.ids.every((id) => known.has(id)))) trial.back();
    const head = this.root.querySelector('.head');
    head?.replaceWith(this.head());
    this.root.querySelector('h1')?.setAttribute('tabindex', '-1');
    this.draw();
    if (trial.moved) trial.look();
    this.around();
  }
}

/**
 * Remembers what has the focus, and gives it back to the same control of the new drawing. False where it is gone.
 * @param {Element} place
 * @returns {() => boolean}
 */
const mark = (place) => {
  const active = document.activeElement;
  if (!(active instanceof HTMLElement) || !place.contains(active)) return () => true;
  const { id, act } = active.dataset;
  const href = active.getAttribute('href');
  const wanted = id ? `.handle[data-id="${CSS.escape(id)}"]` : act ? `[data-act="${CSS.escape(act)}"]` : href ? `[href="${CSS.escape(href)}"]` : null;
  return () => {
    if (!wanted) return false;
    /** @type {HTMLElement | null} */
    const again = place.querySelector(`${wanted}:not(:disabled)`) ?? place.querySelector('[data-act=back]');
    again?.focus({ preventScroll: place.classList.contains('dragging') });
    return again !== null;
  };
};

/**
 * @param {import('../main.js').Desk} desk
 * @returns {Promise<import('../main.js').View>}
 */
export async function show(desk) {
  const page = new Page(desk);
  page.open();
  page.root.querySelector('h1')?.setAttribute('tabindex', '-1');
  return {
    changed: (_, course) => page.take(course),
    pack: (pack) => page.pack.show(pack),
  };
}
