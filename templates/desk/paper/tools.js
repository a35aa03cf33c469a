// The work under the paper, one panel open at a time, and what is always at hand.
import { button, el, fill } from '../dom.js';
import { SIZES } from './squares.js';
import { blockPanel, coloursPanel, linesPanel, mirrorPanel, repeatPanel, shapingPanel } from './panels.js';

/**
 * @typedef {import('./work.js').Work} Work
 * @typedef {import('./squares.js').Squares} Squares
 * @typedef {{ element: HTMLElement, draw: () => void, sync?: () => void }} Panel
 */

export class Tools {
  /** @param {Work} work @param {Squares} squares */
  constructor(work, squares) {
    this.work = work;
    this.squares = squares;
    const low = work.round.toLowerCase();
    /** @type {Map<string, Panel>} */
    this.panels = new Map([
      [`${work.round}s and stitches`, linesPanel(work)],
      ['Mirror', mirrorPanel(work)],
      ['Move and copy', blockPanel(work)],
      ['Yarns', coloursPanel(work)],
      ['Mark the repeat', repeatPanel(work)],
      ['Shaping', shapingPanel(work)],
    ]);
    this.open = '';
    this.place = el('div', { class: 'panel', id: 'panel', hidden: true });
    this.buttons = [...this.panels.keys()].map((name) =>
      button(name, () => this.turn(name), { 'aria-expanded': 'false', 'aria-controls': 'panel' }));
    this.plain = button(`Plain ${low}`, () => work.fillRow());
    this.element = el('div', { class: 'tools' }, this.view(),
      el('div', { class: 'doing writes' }, this.plain, this.buttons), this.place);
  }

  /** How the paper is shown. */
  view() {
    const { work, squares } = this;
    const size = el('select', {
      onchange: (/** @type {Event} */ event) => {
        if (event.target instanceof HTMLSelectElement) squares.size = event.target.value;
        squares.draw();
        squares.reveal();
      },
    }, el('option', { value: '' }, 'To fit'), SIZES.map(({ id, name }) => el('option', { value: id }, name)));
    const tiled = el('input', { type: 'checkbox', '.checked': work.tiled, onchange: () => {
      work.tiled = tiled.checked;
      squares.draw();
    } });
    const moves = el('input', { type: 'checkbox', onchange: () => {
      squares.hand.moves = moves.checked;
      squares.field.classList.toggle('moves', moves.checked);
    } });
    return el('div', { class: 'row view' },
      el('label', { class: 'beside' }, 'Squares', size),
      el('label', { class: 'beside' }, tiled, 'Show the repeat again'),
      el('label', { class: 'beside touch' }, moves, 'One finger moves the paper'));
  }

  /** @param {string} name */
  turn(name) {
    this.open = this.open === name ? '' : name;
    const panel = this.panels.get(this.open);
    this.buttons.forEach((made) => made.setAttribute('aria-expanded', String(made.textContent === this.open)));
    this.place.hidden = !panel;
    fill(this.place, panel?.element);
    panel?.draw();
    panel?.sync?.();
    if (panel) this.place.scrollIntoView({ block: 'nearest' });
  }

  /** After an answer. */
  draw() {
    this.panels.get(this.open)?.draw();
  }

  /** After a change of cursor, block or brush. */
  sync() {
    this.panels.get(this.open)?.sync?.();
  }
}
