// The work on one chart: the sheet as it stands on this page, the cursor, the chosen yarn, and what a stroke does.
// It draws nothing itself; it tells the page what to draw anew.
import { say, trouble } from '../dom.js';
import { Keep } from './keep.js';
import {
  alike, between, cellsOf, edits, fromChart, height, letterAt, lettersIn, mirrored, paint, repeated, rowOf, shape, whole, width,
} from './sheet.js';
import { putDown, unfolded } from './turn.js';

/**
 * @typedef {import('../types').File} File
 * @typedef {import('../types').Chart} Chart
 * @typedef {import('./sheet.js').Sheet} Sheet
 * @typedef {import('./sheet.js').Cell} Cell
 * @typedef {import('./sheet.js').Block} Block
 * @typedef {{ yarn: string } | { mark: string }} Brush
 * @typedef {{ way: 'off' | 'across' | 'up' | 'both', at: 'middle' | Cell }} Mirror
 * @typedef {{
 *   look: () => void,
 *   numbers: () => void,
 *   bar: () => void,
 *   stranger: (theirs: File) => void,
 * }} Page redraw the paper; show the numbers; show the bar; show what another window wrote
 */

/** @param {File} file @returns {Chart} */
const chartOf = (file) => {
  if (!file.chart) throw new Error(`${file.id} is not a chart`);
  return file.chart;
};

/**
 * A chart whose lesson cannot be shown because of a fault keeps the yarns that it was seen in.
 * @param {Chart} before
 * @param {Chart} now
 * @returns {Chart}
 */
const seen = (before, now) => {
  if (now.lesson || now.measured || !before.colours.length) return now;
  const known = new Map(before.colours.map((colour) => [colour.letter, colour]));
  return { ...now, aspect: before.aspect, colours: now.colours.map((colour) => known.get(colour.letter) ?? colour) };
};

export class Work {
  /**
   * @param {File} file
   * @param {string} query
   * @param {boolean} readOnly
   */
  constructor(file, query, readOnly) {
    this.chart = chartOf(file);
    this.sheet = fromChart(this.chart);
    /** The sheet as last handed in. */
    this.handed = this.sheet;
    this.readOnly = readOnly;
    this.query = query;
    /** @type {Cell} */
    this.cursor = { x: width(this.sheet) - 1, y: height(this.sheet) - 1 };
    /** @type {Cell | null} */
    this.anchor = null;
    /** @type {Block | null} */
    this.block = null;
    /** @type {Brush} */
    this.brush = { yarn: this.chart.colours[1]?.letter ?? this.chart.colours[0]?.letter ?? '.' };
    /** @type {Mirror} */
    this.mirror = { way: 'off', at: 'middle' };
    /** @type {Sheet | null} */
    this.copy = null;
    this.holding = false;
    this.tiled = true;
    /** When the hand let go. */
    this.since = 0;
    /** Whether a drag chooses a block instead of drawing. */
    this.choosing = false;
    /** @type {Page} */
    this.page = { look: () => {}, numbers: () => {}, bar: () => {}, stranger: () => {} };
    this.keep = new Keep(file, query, {
      answered: (answer, last, since) => this.answered(answer, last, since),
      changed: () => this.page.bar(),
      refused: (message, edits) => this.refused(message, edits),
      stranger: (theirs) => this.page.stranger(theirs),
    });
  }

  get file() {
    return this.keep.file;
  }
  /** Whether a stroke is drawn that is not handed in yet. */
  get drawing() {
    return !alike(this.sheet, this.handed);
  }
  get letters() {
    return this.chart.colours.map((colour) => colour.letter);
  }
  get names() {
    return new Map(this.chart.colours.map((colour) => [colour.letter, colour.name]));
  }
  get ground() {
    return this.chart.colours[0]?.letter ?? '.';
  }
  /** What a row is called in this chart. */
  get round() {
    return this.chart.worked === 'round' ? 'Round' : 'Row';
  }
  /** Where moving and turning act: the chosen block, or else the repeat. */
  get area() {
    return this.block ?? repeated(this.sheet);
  }
  get axis() {
    const { way, at } = this.mirror;
    if (way === 'off') return null;
    return at === 'middle' ? { way, x: (width(this.sheet) - 1) / 2, y: (height(this.sheet) - 1) / 2 } : { way, ...at };
  }

  /**
   * An answer of the desk. Rows of an answer older than the last stroke are not shown.
   * @param {File} file
   * @param {boolean} last
   * @param {number} since
   */
  answered(file, last, since) {
    if (!last || !file.chart) return;
    const told = fromChart(file.chart);
    this.chart = seen(this.chart, file.chart);
    if (!alike(this.sheet, told) && alike(this.sheet, this.handed)) {
      this.sheet = told;
      this.inside();
    }
    this.handed = told;
    this.page.numbers();
    this.page.look();
    if (since) this.tell();
    if (since) performance.measure('stroke-to-numbers', { start: since, end: performance.now() });
  }

  /** Says what the stroke did to the row under the cursor. */
  tell() {
    const row = rowOf(this.sheet, this.cursor.y);
    const fact = this.chart.measured?.perRow.find((one) => one.row === row);
    if (!fact) return;
    say(fact.plain ? `${this.round} ${row} plain` : `Longest float ${fact.longest}${fact.over ? ', over the limit' : ''}`);
  }

