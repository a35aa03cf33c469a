// The paper in its frame: drawing, grid and strip scroll as one; numbers below, heads above stay in view.
import { el, fill } from '../dom.js';
import { Canvas, extent } from './canvas.js';
import { Grid } from './grid.js';
import { Hand } from './hand.js';
import { pressed } from './keys.js';
import { height, repeated, width } from './sheet.js';
import { Strip } from './strip.js';

/** @typedef {import('./work.js').Work} Work */

/** How wide a stitch is drawn, in pixels. */
export const SIZES = [
  { id: 'small', name: 'Small', wide: 17 },
  { id: 'middle', name: 'Middle', wide: 24 },
  { id: 'large', name: 'Large', wide: 33 },
  { id: 'larger', name: 'Larger', wide: 46 },
];
/** No row is lower than this, so that its facts can be read beside it. */
const LOWEST = 14;

export class Squares {
  /** @param {Work} work */
  constructor(work) {
    this.work = work;
    this.size = '';
    this.cell = { width: 33, height: 25 };
    this.ghosts = { left: 0, top: 0 };
    this.paper = el('canvas', { 'aria-hidden': 'true' });
    this.grid = new Grid(work);
    this.strip = new Strip(work);
    this.field = el('div', { class: 'field paper' }, this.paper, this.grid.element);
    this.numbers = el('div', { class: 'numbers', 'aria-hidden': 'true' });
    this.element = el('div', { class: 'squares' },
      el('div', { class: 'sheet' }, el('div', { class: 'over-sheet' }), this.field, this.numbers),
      this.strip.element);
    this.canvas = new Canvas(this.paper, this.element);
    this.hand = new Hand(work, this.field, this.element, (x, y) => ({
      x: Math.floor(x / this.cell.width - this.ghosts.left),
      y: Math.floor(y / this.cell.height - this.ghosts.top),
    }));
    this.field.addEventListener('touched', () => this.grid.focus());
    this.grid.element.addEventListener('keydown', (event) => {
      pressed(work, event);
      this.reveal();
    });
    this.numbered = '';
    this.row = -1;
    this.watch = new ResizeObserver(() => this.draw());
    this.watch.observe(this.element);
  }

  /** The size that shows most of the sheet without being small to hit. */
  fitting() {
    const { sheet, chart } = this.work;
    if (window.matchMedia('(pointer: coarse)').matches) return SIZES[2];
    const room = this.element.clientWidth - this.strip.element.offsetWidth;
    const most = window.innerHeight * 0.72;
    const fits = SIZES.slice(0, 3).filter(({ wide }) =>
      wide * width(sheet) <= room && wide * chart.aspect * height(sheet) <= most);
    return fits.at(-1) ?? SIZES[width(sheet) * 24 > 1.5 * room ? 0 : 1];
  }

  /** Measures: size of a cell, and how much of the repeat's copies there is room for. */
  measure() {
    const { work } = this;
    const chosen = SIZES.find(({ id }) => id === this.size) ?? this.fitting();
    const { aspect } = work.chart;
    const wide = Math.max(chosen?.wide ?? 24, LOWEST / aspect);
    this.cell = { width: wide, height: wide * aspect };
    const rep = repeated(work.sheet);
    const room = this.element.clientWidth - this.strip.element.offsetWidth;
    const spare = Math.floor(room / wide) - width(work.sheet);
    const left = Math.max(Math.min(rep.width, 3), Math.min(2 * rep.width, spare));
    const below = window.innerHeight * 0.74 - 60 - height(work.sheet) * this.cell.height;
    const upwards = rep.height === height(work.sheet) && !work.sheet.marks;
    this.ghosts = {
      left: work.tiled && rep.x === 0 && !work.chart.reflect ? left : 0,
      top: work.tiled && upwards && !work.chart.reflect ? Math.max(0, Math.min(rep.height, 2, Math.floor(below / this.cell.height))) : 0,
    };
  }

