// The fields of the form: a line, a choice, ticks, a list, several lines, and groups of them.
import { el, fill } from '../dom.js';
import { capital, wordsOf } from '../people/words.js';
import { at } from './yaml.js';

/**
 * @typedef {import('./form.js').About} About
 * @typedef {import('./form.js').Field} Field
 * @typedef {import('./yaml.js').Tree} Tree
 */

/** Names where the key alone would not do. @type {Record<string, string>} */
const NAMES = {
  makes: 'What it makes', needs: 'Lessons before it', colours: 'Yarns', bands: 'Bands', text: 'Your own words', metres_per_100g: 'Metres in 100 g',
  ease: 'Ease', guild: 'Guild', footer: 'Foot of every page', home_hours: 'Hours at home', teaching_share: 'Share of teaching', weeks_between: 'Weeks between',
};

/** What comes first in a group, the first last. */
const ORDER = ['metres_per_100g', 'weight', 'rows', 'stitches', 'plain', 'colourwork', 'count'];

/** @param {string} key */
export const nameOf = (key) => NAMES[key] ?? `${key.charAt(0).toUpperCase()}${key.slice(1)}`.replaceAll(/[-_]/g, ' ');

/** @param {About} about */
const own = ({ path }) => path.at(-1) ?? '';

/** An id for what belongs together. @param {About} about @param {string} what */
const idOf = ({ path }, what) => `${what}-${path.join('-')}`;

/** @param {About} about */
const helpOf = (about) => {
  const text = about.spec.description;
  return text ? el('span', { class: 'help', id: idOf(about, 'help') }, text.replaceAll('`', '')) : null;
};

/**
 * @param {About} about
 * @param {HTMLElement} control
 */
const labelled = (about, control) => {
  const help = helpOf(about);
  if (help) control.setAttribute('aria-describedby', help.id);
  control.id = idOf(about, 'field');
  return el('div', { class: 'one' }, el('label', { for: control.id }, nameOf(own(about))), control, help);
};

/**
 * Sets the value of a control, unless it stands so; a space that was just typed at its end is no other value.
 * @param {HTMLInputElement | HTMLTextAreaElement} control
 * @param {string} value
 */
export const put = (control, value) => {
  const same = document.activeElement === control ? control.value.trim() === value : control.value === value;
  if (!same) control.value = value;
};

/** A value on one line. @implements {Field} */
export class LineField {
  /** @param {About} about */
  constructor(about) {
    const { path, form, spec, required } = about;
    const numeric = spec.type === 'number' || spec.type === 'integer';
    this.input = el('input', { type: 'text', autocomplete: 'off', inputmode: numeric ? 'decimal' : null, required });
    const change = () => {
      const value = this.input.value.trim();
      if (!value && !required) return form.put(path, null);
      const number = numeric && /^-?\d+(\.\d+)?$/.test(value);
      return form.put(path, number ? { value: Number(value) } : { text: value });
    };
    this.input.addEventListener('input', () => form.typed(path, change));
    this.input.addEventListener('keydown', (event) => event.key === 'Enter' && form.flush());
    this.first = this.input;
    this.element = labelled(about, this.input);
  }

  /** @param {Tree | undefined} tree */
  show(tree) {
    this.element.hidden = typeof tree === 'object' && tree !== null;
    if (!this.element.hidden) put(this.input, typeof tree === 'string' ? tree : '');
  }
}

/** One of a few. @implements {Field} */
export class ChoiceField {
  /** @param {About} about */
  constructor(about) {
    const { path, form, spec, required } = about;
    const options = (spec.enum ?? []).map((one) => el('option', { value: one }, one));
    this.select = el('select', {}, required ? null : el('option', { value: '' }, 'not said'), ...options);
    this.select.addEventListener('change', () => {
      const { value } = this.select;
      form.typed(path, () => form.put(path, value ? { text: value } : null), true);
    });
    this.first = this.select;
    this.element = labelled(about, this.select);
  }

  /** @param {Tree | undefined} tree */
  show(tree) {
    const value = typeof tree === 'string' ? tree : '';
    if (this.select.value !== value) this.select.value = value;
  }
}

/** Some of a few, in the order they are offered. @implements {Field} */
export class TicksField {
  /** @param {About} about @param {{ id: string, name: string }[]} options */
  constructor(about, options) {
    this.about = about;
    this.options = options;
    this.first = el('summary', {});
    this.ticks = el('div', { class: 'ticks' });
    /** @type {string[]} */
    this.values = [];
    const help = helpOf(about);
    this.element = el('div', { class: 'one', role: 'group', 'aria-labelledby': idOf(about, 'label') },
      el('span', { class: 'label', id: idOf(about, 'label') }, nameOf(own(about))), help, el('details', {}, this.first, this.ticks));
  }