  /**
   * What was refused stays on the page and goes out again with the next stroke.
   * @param {string | null} message
   * @param {boolean} edits whether it was a stroke
   */
  refused(message, edits) {
    trouble(message);
    if (edits && this.file.chart) this.handed = fromChart(this.file.chart);
    if (!this.drawing) this.keep.unwilling = false;
  }

  /** Keeps cursor and block on the sheet. */
  inside() {
    const [w, h] = [width(this.sheet), height(this.sheet)];
    this.cursor = { x: Math.min(this.cursor.x, w - 1), y: Math.min(this.cursor.y, h - 1) };
    const b = this.block;
    if (b && (b.x + b.width > w || b.y + b.height > h)) this.choose(null);
    if ('yarn' in this.brush && !this.letters.includes(this.brush.yarn)) this.brush = { yarn: this.ground };
  }

  /**
   * Shows another sheet and hands it in.
   * @param {Sheet} next
   * @param {string} words what was done, said in one sentence
   */
  change(next, words) {
    if (this.readOnly) return;
    this.sheet = next;
    this.inside();
    this.page.look();
    this.handIn(words);
  }

  /**
   * Hands in what is drawn.
   * @param {string} words
   */
  handIn(words) {
    const made = edits(this.handed, this.sheet);
    if (!made.length) return;
    this.handed = this.sheet;
    this.keep.edit(made, this.since || performance.now());
    this.since = 0;
    say(words);
  }

  /**
   * Cells under the pen, in the chosen yarn or mark, mirrored; not handed in yet.
   * @param {Cell[]} cells
   */
  dab(cells) {
    this.keep.touched += 1;
    const axis = this.axis;
    const all = axis ? mirrored(cells, axis.way, axis) : cells;
    this.sheet = 'yarn' in this.brush ? paint(this.sheet, all, this.brush.yarn) : shape(this.sheet, all, this.brush.mark);
    this.page.look();
  }

  /** Paints the chosen block, or the cell under the cursor. @param {Brush} [brush] */
  press(brush) {
    if (this.readOnly) return;
    if (this.holding) return this.put();
    if (brush) this.brush = brush;
    this.dab(this.block ? cellsOf(this.block) : [this.cursor]);
    this.handIn(this.block ? 'Block painted' : this.said());
    this.page.bar();
  }

  /** The yarn under the cursor, in words. */
  said() {
    if ('mark' in this.brush) return 'Marked';
    return this.names.get(letterAt(this.sheet, this.cursor.x, this.cursor.y)) ?? '';
  }

  /** @param {Cell} to @param {boolean} [select] */
  move(to, select = false) {
    const [w, h] = [width(this.sheet), height(this.sheet)];
    if (select) this.anchor ??= this.cursor;
    this.cursor = { x: Math.max(0, Math.min(w - 1, to.x)), y: Math.max(0, Math.min(h - 1, to.y)) };
    if (select && this.anchor) this.choose(between(this.anchor, this.cursor));
    else if (this.anchor || this.block) {
      this.anchor = null;
      this.choose(null);
    }
    this.page.look();
  }

  /** @param {Block | null} block */
  choose(block) {
    this.block = block;
    if (!block) this.anchor = null;
    this.page.look();
    this.page.bar();
  }

  /** Puts the copy down at the cursor. */
  put() {
    if (!this.copy) return;
    this.change(putDown(this.sheet, this.copy, this.cursor), `Put down at ${this.round.toLowerCase()} ${rowOf(this.sheet, this.cursor.y)}`);
  }

  /** Fills the row under the cursor: a plain row. */
  fillRow() {
    if (!('yarn' in this.brush)) return;
    const row = { x: 0, y: this.cursor.y, width: width(this.sheet), height: 1 };
    this.change(paint(this.sheet, cellsOf(row), this.brush.yarn), `${this.round} ${rowOf(this.sheet, this.cursor.y)} is plain ${this.names.get(this.brush.yarn)}`);
  }

  /** Draws both halves of a mirrored chart. */
  unfold() {
    const before = this.handed;
    this.sheet = this.handed = unfolded(this.sheet, this.chart.reflect ?? '');
    this.keep.edit([...edits(before, this.sheet), { at: ['reflect'], remove: true }]);
    say('Both halves are drawn');
  }

  /** @param {Block} [within] */
  used(within) {
    return lettersIn(this.sheet, this.letters, within ?? whole(this.sheet));
  }

  async undo() {
    if (this.keep.unwilling) return this.takeBack();
    if (!this.file.undo && this.keep.idle) return;
    if (await this.keep.act('undo')) say('Undone');
  }
  /** Gives up what the desk refused. */
  takeBack() {
    this.keep.unwilling = false;
    this.sheet = this.handed;
    this.inside();
    trouble(null);
    this.page.numbers();
    this.page.look();
    this.page.bar();
    say('Undone');
  }
  async redo() {
    if (!this.file.redo) return;
    if (await this.keep.act('redo')) say('Done again');
  }
  async save() {
    if (this.readOnly) return;
    this.handIn('');
    const file = await this.keep.act('save');
    if (file && !file.changed) say('Saved to the file');
  }
}