  /** @returns {import('./canvas.js').Drawing} */
  drawing() {
    const { work } = this;
    return {
      sheet: work.sheet,
      hex: new Map(work.chart.colours.map((colour) => [colour.letter, colour.hex])),
      cell: this.cell,
      ghosts: this.ghosts,
      folded: work.chart.reflect === 'stitches' || work.chart.reflect === 'both',
      facts: work.drawing ? [] : (work.chart.measured?.perRow ?? []),
      faults: work.chart.marks,
      block: work.block,
      held: work.holding && work.copy ? { copy: work.copy, at: work.cursor } : null,
      axis: work.axis,
    };
  }

  /** All that decides how large the paper is. */
  get kind() {
    const { sheet, chart } = this.work;
    return JSON.stringify([width(sheet), height(sheet), sheet.repeat, !!sheet.marks, chart.aspect, chart.reflect]);
  }

  /** The paper after a stroke or a move of the cursor. */
  look() {
    const { work } = this;
    const old = this.paper.dataset.size;
    if (old !== this.kind) return this.draw();
    this.canvas.soon(this.drawing());
    this.grid.draw(this.cell, this.ghosts);
    if (this.row !== work.cursor.y) this.strip.here(this.row, work.cursor.y);
    this.row = work.cursor.y;
    this.field.classList.toggle('putting', work.holding);
  }

  /** All of it, with the facts. */
  draw() {
    if (!this.element.isConnected) return;
    this.paper.dataset.size = this.kind;
    this.measure();
    const all = extent(this.drawing());
    this.field.style.width = `${all.width}px`;
    this.field.style.height = `${all.height}px`;
    this.strip.draw(this.cell.height, this.ghosts.top * this.cell.height);
    this.number();
    this.look();
  }

  /** The facts after an answer; the paper follows with the next picture. */
  facts() {
    this.strip.draw(this.cell.height, this.ghosts.top * this.cell.height);
  }

  /** Stitch numbers below. */
  number() {
    const w = width(this.work.sheet);
    const key = [w, this.cell.width, this.ghosts.left].join();
    if (key === this.numbered) return;
    this.numbered = key;
    const every = this.cell.width < 22 ? 5 : 1;
    const numbers = [];
    for (let stitch = 1; stitch <= w; stitch += 1) {
      if (stitch % every && stitch !== 1) continue;
      const made = el('span', { class: stitch % 5 ? false : 'fifth' }, stitch);
      made.style.left = `${(w - stitch + 0.5 + this.ghosts.left) * this.cell.width}px`;
      numbers.push(made);
    }
    const room = this.ghosts.left * this.cell.width;
    fill(this.numbers, room > 110 && el('span', { class: 'again' }, 'the repeat again'), numbers);
  }

  /** Scrolls so that the cursor is seen. */
  reveal() {
    const { x, y } = this.work.cursor;
    const box = this.element;
    const left = (x + this.ghosts.left) * this.cell.width;
    const top = this.field.offsetTop + (y + this.ghosts.top) * this.cell.height;
    const room = box.clientWidth - this.strip.element.offsetWidth;
    const [edge, foot] = [1.5 * this.cell.width, 34];
    const to = { left: box.scrollLeft, top: box.scrollTop };
    if (left - edge < to.left) to.left = left - edge;
    if (left + this.cell.width + edge > to.left + room) to.left = left + this.cell.width + edge - room;
    if (top - foot < to.top) to.top = top - foot;
    if (top + this.cell.height + foot > to.top + box.clientHeight) to.top = top + this.cell.height + foot - box.clientHeight;
    if (to.left !== box.scrollLeft || to.top !== box.scrollTop) box.scrollTo({ ...to, behavior: 'instant' });
    const seen = this.grid.cell?.getBoundingClientRect();
    if (seen && (seen.top < 0 || seen.bottom > window.innerHeight)) this.grid.cell?.scrollIntoView({ block: 'nearest' });
  }

  /** Starts at the foot, where row 1 and stitch 1 lie. */
  begin() {
    this.draw();
    this.element.scrollTo({ left: this.element.scrollWidth, top: this.element.scrollHeight, behavior: 'instant' });
    this.look();
  }

  leave() {
    this.watch.disconnect();
  }
}
