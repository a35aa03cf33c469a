// One chart on squared paper that measures itself: puts the parts of the view together and keeps them up to date.
import { Refused, get } from '../api.js';
import { actions, button, el, fill, kept, say } from '../dom.js';
import { About } from './about.js';
import { list, showBroken } from './broken.js';
import { Clash } from './clash.js';
import { drawn } from './fold.js';
import { commanded } from './keys.js';
import { Kinder } from './kinder.js';
import { Preview } from './preview.js';
import { height, width } from './sheet.js';
import { Squares } from './squares.js';
import { Tools } from './tools.js';
import { Where } from './where.js';
import { Work } from './work.js';
import { drawYarns } from './yarns.js';

/**
 * @typedef {import('../main.js').Desk} Desk
 * @typedef {import('../types').File} File
 */

/** @param {Desk} desk @returns {Promise<import('../main.js').View>} */
export const show = async (desk) => {
  const [id = '', lesson] = desk.words;
  const query = lesson ? `?lesson=${encodeURIComponent(lesson)}` : '';
  /** @type {File} */
  let file;
  try {
    file = await get(`/api/file/${encodeURIComponent(id)}${query}`);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    fill(desk.root, el('div', { class: 'drawing' }, el('h1', {}, 'No such chart'), el('p', {}, error.message), el('p', {}, el('a', { href: '#/charts' }, 'All charts'))));
    return {};
  }
  if (!file.chart) return mended(desk, file);
  return new Paper(desk, new Work(file, query, desk.course.readOnly)).open();
};

/**
 * A file that is no chart yet; when it has been mended it is shown as one.
 * @param {Desk} desk
 * @param {File} file
 */
const mended = (desk, file) => {
  /** @type {import('../main.js').View} */
  let view = {};
  showBroken(desk, file, async () => {
    view = await show(desk);
  });
  return {
    leave: () => view.leave?.(),
    changed: (/** @type {import('../types').Change} */ change, /** @type {import('../types').Course} */ course) => view.changed?.(change, course),
  };
};

class Paper {
  /** @param {Desk} desk @param {Work} work */
  constructor(desk, work) {
    this.desk = desk;
    this.work = work;
    this.squares = new Squares(work);
    this.title = el('h1');
    this.count = el('p', { class: 'note' });
    this.faults = el('div', { class: 'fault-box' });
    this.half = el('div', { class: 'row half', hidden: true });
    this.yarns = el('div', { class: 'yarns' });
    this.clash = new Clash(work);
    this.kinder = new Kinder(work, () => this.squares.grid.focus());
    this.where = new Where(work, desk, (row) => this.go(row), this.kinder.element);
    this.preview = new Preview(work);
    this.tools = new Tools(work, this.squares);
    this.about = new About(work);
    this.undo = button('Undo', () => work.undo());
    this.redo = button('Redo', () => work.redo());
    this.save = button('Save', () => work.save(), { class: 'main' });
    this.again = 0;
    this.key = (/** @type {KeyboardEvent} */ event) => this.keyed(event);
    this.unload = (/** @type {BeforeUnloadEvent} */ event) => {
      if (!work.keep.idle || work.keep.unwilling) event.preventDefault();
    };
  }

  open() {
    const { work } = this;
    fill(this.desk.root, el('div', { class: 'two', 'data-chart': work.file.id },
      el('div', { class: 'drawing' },
        el('div', { class: 'title' }, this.title, this.count),
        this.clash.element, this.half,
        this.squares.element, this.faults, this.yarns, this.tools.element, this.preview.element, this.about.element, keysFold(work)),
      this.where.element));
    if (!work.readOnly) actions(this.undo, this.redo, this.save);
    work.page = {
      look: () => this.squares.look(),
      numbers: () => this.numbers(),
      bar: () => this.bar(),
      stranger: (theirs) => this.clash.stranger(theirs),
    };
    window.addEventListener('keydown', this.key);
    window.addEventListener('beforeunload', this.unload);
    this.numbers();
    this.bar();
    this.squares.begin();
    return {
      leave: () => this.leave(),
      changed: (/** @type {import('../types').Change} */ _change, /** @type {import('../types').Course} */ course) => this.changed(course),
    };
  }

