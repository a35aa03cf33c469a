// The handout as it will print: drawn anew after every change, behind the one that is shown, and then put in its place,
// so that nothing flickers and the place read stays.
import { el, fill } from '../dom.js';
import { sentence } from './faults.js';

/** @type {readonly { key: string, name: string }[]} */
const VARIANTS = [
  { key: 'large', name: 'Large print' },
  { key: 'black', name: 'Black and white' },
  { key: 'left', name: 'Left-handed' },
];

export class Printed {
  /** @param {string} id @param {{ id: string, label: string }[]} sizes */
  constructor(id, sizes) {
    this.id = id;
    this.names = new Map(sizes.map((size) => [size.id, size.label]));
    /** Nothing while it cannot be made. */
    this.version = '';
    /** @type {Record<string, boolean>} */
    this.chosen = {};
    this.size = '';
    this.address = '';
    this.asked = 0;
    this.select = el('select', { onchange: () => this.choose(() => (this.size = this.select.value)) });
    this.frames = el('div', { class: 'frames' });
    this.why = el('p', { class: 'note', hidden: true });
    this.print = el('a', { class: 'button', target: '_blank', rel: 'noopener' }, 'Open as PDF', el('span', { class: 'unseen' }, ' in a new tab'));
    this.element = el('section', { class: 'printed', 'aria-labelledby': 'printed-word' },
      el('h2', { id: 'printed-word' }, 'The handout'),
      el('div', { class: 'choices' },
        el('fieldset', {}, el('legend', { class: 'unseen' }, 'Printed how'), VARIANTS.map(({ key, name }) => this.tick(key, name))),
        el('div', { class: 'row' }, el('label', {}, 'Size', this.select), this.print)),
      this.why, this.frames);
  }

  /** @param {string} key @param {string} name */
  tick(key, name) {
    const box = el('input', { type: 'checkbox', onchange: () => this.choose(() => (this.chosen[key] = box.checked)) });
    return el('label', { class: 'beside' }, box, name);
  }

  /** @param {() => void} act */
  choose(act) {
    act();
    this.load();
  }

  get query() {
    const parts = VARIANTS.filter(({ key }) => this.chosen[key]).map(({ key }) => `${key}=1`);
    if (this.size) parts.push(`size=${encodeURIComponent(this.size)}`);
    return parts.join('&');
  }

  /**
   * @param {string | null} version null where it cannot be made now
   * @param {string[]} sizes ids of its sizes
   */
  show(version, sizes) {
    this.why.hidden = version !== null;
    const before = this.frames.childElementCount > 0;
    this.why.textContent = version !== null ? '' : before ? 'This is how it was before: mend the errors to see it as it is.' : 'It can be shown when the errors are mended.';
    this.print.hidden = version === null;
    this.offer(sizes);
    this.version = version ?? '';
    this.load();
  }

  /** The sizes that it has. @param {string[]} sizes */
  offer(sizes) {
    if (!sizes.includes(this.size)) this.size = '';
    const known = [...this.select.options].slice(1).map((option) => option.value);
    if (known.join() !== sizes.join() || !this.select.options.length) {
      fill(this.select, el('option', { value: '' }, 'All sizes'), ...sizes.map((id) => el('option', { value: id }, this.names.get(id) ?? id)));
    }
    this.select.value = this.size;
  }

  load() {
    const { query } = this;
    if (!this.version) return;
    this.print.href = `/api/handout/${this.id}.pdf${query && `?${query}`}`;
    const address = `/api/handout/${this.id}.html?${query && `${query}&`}v=${this.version}`;
    if (address === this.address) return;
    this.address = address;
    const mine = ++this.asked;
    const frame = el('iframe', { title: 'The handout, as it will print', src: address, class: 'behind', tabindex: -1, 'aria-hidden': 'true' });
    frame.addEventListener('load', () => {
      if (mine !== this.asked) frame.remove();
      else if (frame.contentDocument?.contentType === 'text/html') this.swap(frame);
      else this.refused(frame);
    });
    this.frames.append(frame);
  }

  /** The desk says why it cannot be made. @param {HTMLIFrameElement} frame */
  refused(frame) {
    let message = '';
    try {
      message = JSON.parse(frame.contentDocument?.body.textContent ?? '').message;
    } catch {
      // Then it says nothing.
    }
    frame.remove();
    this.why.hidden = false;
    this.why.textContent = sentence(message || 'it cannot be made like this');
  }

  /** @param {HTMLIFrameElement} frame */
  swap(frame) {
    this.why.hidden = true;
    const old = /** @type {HTMLIFrameElement | null} */ (this.frames.querySelector('iframe.shown'));
    const focused = document.activeElement === old;
    const [x, y] = [old?.contentWindow?.scrollX ?? 0, old?.contentWindow?.scrollY ?? 0];
    const open = old?.contentDocument ? folds(old.contentDocument) : [];
    if (frame.contentDocument) open.forEach((is, i) => unfold(frame.contentDocument, i, is));
    frame.contentWindow?.scrollTo({ left: x, top: y, behavior: 'instant' });
    frame.className = 'shown';
    frame.removeAttribute('tabindex');
    frame.removeAttribute('aria-hidden');
    for (const other of [...this.frames.children]) if (other !== frame) other.remove();
    if (focused) frame.focus({ preventScroll: true });
  }
}

/** What is unfolded on a page. @param {Document} page */
const folds = (page) => [...page.querySelectorAll('details')].map((one) => one.open);

/** @param {Document | null} page @param {number} i @param {boolean} open */
const unfold = (page, i, open) => {
  const one = page?.querySelectorAll('details')[i];
  if (one) one.open = open;
};
