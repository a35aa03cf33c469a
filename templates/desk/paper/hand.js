// Drawing by mouse, touch and pen: one finger draws, two move the paper.
import { height, stretch, width } from './sheet.js';

/**
 * @typedef {import('./work.js').Work} Work
 * @typedef {import('./sheet.js').Cell} Cell
 */

export class Hand {
  /**
   * @param {Work} work
   * @param {HTMLElement} field
   * @param {HTMLElement} scroller
   * @param {(x: number, y: number) => Cell} cellAt from a place on the field
   */
  constructor(work, field, scroller, cellAt) {
    this.work = work;
    this.field = field;
    this.scroller = scroller;
    this.cellAt = cellAt;
    /** @type {Map<number, { x: number, y: number }>} */
    this.fingers = new Map();
    /** @type {{ id: number, last: Cell, before: import('./sheet.js').Sheet, block: boolean, cells: number } | null} */
    this.stroke = null;
    /** Whether one finger moves the paper. */
    this.moves = false;
    field.addEventListener('pointerdown', (event) => this.down(event));
    field.addEventListener('pointermove', (event) => this.along(event));
    field.addEventListener('pointerup', (event) => this.up(event));
    field.addEventListener('pointercancel', (event) => this.cancel(event));
    field.addEventListener('contextmenu', (event) => this.stroke && event.preventDefault());
  }

  /** @param {PointerEvent} event */
  cell(event) {
    const box = this.field.getBoundingClientRect();
    return this.cellAt(event.clientX - box.left, event.clientY - box.top);
  }

  /** @param {Cell} cell */
  on(cell) {
    return cell.x >= 0 && cell.y >= 0 && cell.x < width(this.work.sheet) && cell.y < height(this.work.sheet);
  }

  /** @param {PointerEvent} event */
  down(event) {
    if (event.button !== 0) return;
    if (event.pointerType === 'touch') {
      this.fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
      if (this.fingers.size > 1) this.giveUp();
      if (this.fingers.size > 1 || this.moves) return;
    }
    const cell = this.cell(event);
    if (!this.on(cell) || this.stroke) return;
    const { work } = this;
    this.field.setPointerCapture(event.pointerId);
    event.preventDefault();
    const block = work.choosing || event.shiftKey;
    if (block && event.shiftKey && !work.choosing) work.move(cell, true);
    else work.move(cell);
    this.field.dispatchEvent(new CustomEvent('touched'));
    if (work.readOnly && !block) return;
    if (work.holding) return work.put();
    if (block) work.anchor ??= cell;
    this.stroke = { id: event.pointerId, last: cell, before: work.sheet, block, cells: 1 };
    if (!block) work.dab([cell]);
  }

  /** @param {PointerEvent} event */
  along(event) {
    const finger = this.fingers.get(event.pointerId);
    if (finger && (this.fingers.size > 1 || this.moves)) {
      this.pan((finger.x - event.clientX) / this.fingers.size, (finger.y - event.clientY) / this.fingers.size);
      this.fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
      return;
    }
    const { work, stroke } = this;
    if (!stroke && work.holding && this.on(this.cell(event))) return work.move(this.cell(event));
    if (!stroke || stroke.id !== event.pointerId) return;
    const seen = event.getCoalescedEvents?.() ?? [];
    for (const part of seen.length ? seen : [event]) this.go(this.cell(part));
  }

  /** @param {Cell} cell */
  go(cell) {
    const { work, stroke } = this;
    if (!stroke || (cell.x === stroke.last.x && cell.y === stroke.last.y)) return;
    if (stroke.block) work.move(cell, true);
    else {
      work.dab(stretch(stroke.last, cell));
      if (this.on(cell)) work.move(cell);
    }
    stroke.last = cell;
    stroke.cells += 1;
  }

  /** @param {PointerEvent} event */
  up(event) {
    this.fingers.delete(event.pointerId);
    const { stroke, work } = this;
    if (!stroke || stroke.id !== event.pointerId) return;
    this.stroke = null;
    work.since = event.timeStamp;
    if (!stroke.block) work.handIn(stroke.cells > 1 ? 'Drawn' : work.said());
  }

  /** @param {PointerEvent} event */
  cancel(event) {
    this.fingers.delete(event.pointerId);
    if (this.stroke?.id === event.pointerId) this.giveUp();
  }

  /** Takes the unfinished stroke back. */
  giveUp() {
    if (!this.stroke) return;
    if (!this.stroke.block) this.work.sheet = this.stroke.before;
    this.stroke = null;
    this.work.page.look();
  }

  /** @param {number} right @param {number} down */
  pan(right, down) {
    const before = this.scroller.scrollTop;
    this.scroller.scrollBy({ left: right, top: down, behavior: 'instant' });
    const rest = down - (this.scroller.scrollTop - before);
    if (Math.abs(rest) >= 1) window.scrollBy({ top: rest, behavior: 'instant' });
  }
}
