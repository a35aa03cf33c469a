// The draft of a lesson: what is changed on the page goes to the desk, one after the other, and nothing is lost on the way.
import { Away, Refused, get, post } from '../api.js';
import { allKept, keptWords } from '../kept.js';

/**
 * @typedef {import('../types').File} File
 * @typedef {import('../types').Edit} Edit
 * @typedef {{ edits: Edit[] } | { text: string }} Change
 * @typedef {{ change: Change } | { act: 'undo' | 'redo' | 'save' | 'drop', over?: boolean }} Step
 * @typedef {{
 *   answered: (file: File) => void,
 *   crossed: (theirs: File, change: Change) => void,
 *   refused: (message: string | null) => void,
 *   moved: () => void,
 * }} To
 */

export class Draft {
  /** @param {File} file @param {To} to */
  constructor(file, to) {
    this.file = file;
    this.to = to;
    /** @type {Step[]} */
    this.waiting = [];
    this.busy = false;
    this.away = false;
    /** Both texts are shown: nothing goes out until one is chosen. */
    this.halted = false;
    this.gone = false;
    this.retry = 0;
  }

  get path() {
    return `/api/file/${encodeURIComponent(this.file.id)}`;
  }

  get idle() {
    return !this.busy && !this.waiting.length && !this.halted;
  }

  /** @param {Step} step */
  add(step) {
    const last = this.waiting.at(-1);
    const under = this.busy ? this.waiting[0] : undefined;
    if ('change' in step && 'text' in step.change && last && last !== under && 'change' in last && 'text' in last.change) this.waiting.pop();
    this.waiting.push(step);
    this.to.moved();
    return this.run();
  }

  async run() {
    if (this.busy || this.halted) return;
    this.busy = true;
    clearTimeout(this.retry);
    for (let step = this.waiting[0]; step && !this.halted; step = this.waiting[0]) {
      if (!(await this.send(step))) break;
    }
    this.busy = false;
    this.to.moved();
  }

  /** @param {Step} step */
  ask(step) {
    const body = 'change' in step ? { at: this.file.at, ...step.change } : { at: this.file.at, ...(step.over && { over: true }) };
    return /** @type {Promise<File>} */ (post('change' in step ? this.path : `${this.path}/${step.act}`, body));
  }

  /** @param {Step} step @returns {Promise<boolean>} whether to go on */
  async send(step) {
    try {
      const file = await this.ask(step);
      this.away = false;
      this.waiting.shift();
      this.to.refused(null);
      this.take(file);
    } catch (error) {
      if (error instanceof Away) return this.later(error);
      if (!(error instanceof Refused)) throw error;
      this.away = false;
      if (error.status === 409 && error.file) return this.cross(step, error.file);
      this.waiting.shift();
      this.to.refused(error.message);
    }
    return true;
  }

  /** @param {File} file */
  take(file) {
    this.file = file;
    this.to.answered(file);
  }

  /** @param {Away} error */
  later(error) {
    this.away = true;
    this.to.refused(error.message);
    if (!this.gone) this.retry = window.setTimeout(() => this.run(), 1500);
    return false;
  }

  /** The file is another one by now. @param {Step} step @param {File} theirs */
  cross(step, theirs) {
    if (!('change' in step)) {
      this.waiting.shift();
      this.take(theirs);
      if (theirs.elsewhere === null) this.to.refused('This was changed in another window meanwhile. It is shown now: look, then try again.');
      return true;
    }
    if ('text' in step.change && step.change.text === theirs.text) {
      this.waiting.shift();
      this.take(theirs);
      return true;
    }
    this.halted = true;
    this.to.crossed(theirs, step.change);
    return false;
  }

  /** Goes on after a clash. @param {File} theirs @param {boolean} mine */
  choose(theirs, mine) {
    this.file = theirs;
    this.halted = false;
    if (!mine) {
      this.waiting = [];
      this.to.answered(theirs);
      this.to.moved();
      return Promise.resolve();
    }
    return this.run();
  }

  /** Reads the file anew, unless something is under way. */
  async read() {
    if (!this.idle) return;
    const { file } = this;
    try {
      const now = /** @type {File} */ (await get(this.path));
      if (this.idle && this.file === file) this.take(now);
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
  }
}
