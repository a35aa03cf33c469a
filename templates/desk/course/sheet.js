// The file's own text, with the numbers of its lines and its faults where they are.
import { button, el, fill, say } from '../dom.js';
import { counted, sentence } from './faults.js';

/** @typedef {import('../types').Fault} Fault */

/** How long nothing is typed before it is kept, in ms. */
const PAUSE = 180;

export class Sheet {
  /**
   * @param {boolean} readOnly
   * @param {(text: string) => void} typed
   */
  constructor(readOnly, typed) {
    this.typed = typed;
    this.timer = 0;
    /** Not handed on yet. */
    this.pending = false;
    /** @type {Fault[]} */
    this.faults = [];
    this.lines = el('div', { class: 'lines', 'aria-hidden': 'true' });
    this.area = el('textarea', {
      id: 'file-text', spellcheck: 'false', autocomplete: 'off', autocapitalize: 'off', 'aria-describedby': 'faults-count', readonly: readOnly,
      oninput: () => this.input(), onblur: () => this.flush(),
    });
    this.area.rows = 1;
    this.list = el('div', { class: 'faults' });
    this.element = el('section', { class: 'text', 'aria-labelledby': 'text-word' },
      el('h2', { id: 'text-word' }, el('label', { for: 'file-text' }, 'The file')),
      el('div', { class: 'sheet' }, this.lines, this.area),
      this.list);
  }

  input() {
    this.pending = true;
    this.draw();
    clearTimeout(this.timer);
    this.timer = window.setTimeout(() => this.flush(), PAUSE);
  }

  /** Hands on what was typed. */
  flush() {
    clearTimeout(this.timer);
    if (!this.pending) return;
    this.pending = false;
    this.typed(this.area.value);
  }

  /**
   * Shows the text; what is being typed stays, and so does the cursor.
   * @param {string} text
   * @param {Fault[]} faults
   */
  show(text, faults) {
    const before = JSON.stringify(this.faults);
    this.faults = faults;
    if (!this.pending && this.area.value !== text) {
      const { selectionStart, selectionEnd } = this.area;
      this.area.value = text;
      if (document.activeElement === this.area) this.area.setSelectionRange(selectionStart, selectionEnd);
    }
    this.draw();
    if (JSON.stringify(faults) !== before) this.listed();
  }

  /** The numbers; every line is as high here as in the text. */
  draw() {
    const bad = new Map(this.faults.map((fault) => [fault.line, fault.severity]));
    for (const fault of this.faults) if (fault.severity === 'error') bad.set(fault.line, 'error');
    fill(this.lines, this.area.value.split('\n').map((line, i) => el('div', { class: bad.get(i + 1) }, el('span', { class: 'n' }, i + 1), line || ' ')));
  }

  listed() {
    const { faults } = this;
    fill(this.list,
      el('p', { id: 'faults-count', class: 'note' }, faults.length ? `${counted(faults)} in this file` : 'No faults in this file.'),
      faults.length > 0 && el('ul', {}, faults.map((fault) =>
        el('li', { class: fault.severity },
          button(`Line ${fault.line}`, () => this.go(fault.line, fault.column), { class: 'plain' }),
          el('p', {}, el('b', {}, fault.severity === 'error' ? 'Error. ' : 'Warning. '), sentence(fault.message)),
          fault.help && el('p', { class: 'note' }, sentence(fault.help))))));
    const errors = faults.filter((fault) => fault.severity === 'error');
    if (errors[0]) say(`${counted(faults)}. Line ${errors[0].line}: ${errors[0].message}`);
  }

  /** Puts the cursor on a line. @param {number} line @param {number} [column] */
  go(line, column = 1) {
    const lines = this.area.value.split('\n');
    const start = lines.slice(0, Math.max(0, line - 1)).join('\n').length + (line > 1 ? 1 : 0);
    const end = start + (lines[line - 1]?.length ?? 0);
    this.area.focus({ preventScroll: true });
    this.area.setSelectionRange(Math.min(end, start + column - 1), end);
    this.lines.children[line - 1]?.scrollIntoView({ block: 'center' });
  }

  /** The line the cursor is on. */
  get line() {
    return this.area.value.slice(0, this.area.selectionStart).split('\n').length;
  }
}
