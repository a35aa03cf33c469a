// The chart worked: the fabric as the desk draws it, and the repeat as squares, side by side with itself.
import { el, fill } from '../dom.js';
import { drawn } from './fold.js';
import { small } from './drawn.js';
import { repeated } from './sheet.js';
import { copied } from './turn.js';

/** @typedef {import('./work.js').Work} Work */

export class Preview {
  /** @param {Work} work */
  constructor(work) {
    this.work = work;
    this.inside = el('div', { class: 'preview' });
    this.element = drawn('See it knitted', this.inside, () => this.draw());
    this.key = '';
  }

  draw() {
    const { work } = this;
    if (!this.element.open) return;
    const { chart, file } = work;
    const key = [file.at, chart.lesson?.id].join();
    if (key === this.key) return;
    this.key = key;
    const tile = copied(work.sheet, repeated(work.sheet));
    const across = Math.max(1, Math.min(8, Math.floor(48 / (tile.cells[0]?.length ?? 1))));
    const up = Math.max(1, Math.min(4, Math.floor(32 / tile.cells.length)));
    const lesson = chart.lesson ? `lesson=${encodeURIComponent(chart.lesson.id)}&` : '';
    fill(this.inside,
      el('figure', {}, el('img', { class: 'paper', alt: `${chart.title} as knitted fabric`, src: `/api/fabric/${encodeURIComponent(file.id)}.svg?${lesson}v=${file.at}` }),
        el('figcaption', {}, 'The fabric')),
      el('figure', {}, small(tile, chart, { most: 320, times: [across, up], words: `The repeat, ${across} times across and ${up} times up` }),
        el('figcaption', {}, 'The repeat beside itself')));
  }
}
