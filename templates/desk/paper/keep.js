// Keeps what is drawn: every stroke goes to the desk at once, one after the other, and drawing never waits for it.
// Knows the file's number, what is under way, whether the desk is away, and what stands against what.
import { Away, Refused, get, post } from '../api.js';
import { allKept, keptWords } from '../kept.js';

/**
 * @typedef {import('../types').File} File
 * @typedef {import('../types').Edit} Edit
 * @typedef {{ edits: Edit[] | null, path: string, since: number, done?: ((file: File | null) => void) | undefined }} Step
 * @typedef {{
 *   answered: (file: File, last: boolean, since: number) => void,
 *   changed: () => void,
 *   refused: (message: string | null, edits: boolean) => void,
 *   stranger: (theirs: File) => void,
 * }} To
 */

export class Keep {
  /**
   * @param {File} file
   * @param {string} query such as ?lesson=…, or nothing
   * @param {To} to
   */
  constructor(file, query, to) {
    this.file = file;
    this.query = query;
    this.to = to;
    /** @type {Step[]} */
    this.waiting = [];
    this.away = false;
    /** Another window wrote first: nothing goes out until one of both is chosen. */
    this.halted = false;
    /** The desk would not take what is on the page; it goes out again with the next stroke. */
    this.unwilling = false;
    this.busy = false;
    this.retry = 0;
    this.touched = 0;
    this.gone = false;
  }

  get path() {
    return `/api/file/${encodeURIComponent(this.file.id)}`;
  }

  get idle() {
    return !this.busy && this.waiting.length === 0 && !this.halted;
  }

  /**
   * A stroke, or any other change of the file.
   * @param {Edit[]} edits
   * @param {number} [since] when the hand let go, for those who watch how fast the numbers follow
   * @returns {Promise<File | null>} null where it was refused
   */
  edit(edits, since = performance.now()) {
    return this.add({ edits, path: '', since });
  }

  /**
   * Undo, redo, save, drop.
   * @param {string} path
   */
  act(path) {
    return this.add({ edits: null, path: `/${path}`, since: 0 });
  }

  /** @param {Step} step @returns {Promise<File | null>} */
  add(step) {
    this.touched += 1;
    return new Promise((done) => {
      this.waiting.push({ ...step, done });
      this.to.changed();
      this.run();
    });
  }

  async run() {
    if (this.busy || this.halted) return;
    this.busy = true;
    clearTimeout(this.retry);
    while (this.waiting[0] && !this.halted) {
      if (!(await this.send(this.waiting[0]))) break;
    }
    this.busy = false;
    this.to.changed();
  }

  /** @param {Step} step @returns {Promise<boolean>} whether to go on */
  async send(step) {
    try {
      const over = step.path === '/save!';
      const file = await this.ask(over ? '/save' : step.path, { ...(step.edits && { edits: step.edits }), ...(over && { over }) });
      this.away = false;
      this.settle(step, file);
    } catch (error) {
      if (error instanceof Away) return this.later();
      if (!(error instanceof Refused)) throw error;
      this.away = false;
      if (error.status === 409 && error.file) return this.crossed(step, error.file);
      this.waiting.shift();
      this.unwilling = step.edits !== null;
      this.to.refused(error.message, this.unwilling);
      step.done?.(null);
    }
    return true;
  }

  /** @param {string} path @param {object} body @returns {Promise<File>} */
  ask(path, body) {
    return post(`${this.path}${path}${this.query}`, { at: this.file.at, ...body });
  }

  /** @param {Step} step @param {File} file */
  settle(step, file) {
    this.waiting.shift();
    this.file = file;
    this.unwilling = false;
    this.to.refused(null, false);
    this.to.answered(file, this.waiting.length === 0, step.since);
    step.done?.(file);
  }

  later() {
    this.away = true;
    this.to.changed();
    if (!this.gone) this.retry = window.setTimeout(() => this.run(), 1500);
    return false;
  }

  /**
   * The file's number was old. Our own stroke whose answer was lost is none; changed beside the desk is told by `elsewhere`.
   * @param {Step} step
   * @param {File} theirs
   */
  crossed(step, theirs) {
    const rows = step.edits?.find((edit) => edit.at[0] === 'rows')?.block;
    if (rows !== undefined && theirs.chart?.rows.join('\n') === rows) {
      this.settle(step, theirs);
      return true;
    }
    if (!step.edits) {
      this.waiting.shift();
      this.file = theirs;
      this.to.answered(theirs, this.waiting.length === 0, 0);
      this.to.refused(theirs.elsewhere === null ? 'Another window changed this chart meanwhile. It is shown now: look, then try again.' : null, false);
      step.done?.(null);
      return true;
    }
    this.halted = true;
    this.to.stranger(theirs);
    return false;
  }

  /**
   * Goes on after a clash: with our sheet written over theirs, or with theirs.
   * @param {File} theirs
   * @param {Edit[]} ours what makes ours of theirs; empty keeps theirs
   */
  choose(theirs, ours) {
    const before = this.waiting;
    this.waiting = [];
    this.file = theirs;
    this.halted = false;
    for (const step of before) step.done?.(null);
    if (ours.length) return this.edit(ours);
    this.to.answered(theirs, true, 0);
    this.to.changed();
    return Promise.resolve(theirs);
  }

  /** Reads the file anew, unless something is under way. */
  async read() {
    if (this.waiting.length || this.halted || this.unwilling) return;
    const touched = this.touched;
    try {
      const file = /** @type {File} */ (await get(`${this.path}${this.query}`));
      if (touched !== this.touched || this.halted) return;
      this.file = file;
      this.to.answered(file, true, 0);
      this.to.changed();
    } catch (error) {
      if (!(error instanceof Away || error instanceof Refused)) throw error;
    }
  }

  /** In a few words for the bar. */
  words() {
    return keptWords(this);
  }

  /** Waits until all is kept, but not for ever. */
  async leave() {
    await allKept(this);
    this.gone = true;
    clearTimeout(this.retry);
    return this.waiting.length === 0;
  }
}
