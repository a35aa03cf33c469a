// From a chart to a lesson: a few questions, and beside them what comes of the answers, at once.
import { Refused, attempt, get, post } from '../api.js';
import { actions, el, fill, kept, say, trouble } from '../dom.js';
import { Answers } from './answers.js';
import { Questions } from './questions.js';
import { Result } from './result.js';

/**
 * @typedef {import('../types').File} File
 * @typedef {import('../types').Make} Make
 * @typedef {import('../types').Making} Making
 */

/** How long nothing is changed before the lesson is made anew, in ms. */
const PAUSE = 150;

class Page {
  /** @param {import('../main.js').Desk} desk @param {Making} making */
  constructor(desk, making) {
    this.course = desk.course;
    this.root = desk.root;
    this.answers = new Answers(making, desk.course);
    this.questions = new Questions(making, this.answers, desk.course, (now) => this.changed(now));
    this.result = new Result(() => this.save());
    this.begun = el('p', { class: 'note' });
    this.timer = 0;
    this.busy = false;
    this.again = false;
    this.touched = false;
    this.saved = false;
    /** @type {File | null} */
    this.file = null;
    /** The body that stands in the draft of the settings. @type {string | null} */
    this.body = null;
  }

  /** @param {import('../types').Shelf} chart */
  open(chart) {
    fill(this.root, el('div', { class: 'columns' },
      el('div', { class: 'ask' }, el('h1', { tabindex: -1 }, `Make something of “${chart.title}”`),
        !chart.mayPrint && el('p', { class: 'note' }, 'This chart may not be copied: the handout tells the learner to bring her own.'), this.begun, this.questions.element),
      el('div', { class: 'side' }, this.result.element)));
    actions();
    window.addEventListener('pagehide', this.close);
    this.make();
    this.look();
  }

  /** Lessons that were begun of this chart and not saved. */
  async look() {
    const begun = this.course.drafts.filter((draft) => draft.fresh && draft.kind === 'lesson' && draft.id !== this.file?.id);
    const files = await attempt(() => Promise.all(begun.map((draft) => /** @type {Promise<File>} */ (get(`/api/file/${draft.id}`)))));
    const fresh = (files ?? []).filter((file) => file.lesson?.charts.includes(this.answers.chart));
    if (fresh.length) fill(this.begun, 'Begun and not saved: ', fresh.map((file) => el('a', { href: `#/lesson/${file.id}` }, file.lesson?.title ?? file.id)).flatMap((link, i) => (i ? [', ', link] : [link])));
  }

  /** The page is closed: what nobody asked for goes. */
  close = () => {
    const { file } = this;
    if (!file || this.touched || this.saved) return;
    fetch(`/api/file/${encodeURIComponent(file.id)}/drop`, { method: 'POST', keepalive: true, body: JSON.stringify({ at: file.at }), headers: { 'content-type': 'application/json' } });
  };

  /** An answer changed. @param {boolean} now */
  changed(now) {
    this.touched = true;
    clearTimeout(this.timer);
    kept('Keeping …');
    if (now) this.make();
    else this.timer = window.setTimeout(() => this.make(), PAUSE);
  }

  async make() {
    clearTimeout(this.timer);
    this.timer = 0;
    this.again = true;
    if (this.busy) return;
    this.busy = true;
    while (this.again) {
      this.again = false;
      await this.once();
    }
    this.busy = false;
  }

  async once() {
    const wanted = this.answers.make();
    if (!wanted) {
      kept('Not kept: an answer is missing');
      return this.result.waits(this.answers.missing);
    }
    if (this.file && this.file.id !== wanted.id) await this.drop();
    if (this.body && this.body !== wanted.own?.name) await this.forget(this.body);
    const file = await attempt(() => /** @type {Promise<File>} */ (post('/api/make', wanted)));
    if (!file) return kept('Not kept: the desk refused it');
    this.file = file;
    this.body = wanted.own?.name ?? null;
    this.result.show(file);
    kept('Kept as a draft, no file yet');
  }

  /** Takes the draft away. */
  async drop() {
    const { file } = this;
    this.file = null;
    if (file) await quietly(`/api/file/${encodeURIComponent(file.id)}`, 'drop');
  }

  /** Takes her measures out of the draft of the settings again. @param {string} name */
  async forget(name) {
    this.body = null;
    const path = '/api/file/course';
    const file = await attempt(() => /** @type {Promise<File>} */ (get(path)));
    if (file) await attempt(() => post(path, { at: file.at, edits: [{ at: ['bodies', name], remove: true }] })).then((done) => done ?? trouble(null));
  }

  async save() {
    await this.make();
    while (this.busy) await new Promise((go) => setTimeout(go, 10));
    const { file } = this;
    if (!file) return;
    const done = await attempt(async () => {
      if (this.body) {
        const course = /** @type {File} */ (await get('/api/file/course'));
        if (course.changed) await post('/api/file/course/save', { at: course.at });
      }
      return post(`/api/file/${encodeURIComponent(file.id)}/save`, { at: file.at });
    });
    if (!done) return;
    this.saved = true;
    say('The lesson is saved');
    location.hash = `#/lesson/${file.id}`;
  }

  /** What nobody asked for is not left behind. */
  async leave() {
    window.removeEventListener('pagehide', this.close);
    clearTimeout(this.timer);
    if (this.timer) await this.make();
    while (this.busy) await new Promise((go) => setTimeout(go, 10));
    if (!this.touched && !this.saved) await this.drop();
  }
}

/** Does something to a draft that may be gone already. @param {string} path @param {string} act */
const quietly = async (path, act) => {
  try {
    const file = /** @type {File} */ (await get(path));
    if (file.fresh) await post(`${path}/${act}`, { at: file.at });
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
  }
};

/**
 * @param {import('../main.js').Desk} desk
 * @returns {Promise<import('../main.js').View>}
 */
export async function show(desk) {
  const chart = desk.words[0] ?? '';
  const shelf = desk.course.charts.find((one) => one.id === chart);
  const making = shelf && (await attempt(() => /** @type {Promise<Making>} */ (get(`/api/make/${encodeURIComponent(chart)}`))));
  if (!shelf || !making || desk.course.readOnly) {
    const why = desk.course.readOnly ? 'This desk only reads: nothing is made here.' : 'The course has no such chart, or it has errors.';
    fill(desk.root, el('h1', { tabindex: -1 }, 'Make something of a chart'), el('p', {}, why), el('p', {}, el('a', { href: '#/charts' }, 'To the charts')));
    return {};
  }
  const page = new Page(desk, making);
  page.open(shelf);
  return { leave: () => page.leave() };
}