  /** @param {Tree | undefined} tree */
  show(tree) {
    this.values = Array.isArray(tree) ? tree.filter((one) => typeof one === 'string') : [];
    const strange = this.values.filter((id) => !this.options.some((one) => one.id === id)).map((id) => ({ id, name: id }));
    const all = [...this.options, ...strange];
    const chosen = all.filter((one) => this.values.includes(one.id)).map((one) => one.name);
    fill(this.first, chosen.length ? chosen.join(', ') : 'none');
    const boxes = /** @type {HTMLInputElement[]} */ ([...this.ticks.querySelectorAll('input')]);
    if (boxes.map((box) => box.value).join() !== all.map((one) => one.id).join()) return fill(this.ticks, all.map((one) => this.tick(one)));
    for (const box of boxes) box.checked = this.values.includes(box.value);
  }

  /** @param {{ id: string, name: string }} one */
  tick({ id, name }) {
    const box = el('input', { type: 'checkbox', value: id, '.checked': this.values.includes(id), onchange: () => this.put(id, box.checked) });
    return el('label', { class: 'beside' }, box, name);
  }

  /** @param {string} id @param {boolean} on */
  put(id, on) {
    const { path, form } = this.about;
    this.values = on ? [...this.values, id] : this.values.filter((one) => one !== id);
    const order = [...this.ticks.querySelectorAll('input')].map((box) => box.value);
    const values = own(this.about) === 'needs' ? this.values : order.filter((one) => this.values.includes(one));
    form.typed(path, () => form.put(path, values.length || own(this.about) === 'sizes' ? { value: values } : null), true);
  }
}

/** A list with commas. @implements {Field} */
export class CommaField {
  /** @param {About} about */
  constructor(about) {
    const { path, form } = about;
    this.input = el('input', { type: 'text', autocomplete: 'off' });
    this.input.addEventListener('input', () => form.typed(path, () => {
      const values = this.input.value.split(',').map((one) => one.trim()).filter(Boolean);
      return form.put(path, values.length ? { value: values } : null);
    }));
    this.first = this.input;
    this.element = labelled(about, this.input);
  }

  /** @param {Tree | undefined} tree */
  show(tree) {
    const values = Array.isArray(tree) ? tree : [];
    const now = this.input.value.split(',').map((one) => one.trim()).filter(Boolean);
    if (now.join() !== values.join()) put(this.input, values.join(', '));
  }
}

/** The teacher's own words. @implements {Field} */
export class TextField {
  /** @param {About} about */
  constructor(about) {
    const { path, form } = about;
    this.area = el('textarea', { rows: 6 });
    this.area.addEventListener('input', () => form.typed(path, () => form.put(path, this.area.value.trim() ? { block: this.area.value.trimEnd() } : null)));
    this.first = this.area;
    this.element = labelled(about, this.area);
  }

  /** @param {Tree | undefined} tree */
  show(tree) {
    const text = typeof tree === 'string' ? tree : '';
    if (this.area.value.trimEnd() !== text) put(this.area, text);
  }
}

/** A part of the file as it is written. @implements {Field} */
export class LinesField {
  /** @param {About} about */
  constructor(about) {
    const { form } = about;
    this.form = form;
    this.key = own(about);
    this.area = el('textarea', { rows: 3, class: 'code', spellcheck: 'false', autocapitalize: 'off' });
    this.area.addEventListener('input', () => form.typed(about.path, () => form.putLines(this.key, this.area.value)));
    this.first = this.area;
    this.element = labelled(about, this.area);
  }

  show() {
    const lines = this.form.lines(this.key);
    if (this.area.value.trimEnd() === lines) return;
    put(this.area, lines);
    this.area.rows = Math.max(3, Math.min(16, lines.split('\n').length + 1));
  }
}

/** Fields that belong together. @implements {Field} */
export class GroupField {
  /** @param {About} about @param {(about: About) => Field} make */
  constructor(about, make) {
    const { spec, form, path } = about;
    const inOrder = Object.entries(spec.properties ?? {}).sort(([a], [b]) => ORDER.indexOf(b) - ORDER.indexOf(a));
    this.fields = inOrder.map(([key, one]) => ({ key, field: make({ path: [...path, key], spec: one, required: false, form }) }));
    this.first = this.fields[0]?.field.first ?? null;
    this.element = el('fieldset', { class: 'group' },
      el('legend', {}, path.join() === 'gauge' ? capital(wordsOf(form.to.course).gauge) : nameOf(own(about))), helpOf(about), el('div', { class: 'members' }, this.fields.map(({ field }) => field.element)));
  }

  /** @param {Tree | undefined} tree */
  show(tree) {
    for (const { key, field } of this.fields) field.show(at(tree, [key]));
  }
}
