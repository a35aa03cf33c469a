// The questions, few and in plain words. Every answer can be changed at any time.
import { el, fill } from '../dom.js';
import { wordsOf } from '../people/words.js';

/**
 * @typedef {import('./answers.js').Answers} Answers
 * @typedef {import('../types').Making} Making
 * @typedef {(now: boolean) => void} Changed
 */

/** Parts of a body as they are measured. @type {Record<string, string>} */
const PARTS = { head: 'Head, round', hand: 'Hand, round', chest: 'Chest, round', armhole: 'Armhole, depth', sleeve: 'Sleeve, to the underarm', 'upper-arm': 'Upper arm, round' };
/** Sizes by the first word of their ids. @type {Record<string, string>} */
const GROUPS = { adult: 'Adults', child: 'Children', baby: 'Babies', woman: 'Women', man: 'Men' };

export class Questions {
  /**
   * @param {Making} making
   * @param {Answers} answers
   * @param {import('../types').Course} course
   * @param {Changed} changed
   */
  constructor(making, answers, course, changed) {
    this.making = making;
    this.answers = answers;
    this.changed = changed;
    this.words = wordsOf(course);
    this.title = el('input', { type: 'text', '.value': answers.title, autocomplete: 'off', required: true });
    this.title.addEventListener('change', () => this.entitle());
    this.people = el('div', {});
    const piece = making.makes.length;
    this.element = el('form', { onsubmit: (/** @type {Event} */ event) => event.preventDefault() },
      piece > 0 && this.pieces(), this.yarn(), this.sizes(), this.band(), this.colours(),
      el('fieldset', {}, el('legend', {}, 'What is it called?'), el('label', {}, 'Title', this.title)));
    this.measures();
  }

  entitle() {
    this.answers.entitle(this.title.value);
    this.changed(true);
  }

  pieces() {
    const { answers, making } = this;
    return el('fieldset', {}, el('legend', {}, 'What will it be?'),
      el('div', { class: 'options' }, making.makes.map(({ id, name }) =>
        el('label', { class: 'beside' },
          el('input', { type: 'radio', name: 'makes', value: id, checked: id === answers.makes, onchange: () => this.turn(id) }), name))));
  }

  /** @param {string} makes */
  turn(makes) {
    this.answers.turn(makes);
    this.title.value = this.answers.title;
    this.measures();
    this.changed(true);
  }

  yarn() {
    const { answers, making } = this;
    const select = el('select', {
      onchange: () => {
        answers.weight = select.value ? Number(select.value) : null;
        this.changed(true);
      },
    }, el('option', { value: '' }, 'not known'), making.weights.map((weight) =>
      el('option', { value: weight.category, selected: weight.category === answers.weight }, `${weight.category} ${weight.name}: ${weight.gauge[0]} to ${weight.gauge[1]} stitches`)));
    const [stitches, rows] = [this.gauge('stitches'), this.gauge('rows')];
    const unknown = el('input', { type: 'checkbox', checked: !answers.known });
    const turn = () => {
      answers.known = !unknown.checked;
      for (const input of [stitches, rows]) input.disabled = unknown.checked;
    };
    unknown.addEventListener('change', () => {
      turn();
      this.changed(true);
    });
    turn();
    const { gauge, over } = this.words;
    return el('fieldset', {}, el('legend', {}, 'In which yarn?'),
      el('div', { class: 'row' },
        el('label', {}, 'Yarn weight', select),
        el('label', {}, `Stitches in ${over}`, stitches), el('label', {}, `Rows in ${over}`, rows)),
      el('label', { class: 'beside' }, unknown, `I don’t know my ${gauge}`),
      el('p', { class: 'note' }, `Then the piece is the swatch, too, in the ${gauge} that such yarn usually gives.`));
  }

  /** @param {'stitches' | 'rows'} key */
  gauge(key) {
    const { answers } = this;
    const input = el('input', { type: 'text', inputmode: 'decimal', class: 'short figures', '.value': answers.gauge[key] });
    input.addEventListener('input', () => {
      answers.gauge[key] = input.value;
      this.changed(false);
    });
    return input;
  }

