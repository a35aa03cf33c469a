// What was answered, and the lesson to be asked of the desk.
import { idOf, taken } from '../names.js';
import { wordsOf } from '../people/words.js';

/**
 * @typedef {import('../types').Make} Make
 * @typedef {import('../types').Making} Making
 */

export class Answers {
  /** @param {Making} making @param {import('../types').Course} course */
  constructor(making, course) {
    const { first } = making;
    this.making = making;
    this.words = wordsOf(course);
    this.taken = taken(course);
    this.chart = first.chart;
    this.id = first.id;
    this.title = first.title;
    this.makes = first.makes;
    this.weight = first.weight;
    /** As it was typed. */
    this.gauge = { stitches: this.counted(first.gauge?.stitches), rows: this.counted(first.gauge?.rows) };
    this.known = first.gauge !== null;
    this.sizes = new Set(first.sizes);
    /** Her own measures as typed. @type {{ on: boolean, name: string, lengths: Record<string, string> }} */
    this.own = { on: false, name: '', lengths: {} };
    this.times = first.times;
    this.below = first.below;
    this.above = first.above;
    this.colours = structuredClone(first.colours);
    /** What is missing before there can be a lesson. @type {string} */
    this.missing = '';
  }

  /** What is counted over 10 cm, as it is counted here. @param {number | undefined} toTen */
  counted(toTen) {
    if (toTen === undefined) return '';
    return String(Math.round((toTen * 10000) / this.words.toTen('1000')) / 10);
  }

  get piece() {
    return this.making.makes.find((one) => one.id === this.makes);
  }

  /** Another piece; the title follows where it named the old one. @param {string} makes */
  turn(makes) {
    const [old, now] = [this.piece?.name ?? '', this.making.makes.find((one) => one.id === makes)?.name ?? ''];
    this.makes = makes;
    const ending = new RegExp(`\\b${old}$`, 'i');
    if (old && ending.test(this.title)) this.entitle(this.title.replace(ending, now.toLowerCase()));
  }

  /** @param {string} title */
  entitle(title) {
    this.title = title;
    this.id = idOf(title, this.taken, 'lesson');
  }

  /** The lesson; null with what is missing. @returns {Make | null} */
  make() {
    const { chart, id, title, makes, weight, times, below, above, colours } = this;
    this.missing = '';
    const own = this.person();
    const gauge = this.known ? { stitches: this.toTen(this.gauge.stitches), rows: this.toTen(this.gauge.rows) } : null;
    if (gauge && !(gauge.stitches > 0 && gauge.rows > 0)) this.missing = `Say how many stitches and rows you have in ${this.words.over}, or that you don’t know.`;
    else if (!title.trim()) this.missing = 'Give it a title.';
    else if (this.own.on && !own) this.missing = `Say her name and ${this.piece?.parts.join(', ')} in ${this.words.length.unit}.`;
    else if (!own && !this.sizes.size) this.missing = 'Choose a size, or give her own measures.';
    if (this.missing) return null;
    const order = this.making.sizes.map((size) => size.id).filter((size) => this.sizes.has(size));
    return { id, title: title.trim(), chart, makes, gauge, weight, sizes: order, own, times, below, above, colours };
  }

  /** @param {string} typed */
  toTen(typed) {
    return this.words.toTen(typed.trim().replace(',', '.') || 'none');
  }

  /** @returns {Make['own']} */
  person() {
    const parts = this.piece?.parts ?? [];
    const measures = Object.fromEntries(parts.flatMap((part) => {
      const length = decimal(this.own.lengths[part] ?? '');
      return length > 0 ? [[part, Math.round(length * this.words.length.mm * 10) / 10]] : [];
    }));
    const { on, name } = this.own;
    return on && name.trim() && Object.keys(measures).length ? { name: name.trim(), measures } : null;
  }
}

/** A number with point or comma. @param {string} text */
export const decimal = (text) => Number(text.trim().replace(',', '.') || Number.NaN);
