// The paper for those who use keys or listen: a grid that lies over the drawing and holds one focusable cell.
// Only the cursor's row and its neighbours are in the document.
import { el } from '../dom.js';
import { spoken } from './canvas.js';
import { height, width } from './sheet.js';

/** @typedef {import('./work.js').Work} Work */

export class Grid {
  /** @param {Work} work */
  constructor(work) {
    this.work = work;
    this.element = el('div', { role: 'grid', class: 'cells', 'aria-readonly': String(work.readOnly) });
    /** @type {Map<number, HTMLElement>} rows by y */
    this.rows = new Map();
    this.size = '';
  }

  /**
   * Shows the cursor and what is under it.
   * @param {{ width: number, height: number }} cell
   * @param {{ left: number, top: number }} ghosts
   */
  draw(cell, ghosts) {
    const { work } = this;
    const [w, h] = [width(work.sheet), height(work.sheet)];
    const size = [w, h, cell.width, cell.height, ghosts.left, ghosts.top].join();
    if (size !== this.size) {
      this.element.setAttribute('aria-rowcount', String(h));
      this.element.setAttribute('aria-colcount', String(w));
      this.element.setAttribute('aria-label', `${work.chart.title}: ${w} stitches, ${h} ${work.round.toLowerCase()}s`);
    }
    const focused = this.element.contains(document.activeElement);
    const wanted = [work.cursor.y - 1, work.cursor.y, work.cursor.y + 1].filter((y) => y >= 0 && y < h);
    if (size !== this.size || wanted.some((y) => !this.rows.has(y))) this.renew(wanted, w, cell, ghosts, size !== this.size);
    this.size = size;
    for (const y of wanted) this.name(y);
    if (focused) this.focus();
  }

  /**
   * Puts rows in and takes rows out, so that the focused one stays where it can.
   * @param {number[]} wanted @param {number} w @param {{ width: number, height: number }} cell
   * @param {{ left: number, top: number }} ghosts @param {boolean} all
   */
  renew(wanted, w, cell, ghosts, all) {
    const before = new Map(all ? [] : this.rows);
    this.rows.clear();
    for (const y of wanted) {
      const row = before.get(y) ?? this.row(w, cell);
      row.setAttribute('aria-rowindex', String(y + 1));
      row.style.top = `${(y + ghosts.top) * cell.height}px`;
      row.style.left = `${ghosts.left * cell.width}px`;
      row.style.height = `${cell.height}px`;
      this.rows.set(y, row);
    }
    for (const y of wanted) {
      const row = this.rows.get(y);
      if (row && row.parentNode !== this.element) this.element.append(row);
    }
    for (const child of [...this.element.children]) {
      if (![...this.rows.values()].some((row) => row === child)) child.remove();
    }
    const ordered = wanted.map((y) => this.rows.get(y));
    ordered.forEach((row, i) => {
      if (row && this.element.children[i] !== row) this.element.insertBefore(row, this.element.children[i] ?? null);
    });
  }

  /** @param {number} w @param {{ width: number, height: number }} cell */
  row(w, cell) {
    const row = el('div', { role: 'row' });
    for (let x = 0; x < w; x += 1) {
      const made = el('div', { role: 'gridcell', 'aria-colindex': x + 1, tabindex: -1 });
      made.style.width = `${cell.width}px`;
      row.append(made);
    }
    return row;
  }

  /** @param {number} y */
  name(y) {
    const { work } = this;
    const b = work.block;
    const { names } = work;
    const cells = this.rows.get(y)?.children ?? [];
    for (let x = 0; x < cells.length; x += 1) {
      const cell = cells[x];
      if (!cell) continue;
      const words = spoken(work.sheet, x, y, work.round, names);
      if (cell.getAttribute('aria-label') !== words) cell.setAttribute('aria-label', words);
      const here = x === work.cursor.x && y === work.cursor.y;
      if ((cell.getAttribute('tabindex') === '0') !== here) cell.setAttribute('tabindex', here ? '0' : '-1');
      const chosen = !!b && x >= b.x && x < b.x + b.width && y >= b.y && y < b.y + b.height;
      if (chosen) cell.setAttribute('aria-selected', 'true');
      else if (cell.hasAttribute('aria-selected')) cell.removeAttribute('aria-selected');
    }
  }

  get cell() {
    const found = this.rows.get(this.work.cursor.y)?.children[this.work.cursor.x];
    return found instanceof HTMLElement ? found : null;
  }

  focus() {
    if (this.cell !== document.activeElement) this.cell?.focus({ preventScroll: true });
  }
}
