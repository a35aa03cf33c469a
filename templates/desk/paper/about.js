// What the chart is called, where it comes from, and who may copy it.
import { el, fill, say } from '../dom.js';
import { drawn } from './fold.js';

/** @typedef {import('./work.js').Work} Work */

/** @type {{ id: import('../types').Rights, name: string, means: string }[]} */
export const RIGHTS = [
  { id: 'own', name: 'My own', means: 'You drew it, so you decide; it is printed in handouts.' },
  { id: 'public-domain', name: 'Public domain', means: 'Old enough to belong to all; it is printed with its source. Be sure of the date.' },
  { id: 'permission', name: 'Permission', means: 'Its maker allowed it; it is printed with their name, and only for what they allowed.' },
  { id: 'reference-only', name: 'For reference only', means: 'You may look and measure, but not copy: no handout shows it, and learners bring their own copy.' },
];

export class About {
  /** @param {Work} work */
  constructor(work) {
    this.work = work;
    this.asking = false;
    const keep = (/** @type {string} */ key) => (/** @type {Event} */ event) => this.set(key, event);
    this.title = el('input', { onchange: keep('title'), required: true, size: 28 });
    this.source = el('textarea', { rows: 2, cols: 44, onchange: keep('source') });
    this.rights = el('select', { onchange: keep('rights'), 'aria-describedby': 'rights-mean' }, RIGHTS.map(({ id, name }) => el('option', { value: id }, name)));
    this.worked = el('select', { onchange: keep('worked') }, el('option', { value: 'round' }, 'In the round'), el('option', { value: 'flat' }, 'Flat'));
    this.from = el('input', { onchange: keep('from'), size: 24 });
    this.scope = el('select', { onchange: keep('scope') }, ['class', 'guild', 'sale'].map((scope) => el('option', { value: scope }, scope)));
    this.allowed = el('div', { class: 'row' }, el('label', {}, 'Who allowed it', this.from), el('label', {}, 'For', this.scope));
    this.means = el('p', { class: 'note', id: 'rights-mean' });
    this.inside = el('div', { class: 'about' });
    this.element = drawn('About this chart', this.inside);
    if (!work.readOnly) {
      fill(this.inside,
        el('div', { class: 'row' }, el('label', {}, 'Title', this.title), el('label', {}, 'Worked', this.worked)),
        el('div', { class: 'row' }, el('label', {}, 'Who may copy it', this.rights)), this.means, this.allowed,
        el('label', {}, 'Where it comes from', this.source),
        el('p', {}, el('a', { href: `#/make/${work.file.id}`, class: 'button' }, 'Make something of it')));
    }
  }

  /** @param {string} key @param {Event} event */
  async set(key, event) {
    const { target } = event;
    if (!(target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement)) return;
    if (key === 'title' && !target.value.trim()) return this.draw();
    /** @type {import('../types').Edit[]} */
    const edits = [{ at: [key], text: target.value.trim() }];
    if (this.rights.value === 'permission' && ['rights', 'from'].includes(key)) {
      // A permission without the name of who gave it is none: nothing is kept before it is there.
      this.asking = !this.from.value.trim();
      if (this.asking) return this.askFrom();
      edits.splice(0, 1, { at: ['rights'], text: 'permission' }, { at: ['from'], text: this.from.value.trim() }, { at: ['scope'], text: this.scope.value });
    }
    this.asking = false;
    if (await this.work.keep.edit(edits)) say('Kept');
  }

  askFrom() {
    this.allowed.hidden = false;
    this.means.textContent = RIGHTS.find(({ id }) => id === 'permission')?.means ?? '';
    this.from.focus();
    say('Say who allowed it; then it is kept');
  }

  draw() {
    const { chart, file } = this.work;
    const rights = RIGHTS.find(({ id }) => id === chart.rights);
    if (this.work.readOnly) {
      fill(this.inside, el('p', {}, `${rights?.name}. ${rights?.means}`), el('p', {}, chart.source));
      return;
    }
    keepValue(this.title, chart.title);
    keepValue(this.source, chart.source);
    keepValue(this.worked, chart.worked);
    if (this.asking) return;
    keepValue(this.from, said(file.text, 'from'));
    keepValue(this.scope, said(file.text, 'scope') || 'class');
    keepValue(this.rights, chart.rights);
    this.allowed.hidden = chart.rights !== 'permission';
    this.means.textContent = rights?.means ?? '';
  }
}

/**
 * What a file says under a key of its own line.
 * @param {string} text
 * @param {string} key
 */
const said = (text, key) => {
  const found = new RegExp(`^${key}:\\s*(.*?)\\s*(#.*)?$`, 'm').exec(text)?.[1] ?? '';
  return found.replace(/^(["'])(.*)\1$/, '$2');
};

/**
 * Shows what is kept, but never takes away what is being typed.
 * @param {HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement} field
 * @param {string} value
 */
export const keepValue = (field, value) => {
  if (field.value !== value && (document.activeElement !== field || field instanceof HTMLSelectElement)) field.value = value;
};
