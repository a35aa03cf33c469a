// All handouts of the course at once: made on asking, with progress, and then opened.
import { attempt, get, post } from '../api.js';
import { button, el, fill, say } from '../dom.js';

/** @typedef {import('../types').Pack} Pack */

/** What a teacher opens first. @type {readonly [string, string][]} */
const FIRST = [
  ['course.pdf', 'The whole course, to print'],
  ['teacher.pdf', 'The teacher’s guide'],
  ['quiz.pdf', 'The quiz: which is harder?'],
  ['shopping.csv', 'The shopping list'],
];

/** @param {number} bytes */
const size = (bytes) => (bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`);

export class PackBox {
  /** @param {boolean} readOnly */
  constructor(readOnly) {
    this.readOnly = readOnly;
    /** @type {Pack | null} */
    this.pack = null;
    this.body = el('div', { class: 'pack-body' });
    this.element = el('section', { 'aria-labelledby': 'pack-word', class: 'pack' },
      el('h2', { id: 'pack-word' }, 'Handouts'),
      el('p', { class: 'note' }, 'All lessons, the teacher’s guide, the quiz and the shopping list.'),
      this.body);
  }

  async load() {
    const pack = await attempt(() => /** @type {Promise<Pack>} */ (get('/api/pack')));
    if (pack) this.show(pack);
  }

  async begin() {
    const pack = await attempt(() => /** @type {Promise<Pack>} */ (post('/api/pack', {})));
    if (!pack) return;
    say('Making the pack');
    // It may have ended before this was answered.
    await this.load();
  }

  /** @param {Pack} pack */
  show(pack) {
    const before = this.pack?.state;
    this.pack = pack;
    const working = this.body.querySelector('progress');
    if (pack.state === 'working' && working) return this.move(working, pack);
    const focused = this.body.contains(document.activeElement);
    fill(this.body, ...this.parts(pack));
    if (focused) this.body.querySelector('button')?.focus();
    if (before === 'working' && pack.state === 'done') say('The pack is made');
    if (before === 'working' && pack.state === 'failed') say('The pack could not be made');
  }

  /** @param {HTMLProgressElement} progress @param {Pack} pack */
  move(progress, pack) {
    if (pack.of) {
      progress.max = pack.of;
      progress.value = pack.done;
    }
    const words = this.body.querySelector('.count');
    if (words) words.textContent = this.count(pack);
  }

  /** @param {Pack} pack */
  count(pack) {
    return pack.of ? `${pack.done} of ${pack.of} handouts` : 'Beginning …';
  }

  /** @param {Pack} pack @returns {(HTMLElement | null)[]} */
  parts(pack) {
    const make = this.readOnly ? null : button(pack.state === 'done' ? 'Make it again' : 'Make the pack', () => this.begin(), {
      class: 'writes main', 'data-act': 'pack', 'aria-disabled': pack.state === 'working' ? 'true' : null,
    });
    switch (pack.state) {
      case 'working':
        return [
          el('label', { class: 'working' }, 'Making the pack', el('progress', pack.of ? { max: pack.of, '.value': pack.done } : {})),
          el('p', { class: 'count figures note' }, this.count(pack)),
        ];
      case 'failed':
        return [el('p', { class: 'forbidden' }, el('b', {}, 'Not made. '), pack.message), make];
      case 'done':
        return [...this.files(pack), pack.message ? el('p', { class: 'note' }, `Written to ${pack.message}`) : null, make];
      default:
        return [make];
    }
  }

  /** @param {Pack} pack */
  files(pack) {
    const first = FIRST.flatMap(([path, name]) => {
      const file = pack.files.find((one) => one.path === path || one.path.endsWith(`/${path}`));
      return file ? [{ ...file, name }] : [];
    });
    const shown = new Set(first.map((file) => file.n));
    const rest = pack.files.filter((file) => !shown.has(file.n));
    return [
      el('ul', {}, first.map((file) => link(file, file.name))),
      el('details', {}, el('summary', {}, `All ${pack.files.length} files`), el('ul', {}, rest.map((file) => link(file, file.path)))),
    ];
  }
}

/** @param {Pack['files'][number]} file @param {string} words */
const link = (file, words) =>
  el('li', {}, el('a', { href: `/api/pack/${file.n}`, target: '_blank', rel: 'noopener' }, words), ' ', el('span', { class: 'note figures' }, size(file.size)));
