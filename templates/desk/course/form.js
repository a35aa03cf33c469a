// A file as a form: one field for every key that our files know, with what it means. What a field writes changes this key
// alone; the rest of the file stays as it is written.
import { el, fill } from '../dom.js';
import { GroupField } from './fields.js';
import { ChoiceField, CommaField, LineField, LinesField, TextField, TicksField } from './fields.js';
import { sentence } from './faults.js';
import { at, below, read, withLines } from './yaml.js';
import { YarnsField } from './yarns.js';

/**
 * @typedef {import('../types').File} File
 * @typedef {import('../types').Edit} Edit
 * @typedef {import('./yaml.js').Tree} Tree
 * @typedef {{
 *   type?: string | string[], enum?: string[], pattern?: string, description?: string, items?: Spec, anyOf?: Spec[],
 *   properties?: Record<string, Spec>, required?: string[], minimum?: number, maximum?: number,
 * }} Spec
 * @typedef {{ path: string[], spec: Spec, required: boolean, form: Form }} About
 * @typedef {{ element: HTMLElement, show: (tree: Tree | undefined) => void, first: HTMLElement | null }} Field
 */

/** What is asked first; the rest is folded away. @type {Record<string, string[]>} */
const COMMON = {
  lesson: ['title', 'makes', 'craft', 'gauge', 'sizes', 'colours', 'yarn', 'ease', 'needs', 'bands', 'text'],
  course: ['title', 'guild', 'footer', 'units', 'paper', 'terms', 'budget', 'limit', 'sessions'],
};
/** How long nothing is typed before it is kept, in ms. */
const PAUSE = 100;

export class Form {
  /**
   * @param {'lesson' | 'course'} kind
   * @param {Spec} spec
   * @param {{ course: import('../types').Course, id: string, change: (change: import('./draft.js').Change) => void }} to
   */
  constructor(kind, spec, to) {
    this.to = to;
    this.text = '';
    /** @type {import('./yaml.js').Read | null} */
    this.read = null;
    /** @type {Map<string, () => import('./draft.js').Change | null>} */
    this.pending = new Map();
    this.timer = 0;
    /** @type {Map<string, { field: Field, fault: HTMLElement }>} */
    this.fields = new Map();
    const keys = Object.keys(spec.properties ?? {});
    const common = (COMMON[kind] ?? []).filter((key) => keys.includes(key));
    const rest = keys.filter((key) => !common.includes(key));
    const { readOnly } = to.course;
    // What only reads must be scrolled by keyboard, too.
    const scrolled = readOnly ? { tabindex: 0, role: 'group', 'aria-labelledby': 'form-word' } : {};
    this.body = el('div', { class: 'fields', ...scrolled }, el('fieldset', { disabled: readOnly },
      common.map((key) => this.field(key, spec)),
      rest.length > 0 && el('details', {}, el('summary', {}, 'More'), rest.map((key) => this.field(key, spec)))));
    this.unread = el('p', { hidden: true }, 'The form waits until the text can be read again.');
    this.element = el('section', { class: 'form', 'aria-labelledby': 'form-word' },
      el('h2', { id: 'form-word' }, kind === 'course' ? 'Settings' : 'The lesson'), this.unread, this.body);
    this.element.addEventListener('focusout', () => this.flush());
  }

  /** @param {string} key @param {Spec} whole */
  field(key, whole) {
    const spec = whole.properties?.[key] ?? {};
    const field = make({ path: [key], spec, required: whole.required?.includes(key) ?? false, form: this });
    const fault = el('p', { class: 'fault', hidden: true });
    this.fields.set(key, { field, fault });
    return el('div', { class: `field ${key}` }, field.element, fault);
  }

  /** @param {File} file */
  show(file) {
    this.text = file.text;
    this.read = read(file.text);
    this.unread.hidden = this.read !== null;
    this.body.hidden = this.read === null;
    if (!this.read) return;
    for (const [key, { field, fault }] of this.fields) {
      if (![...this.pending.keys()].some((path) => path === key || path.startsWith(`${key} `))) field.show(at(this.read.tree, [key]));
      const span = this.read.spans.get(key);
      const found = file.faults.filter((one) => span && one.severity === 'error' && one.line >= span[0] && one.line <= span[1]);
      fault.hidden = !found.length;
      fill(fault, found.map((one) => `${sentence(one.message)} ${one.help ? sentence(one.help) : ''}`).join(' '));
      if (found.length) field.first?.setAttribute('aria-invalid', 'true');
      else field.first?.removeAttribute('aria-invalid');
    }
  }

  /**
   * Something was typed into a field; it goes to the desk when nothing more comes.
   * @param {string[]} path
   * @param {() => import('./draft.js').Change | null} change
   * @param {boolean} [now]
   */
  typed(path, change, now = false) {
    this.pending.set(path.join(' '), change);
    clearTimeout(this.timer);
    if (now) this.flush();
    else this.timer = window.setTimeout(() => this.flush(), PAUSE);
  }

  flush() {
    clearTimeout(this.timer);
    const changes = [...this.pending.values()];
    this.pending.clear();
    for (const make of changes) {
      const change = make();
      if (change) this.to.change(change);
    }
  }

  /**
   * The change that gives a key this value; without one it goes, and with it what would be empty then.
   * @param {string[]} path
   * @param {Omit<Edit, 'at'> | null} value
   * @returns {import('./draft.js').Change | null}
   */
  put(path, value) {
    if (value) return { edits: [{ at: path, ...value }] };
    const tree = this.read?.tree;
    if (at(tree, path) === undefined) return null;
    let gone = path;
    while (gone.length > 1 && Object.keys(at(tree, gone.slice(0, -1)) ?? {}).length === 1) gone = gone.slice(0, -1);
    return { edits: [{ at: gone, remove: true }] };
  }

  /** The lines of a key. @param {string} key */
  lines(key) {
    return below(this.text, this.read?.spans.get(key));
  }

  /** The text with other lines for a key. @param {string} key @param {string} lines @returns {import('./draft.js').Change | null} */
  putLines(key, lines) {
    if (!lines.trim()) return this.put([key], null);
    return { text: withLines(this.text, key, this.read?.spans.get(key), lines) };
  }
}

/** @param {Spec} spec */
const isLine = (spec) =>
  spec.pattern !== undefined || ['string', 'number', 'integer'].includes(String(spec.type)) || (Array.isArray(spec.type) && !spec.type.includes('object'));

/**
 * The field for a key.
 * @param {About} about
 * @returns {Field}
 */
export const make = (about) => {
  const { path, spec, form } = about;
  const key = path.join('.');
  const { course, id } = form.to;
  const sizes = course.sizes.map((size) => ({ id: size.id, name: size.label }));
  const lessons = course.lessons.filter((rung) => rung.id !== id).map((rung) => ({ id: rung.id, name: rung.title }));
  if (key === 'colours') return new YarnsField(about);
  if (key === 'sizes') return new TicksField(about, sizes);
  if (key === 'needs') return new TicksField(about, lessons);
  if (key === 'text') return new TextField(about);
  if (spec.enum) return new ChoiceField(about);
  if (spec.properties) return new GroupField(about, make);
  if (spec.items?.enum) return new TicksField(about, spec.items.enum.map((one) => ({ id: one, name: one })));
  if (spec.type === 'array' && spec.items && isLine(spec.items)) return new CommaField(about);
  if (isLine(spec) || spec.anyOf?.every(isLine) || path.length > 1) return new LineField(about);
  return new LinesField(about);
};