  /** @param {KeyboardEvent} event */
  keyed(event) {
    const typing = event.target instanceof HTMLElement && event.target.matches('input, textarea');
    if (typing && event.key.toLowerCase() !== 's') return;
    commanded(this.work, event);
  }

  /** The numbers, wherever they stand. */
  numbers() {
    const { work } = this;
    const { chart, sheet } = work;
    this.title.textContent = chart.title;
    const rows = height(sheet);
    this.count.textContent = `${width(sheet)} stitches, ${rows} ${work.round.toLowerCase()}${rows === 1 ? '' : 's'}.` +
      (work.readOnly ? '' : ' Click a square to paint it; drag for a run.');
    this.squares.facts();
    this.where.draw();
    drawFaults(this.faults, work);
    drawHalf(this.half, work);
    drawYarns(this.yarns, work);
    this.clash.draw();
    this.tools.draw();
    this.about.draw();
    this.preview.draw();
    this.kinder.stale();
  }

  bar() {
    const { work } = this;
    if (work.keep.halted) this.clash.draw();
    if (!work.readOnly) kept(work.keep.words());
    const off = (/** @type {HTMLElement} */ made, /** @type {boolean} */ is) => made.setAttribute('aria-disabled', String(is));
    off(this.undo, !work.file.undo && work.keep.idle && !work.keep.unwilling);
    off(this.redo, !work.file.redo);
    off(this.save, !work.file.changed && !work.file.fresh && work.keep.idle);
    drawYarns(this.yarns, work);
    this.tools.sync();
  }

  /** @param {number} row */
  go(row) {
    const { work } = this;
    work.move({ x: work.cursor.x, y: height(work.sheet) - row });
    this.squares.grid.focus();
    this.squares.reveal();
    say(`${work.round} ${row}`);
  }

  /** Something changed here or elsewhere: reads it when the hand rests. @param {import('../types').Course} course */
  changed(course) {
    this.desk.course = course;
    this.where.draw();
    clearTimeout(this.again);
    const look = () => {
      if (!this.work.keep.unwilling && (this.work.drawing || !this.work.keep.idle)) this.again = window.setTimeout(look, 300);
      else this.work.keep.read();
    };
    this.again = window.setTimeout(look, 30);
  }

  async leave() {
    clearTimeout(this.again);
    window.removeEventListener('keydown', this.key);
    window.removeEventListener('beforeunload', this.unload);
    this.squares.leave();
    await this.work.keep.leave();
  }
}

/** @param {Work} work */
const keysFold = (work) => {
  const keys = [
    ['Arrows, Home, End, Page keys', 'move the cursor'],
    ...(work.readOnly ? [] : [
      ['A yarn’s letter, or 1 to 9', 'paint in that yarn'],
      ['Space or Enter', 'paint again in the chosen yarn'],
      ['Shift and arrows', 'choose a block; painting fills it'],
      ['Ctrl C, Ctrl V', 'copy the block; take the copy in hand'],
      ['Enter, Escape', 'put the copy down; lay it aside'],
      ['Ctrl Z, Ctrl Y', 'undo, redo'],
      ['Ctrl S', 'save to the file'],
    ]),
  ];
  return drawn('Keys on the paper', el('dl', { class: 'keys' }, keys.flatMap(([key, does]) => [el('dt', {}, key ?? ''), el('dd', {}, does ?? '')])));
};

/**
 * Says that only a half is drawn, and offers the whole.
 * @param {HTMLElement} place
 * @param {Work} work
 */
const drawHalf = (place, work) => {
  const { reflect } = work.chart;
  if (place.hidden === !reflect) return;
  place.hidden = !reflect;
  if (!reflect) fill(place);
  else fill(place, el('p', {}, 'Half of this chart is drawn; its mirror image is worked with it.'),
    button('Draw both halves', () => work.unfold(), { class: 'writes' }));
};

/**
 * What keeps the chart from being measured, or should be looked at.
 * @param {HTMLElement} place
 * @param {Work} work
 */
const drawFaults = (place, work) => {
  const { faults } = work.file;
  const key = JSON.stringify(faults);
  if (place.dataset.key === key) return;
  place.dataset.key = key;
  place.hidden = faults.length === 0;
  fill(place, list(faults));
};
