// The facts of every row on its own line, beside the paper: number, longest float, colours, looks, plain rows.
import { el, fill } from '../dom.js';
import { patch, svg } from './drawn.js';
import { height } from './sheet.js';

/** @typedef {import('./work.js').Work} Work */
/** @typedef {import('../types').RowFacts} RowFacts */

const BLOCK = 8;
/** So many stitches are drawn as blocks; a longer float is cut. */
const MOST = 12;

export class Strip {
  /** @param {Work} work */
  constructor(work) {
    this.work = work;
    this.body = el('div', { role: 'rowgroup', class: 'lines' });
    this.limit = el('div', { class: 'limit', 'aria-hidden': 'true' });
    this.foot = el('p', { class: 'foot', 'aria-hidden': 'true' });
    this.head = el('div', { role: 'rowgroup', class: 'head' });
    this.element = el('div', { class: 'strip' },
      el('div', { role: 'table', 'aria-label': 'Facts of each row' }, this.head, this.body));
    this.element.append(this.foot);
    /** @type {{ element: HTMLElement, key: string }[]} from the top */
    this.lines = [];
    this.headed = '';
  }

  /** @param {number} tall height of a row @param {number} above height of the copies above the sheet */
  draw(tall, above) {
    const { work } = this;
    const h = height(work.sheet);
    const measured = work.chart.measured;
    const shaped = work.chart.shaping !== null;
    this.title(shaped);
    this.body.style.height = `${h * tall + above}px`;
    while (this.lines.length > h) this.lines.pop()?.element.remove();
    while (this.lines.length < h) {
      const element = el('div', { role: 'row' });
      this.lines.push({ element, key: '' });
      this.body.append(element);
    }
    const { letters } = work;
    const facts = new Map((measured?.perRow ?? []).map((fact) => [fact.row, fact]));
    for (const [y, line] of this.lines.entries()) {
      const row = h - y;
      const used = letters.filter((letter) => work.sheet.cells[y]?.includes(letter));
      this.line(line, row, facts.get(row), used, shaped, [y * tall + above, tall]);
    }
    this.element.classList.toggle('shaped', shaped);
    this.element.classList.toggle('low', tall < 17);
    if (this.limit.parentNode !== this.body) this.body.prepend(this.limit);
    this.limit.hidden = !measured;
    this.limit.style.top = `${above}px`;
    this.limit.style.marginLeft = `${Math.min(work.chart.limit, MOST) * BLOCK + 0.5}px`;
    this.foot.style.paddingLeft = `${Math.max(24, Math.min(work.chart.limit, MOST) * BLOCK + 26)}px`;
    this.foot.textContent = measured ? `limit ${work.chart.limit}` : '';
  }

  /** Marks the cursor's line. @param {number} from @param {number} to */
  here(from, to) {
    this.lines[from]?.element.classList.remove('here');
    this.lines[to]?.element.classList.add('here');
  }

  /** @param {boolean} shaped */
  title(shaped) {
    const words = [this.work.round, 'float', '', 'Colours', 'Looks', ...(shaped ? ['Live'] : [])];
    if (this.headed === words.join()) return;
    this.headed = words.join();
    fill(this.head, el('div', { role: 'row' }, words.map((word, i) =>
      i === 2 ? null : el('div', { role: 'columnheader', class: `c${i}` },
        i === 1 && el('span', { class: 'wider' }, 'Longest '), word))));
  }

  /**
   * @param {{ element: HTMLElement, key: string }} line
   * @param {number} row
   * @param {RowFacts | undefined} fact
   * @param {string[]} letters
   * @param {boolean} shaped
   * @param {[number, number]} place
   */
  line(line, row, fact, letters, shaped, [top, tall]) {
    const { work } = this;
    const live = shaped ? work.chart.live[row - 1] : undefined;
    const hexes = work.chart.colours.filter((colour) => letters.includes(colour.letter));
    const key = [row, fact?.longest, fact?.over, fact?.looks, fact?.plain, live, shaped, hexes.map((c) => c.hex + c.name).join()].join('|');
    const { element } = line;
    element.classList.toggle('here', work.cursor.y === height(work.sheet) - row);
    const pixels = `${top}px`;
    if (element.style.top !== pixels) element.style.top = pixels;
    if (element.style.height !== `${tall}px`) {
      element.style.height = `${tall}px`;
      element.style.lineHeight = `${tall}px`;
    }
    if (line.key === key) return;
    line.key = key;
    element.classList.toggle('over', !!fact?.over);
    fill(element,
      el('div', { role: 'rowheader', class: 'c0' }, row),
      el('div', { role: 'cell', class: 'c1' }, ...this.float(fact)),
      el('div', { role: 'cell', class: 'c3' }, el('span', { class: 'unseen' }, hexes.map((c) => c.name).join(', ')),
        ...hexes.slice(0, 4).map((c) => patch(c.hex, 12, 10)), hexes.length > 4 && ` +${hexes.length - 4}`),
      el('div', { role: 'cell', class: 'c4' }, ...this.looks(fact)),
      shaped && el('div', { role: 'cell', class: 'c5' }, live ?? ''));
  }

  /** @param {RowFacts | undefined} fact @returns {(Node | string)[]} */
  float(fact) {
    if (!fact) return [];
    if (fact.plain) return [el('span', { class: 'tag' }, 'plain')];
    const n = Math.min(fact.longest, MOST);
    const blocks = svg('svg', { width: MOST * BLOCK, height: 10, class: 'blocks', 'aria-hidden': 'true' });
    for (let i = 0; i < n; i += 1) blocks.append(svg('rect', { x: i * BLOCK, y: 0, width: BLOCK - 1, height: 10 }));
    if (fact.longest > MOST) blocks.append(svg('path', { d: `M${BLOCK * 10 - 2} 11l6 -12h4l-6 12z`, class: 'cut' }));
    return [blocks, el('span', { class: 'figures count' }, fact.longest,
      fact.over && el('span', { class: 'unseen' }, ', over the limit'))];
  }

  /** @param {RowFacts | undefined} fact @returns {(Node | string)[]} */
  looks(fact) {
    if (!fact) return [];
    if (fact.looks === 0) return [el('span', { class: 'note' }, 'none')];
    const dots = svg('svg', { width: 38, height: 8, 'aria-hidden': 'true', class: 'dots' });
    const shown = fact.looks < 5 ? fact.looks : 1;
    for (let i = 0; i < shown; i += 1) dots.append(svg('circle', { cx: 4 + i * 9, cy: 4, r: 3.25 }));
    if (fact.looks < 5) dots.setAttribute('width', String(shown * 9));
    else dots.setAttribute('width', '10');
    return [dots, el('span', { class: fact.looks < 5 ? 'unseen' : 'figures' }, fact.looks)];
  }
}
