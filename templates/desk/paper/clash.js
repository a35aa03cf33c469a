// Two states against each other: another window wrote first, or the file was changed beside the desk. Both are shown,
// either is kept.
import { button, el, fill, say } from '../dom.js';
import { small } from './drawn.js';
import { edits, fromChart } from './sheet.js';

/**
 * @typedef {import('./work.js').Work} Work
 * @typedef {import('../types').File} File
 */

export class Clash {
  /** @param {Work} work */
  constructor(work) {
    this.work = work;
    this.element = el('div', { class: 'clash', hidden: true });
    /** @type {File | null} */
    this.theirs = null;
    this.key = '';
  }

  /** Another window wrote first. @param {File} theirs */
  stranger(theirs) {
    this.theirs = theirs;
    this.draw();
  }

  draw() {
    const { work, theirs } = this;
    const { file } = work;
    const key = JSON.stringify([theirs?.at, theirs && work.sheet.cells, file.elsewhere, file.elsewhere !== null && file.text]);
    if (key === this.key) return;
    this.key = key;
    const was = this.element.hidden;
    this.element.hidden = !theirs && file.elsewhere === null;
    if (theirs) this.windows(theirs);
    else if (file.elsewhere !== null) this.beside(file.elsewhere);
    else fill(this.element);
    if (was && !this.element.hidden) {
      say('This chart was changed elsewhere too. Both are shown; keep either');
      this.element.querySelector('h2')?.focus();
    }
  }

  /** @param {File} theirs */
  windows(theirs) {
    const { work } = this;
    if (!theirs.chart) return;
    const other = fromChart(theirs.chart);
    fill(this.element,
      el('h2', { tabindex: -1 }, 'Changed in another window too'),
      el('p', {}, 'Nothing of yours is lost: it is on this page, but not kept yet. Which one shall stand?'),
      el('div', { class: 'before-after' },
        el('figure', {}, el('figcaption', {}, 'In this window'), small(work.sheet, work.chart, { most: 240, words: 'The chart in this window' }),
          button('Keep mine', () => this.settle(theirs, true))),
        el('figure', {}, el('figcaption', {}, 'In the other window'), small(other, theirs.chart, { most: 240, words: 'The chart in the other window' }),
          button('Keep the other', () => this.settle(theirs, false)))));
  }

  /** @param {File} theirs @param {boolean} mine */
  async settle(theirs, mine) {
    const { work } = this;
    if (!theirs.chart) return;
    const other = fromChart(theirs.chart);
    const ours = mine ? edits(other, work.sheet) : [];
    this.theirs = null;
    work.handed = mine && ours.length ? work.sheet : other;
    if (!mine) work.sheet = other;
    await work.keep.choose(theirs, ours);
    this.draw();
    work.inside();
    work.page.look();
    say(mine ? 'Kept what was in this window' : 'Kept what was in the other window');
    document.querySelector('h1')?.setAttribute('tabindex', '-1');
    document.querySelector('h1')?.focus({ preventScroll: true });
  }

  /** @param {string} text */
  beside(text) {
    const { work } = this;
    const reading = work.readOnly;
    fill(this.element,
      el('h2', { tabindex: -1 }, 'The file was changed outside the desk'),
      el('p', {}, 'Lines that differ are marked. Which one shall stand?'),
      el('div', { class: 'texts' },
        el('figure', {}, el('figcaption', {}, 'Yours, on the desk'), page(differ(work.file.text, text), 'mine'),
          !reading && button('Keep mine', () => this.over(true))),
        el('figure', {}, el('figcaption', {}, 'Theirs, in the file'), page(differ(text, work.file.text), 'theirs'),
          !reading && button('Take theirs', () => this.over(false)))));
  }

  /** @param {boolean} mine */
  async over(mine) {
    const { work } = this;
    const file = await work.keep.act(mine ? 'save!' : 'drop');
    if (!file) return;
    this.draw();
    say(mine ? 'Yours is saved over the file' : 'Theirs is taken');
    document.querySelector('h1')?.setAttribute('tabindex', '-1');
    document.querySelector('h1')?.focus({ preventScroll: true });
  }
}

/**
 * Lines of a text, and whether the other has them, in order.
 * @param {string} text
 * @param {string} other
 * @returns {{ line: string, only: boolean }[]}
 */
export const differ = (text, other) => {
  const [a, b] = [text.replace(/\n$/, '').split('\n'), other.replace(/\n$/, '').split('\n')];
  /** @type {number[][]} lengths of the longest common parts from here on */
  const common = Array.from({ length: a.length + 1 }, () => Array(b.length + 1).fill(0));
  for (let i = a.length - 1; i >= 0; i -= 1) {
    for (let j = b.length - 1; j >= 0; j -= 1) {
      const row = common[i];
      if (!row) continue;
      row[j] = a[i] === b[j] ? (common[i + 1]?.[j + 1] ?? 0) + 1 : Math.max(common[i + 1]?.[j] ?? 0, row[j + 1] ?? 0);
    }
  }
  /** @type {{ line: string, only: boolean }[]} */
  const made = [];
  for (let [i, j] = [0, 0]; i < a.length;) {
    if (j < b.length && a[i] === b[j]) {
      made.push({ line: a[i] ?? '', only: false });
      i += 1;
      j += 1;
    } else if (j < b.length && (common[i]?.[j + 1] ?? 0) >= (common[i + 1]?.[j] ?? 0)) j += 1;
    else {
      made.push({ line: a[i] ?? '', only: true });
      i += 1;
    }
  }
  return made;
};

/**
 * A text with the lines that only it has marked.
 * @param {{ line: string, only: boolean }[]} lines
 * @param {string} whose
 */
const page = (lines, whose) =>
  el('pre', { class: 'text', tabindex: 0, role: 'region', 'aria-label': `The text: ${whose}` },
    lines.map(({ line, only }) => (only ? el('ins', {}, `${line}\n`) : el('span', {}, `${line}\n`))));
