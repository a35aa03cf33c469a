// The yarns of a lesson: for each role of the chart a name and a colour.
import { button, el, fill, say } from '../dom.js';
import { put } from './fields.js';

/**
 * @typedef {import('./form.js').About} About
 * @typedef {import('./form.js').Field} Field
 * @typedef {import('./yaml.js').Tree} Tree
 */

/** @param {Tree | undefined} tree @param {string} key */
const word = (tree, key) => {
  const value = tree && typeof tree === 'object' && !Array.isArray(tree) ? tree[key] : undefined;
  return typeof value === 'string' ? value : '';
};

/** A colour as the browser's own field wants it. @param {string} hex */
const six = (hex) => (/^#[0-9a-f]{6}$/i.test(hex) ? hex.toLowerCase() : '#000000');

/** @implements {Field} */
export class YarnsField {
  /** @param {About} about */
  constructor(about) {
    this.about = about;
    /** @type {Map<string, { name: HTMLInputElement, hex: HTMLInputElement, colour: HTMLInputElement }>} */
    this.lines = new Map();
    this.list = el('ul', { class: 'yarns' });
    this.role = el('input', { type: 'text', autocomplete: 'off', id: 'new-role' });
    this.role.addEventListener('keydown', (event) => event.key === 'Enter' && this.add());
    /** @type {HTMLElement | null} */
    this.first = this.role;
    this.element = el('fieldset', { class: 'group' },
      el('legend', {}, 'Yarns'), el('span', { class: 'help' }, 'for each colour role of the charts: the yarn’s name and colour'),
      this.list, el('div', { class: 'row writes' }, el('label', { for: 'new-role' }, 'Another role', this.role), button('Add', () => this.add())));
  }

  /** @param {Tree | undefined} tree */
  show(tree) {
    const roles = tree && typeof tree === 'object' && !Array.isArray(tree) ? Object.keys(tree) : [];
    if (roles.join('\n') !== [...this.lines.keys()].join('\n')) this.draw(roles);
    for (const [role, { name, hex, colour }] of this.lines) {
      const yarn = /** @type {{ [key: string]: Tree }} */ (tree)[role];
      put(name, word(yarn, 'name'));
      put(hex, word(yarn, 'hex'));
      if (colour.value !== six(word(yarn, 'hex'))) colour.value = six(word(yarn, 'hex'));
    }
  }

  /** @param {string[]} roles */
  draw(roles) {
    this.lines.clear();
    fill(this.list, roles.map((role) => this.line(role)));
  }

  /** @param {string} role */
  line(role) {
    const { form } = this.about;
    /** @param {string} key @param {HTMLInputElement} input */
    const typed = (key, input) => {
      const path = ['colours', role, key];
      form.typed(path, () => form.put(path, { text: input.value.trim() }));
    };
    const name = el('input', { type: 'text', autocomplete: 'off', 'aria-label': `Name of the yarn for ${role}`, oninput: () => typed('name', name) });
    const hex = el('input', { type: 'text', autocomplete: 'off', maxlength: 7, class: 'figures', 'aria-label': `Colour of the yarn for ${role}, as #rrggbb`, oninput: () => typed('hex', hex) });
    const colour = el('input', { type: 'color', 'aria-label': `Colour of the yarn for ${role}` });
    colour.addEventListener('input', () => {
      hex.value = colour.value;
      typed('hex', hex);
    });
    this.lines.set(role, { name, hex, colour });
    return el('li', {}, el('b', {}, role), name, el('span', { class: 'colour' }, colour, hex),
      button('Remove', () => this.remove(role), { 'aria-label': `Remove the yarn for ${role}`, class: 'writes plain' }));
  }

  add() {
    const role = this.role.value.trim();
    if (!role || this.lines.has(role)) return this.role.focus();
    const { form } = this.about;
    const path = ['colours', role];
    form.typed(path, () => form.put(path, { value: { name: role, hex: '#8a8a8a' } }), true);
    this.role.value = '';
    say(`Yarn for ${role} added`);
  }

  /** @param {string} role */
  remove(role) {
    const { form } = this.about;
    const path = ['colours', role];
    form.typed(path, () => form.put(path, null), true);
    this.role.focus();
    say(`Yarn for ${role} removed`);
  }
}