  sizes() {
    const groups = Object.entries(GROUPS).map(([start, name]) => this.group(name, this.making.sizes.filter((size) => size.id.startsWith(`${start}-`))));
    const rest = this.making.sizes.filter((size) => !Object.keys(GROUPS).some((start) => size.id.startsWith(`${start}-`)));
    return el('fieldset', {}, el('legend', {}, 'For whom?'), groups, rest.length > 0 && this.group('Others', rest), this.people);
  }

  /** @param {string} name @param {Making['sizes']} sizes */
  group(name, sizes) {
    const { answers } = this;
    const count = el('span', { class: 'note' });
    const told = () => {
      const chosen = sizes.filter((size) => answers.sizes.has(size.id));
      fill(count, chosen.length ? chosen.map((size) => size.label).join('; ') : 'none');
    };
    told();
    const ticks = sizes.map(({ id, label }) => {
      const box = el('input', { type: 'checkbox', checked: answers.sizes.has(id) });
      box.addEventListener('change', () => {
        if (box.checked) answers.sizes.add(id);
        else answers.sizes.delete(id);
        told();
        this.changed(true);
      });
      return el('label', { class: 'beside' }, box, label);
    });
    return el('details', { open: sizes.some((size) => answers.sizes.has(size.id)) }, el('summary', {}, el('b', {}, name), ' ', count), el('div', { class: 'options' }, ticks));
  }

  /** Her own measures, of the parts that this piece needs. */
  measures() {
    const { answers } = this;
    const { own } = answers;
    const box = el('input', { type: 'checkbox', checked: own.on });
    const name = el('input', { type: 'text', autocomplete: 'off', '.value': own.name });
    name.addEventListener('change', () => {
      own.name = name.value;
      this.changed(true);
    });
    const parts = (answers.piece?.parts ?? []).map((part) => {
      const input = el('input', { type: 'text', inputmode: 'decimal', class: 'short figures', '.value': own.lengths[part] ?? '' });
      input.addEventListener('input', () => {
        own.lengths[part] = input.value;
        this.changed(false);
      });
      return el('label', {}, `${PARTS[part] ?? part}, ${this.words.length.unit}`, input);
    });
    const fields = el('div', { class: 'row', hidden: !own.on }, el('label', {}, 'Her name', name), parts);
    box.addEventListener('change', () => {
      own.on = box.checked;
      fields.hidden = !own.on;
      this.changed(true);
    });
    fill(this.people, el('label', { class: 'beside' }, box, 'Her own measures'), fields);
  }

  band() {
    return el('fieldset', {}, el('legend', {}, 'The band'),
      el('div', { class: 'row' },
        this.number('times', 'Chart upwards, times', 1, 20), this.number('below', 'Plain rounds beneath', 0, 200), this.number('above', 'Plain rounds above', 0, 200)));
  }

  /** @param {'times' | 'below' | 'above'} key @param {string} words @param {number} least @param {number} most */
  number(key, words, least, most) {
    const { answers } = this;
    const input = el('input', { type: 'number', class: 'short figures', min: least, max: most, step: 1, '.value': String(answers[key]) });
    input.addEventListener('input', () => {
      if (!input.value || !input.checkValidity()) return;
      answers[key] = Number(input.value);
      this.changed(false);
    });
    input.addEventListener('blur', () => (input.value = String(answers[key])));
    return el('label', {}, words, input);
  }

  colours() {
    const { answers } = this;
    const lines = Object.entries(answers.colours).map(([role, yarn]) => {
      const name = el('input', { type: 'text', autocomplete: 'off', '.value': yarn.name, 'aria-label': `Name of the yarn for ${role}` });
      const colour = el('input', { type: 'color', '.value': yarn.hex, 'aria-label': `Colour of the yarn for ${role}` });
      name.addEventListener('input', () => {
        yarn.name = name.value || role;
        this.changed(false);
      });
      colour.addEventListener('input', () => {
        yarn.hex = colour.value;
        this.changed(false);
      });
      return el('li', {}, el('b', {}, role), name, colour);
    });
    return el('fieldset', {}, el('legend', {}, 'Which yarns?'), el('ul', { class: 'yarns' }, lines));
  }
}
