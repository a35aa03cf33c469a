// “Make it kinder”: what a few other stitches would change, before and after, taken by one key.
import { attempt, get } from '../api.js';
import { button, el, fill, say } from '../dom.js';
import { small } from './drawn.js';
import { fromLines, height, width } from './sheet.js';
import { figure, signed } from './figures.js';

/**
 * @typedef {import('./work.js').Work} Work
 * @typedef {import('../types').Kinder} Answer
 */

export class Kinder {
  /** @param {Work} work @param {() => void} back where the focus goes after one is taken */
  constructor(work, back) {
    this.work = work;
    this.back = back;
    this.ask = button('Make it kinder', () => this.look(), { class: 'main' });
    this.list = el('div', { class: 'proposals' });
    this.element = el('div', { class: 'kinder writes' }, this.ask, this.list);
    this.list.addEventListener('keydown', (event) => this.key(event));
    /** @type {Answer | null} */
    this.answer = null;
    this.of = '';
  }

  async look() {
    const { work } = this;
    this.list.setAttribute('aria-busy', 'true');
    fill(this.list, el('p', { class: 'note' }, 'Looking …'));
    const answer = /** @type {Answer | null} */ (await attempt(() => get(`/api/kinder/${encodeURIComponent(work.file.id)}${work.query}`)));
    this.list.removeAttribute('aria-busy');
    if (!answer) return fill(this.list);
    this.answer = answer;
    this.of = work.sheet.cells.join();
    const head = el('h3', { tabindex: -1 }, answer.proposals.length ? 'This would make it kinder' : 'Nothing would make it kinder by a stitch or two');
    fill(this.list, head, answer.proposals.length > 0 && el('p', { class: 'note' }, 'Press its number to take one.'),
      el('ol', {}, answer.proposals.map((proposal, i) => this.proposal(proposal, i, answer.now))));
    head.focus();
  }

  /** @param {Answer['proposals'][number]} proposal @param {number} i @param {Answer['now']} now */
  proposal(proposal, i, now) {
    const { work } = this;
    const after = proposal.rows && fromLines(proposal.rows);
    const changed = proposal.cells.map(({ row, stitch }) => ({ x: width(work.sheet) - stitch, y: height(work.sheet) - row }));
    return el('li', {},
      el('h4', {}, el('span', { class: 'nth', 'aria-hidden': 'true' }, i + 1), proposal.title),
      el('p', {}, proposal.why),
      after && el('div', { class: 'before-after' },
        el('figure', {}, small(work.sheet, work.chart, { most: 150, changed, words: 'Before' }), el('figcaption', {}, `now: ${told(now)}`)),
        el('figure', {}, small(after, work.chart, { most: 150, changed, words: 'After; changed stitches in a frame' }), el('figcaption', {}, el('strong', {}, `then: ${told(proposal.after)}`)))),
      !after && proposal.catches.length > 0 && el('p', { class: 'figures' },
        proposal.catches.slice(0, 12).map((c) => `${work.round} ${c.row}: ${work.names.get(c.letter) ?? c.letter} at stitch ${c.stitch}`).join('; '),
        proposal.catches.length > 12 && ` and ${proposal.catches.length - 12} more`),
      after && button('Take it', () => this.take(i), { 'aria-keyshortcuts': i + 1 }));
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    if (event.key === 'Escape') {
      fill(this.list);
      this.ask.focus();
    }
    if (!/^[1-9]$/.test(event.key) || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    this.take(Number(event.key) - 1);
  }

  /** @param {number} i */
  async take(i) {
    const proposal = this.answer?.proposals[i];
    if (!proposal?.rows) return;
    fill(this.list);
    this.answer = null;
    // The engine says what to change: repeat and shaping go with the rows.
    if (await this.work.keep.edit(proposal.edits)) say(`Taken: ${proposal.title}`);
    this.back();
  }

  /** Proposals for another sheet than the one on the page are put away. */
  stale() {
    if (!this.answer || this.of === this.work.sheet.cells.join()) return;
    const had = this.list.contains(document.activeElement);
    this.answer = null;
    fill(this.list);
    if (had) this.ask.focus();
    say('The proposals were for the chart as it was');
  }
}

/** @param {Answer['now']} state */
const told = (state) =>
  `${figure(state.grade)} of 100${state.step === null ? '' : `, step ${signed(state.step)}`}, longest float ${state.longest}`;
