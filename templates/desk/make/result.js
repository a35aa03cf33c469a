// What comes of the answers: the piece drawn, the counts of all sizes, what does not work and what would.
import { sizesTable } from '../course/facts.js';
import { sentence } from '../course/faults.js';
import { button, el, fill, say } from '../dom.js';

/** @typedef {import('../types').File} File */

/** @param {{ text: string, help: string | null }} one */
const reason = ({ text, help }) => el('li', {}, el('p', {}, el('b', {}, sentence(text))), help && el('p', {}, sentence(help)));

/** @param {string} id @param {string} words @param {{ text: string, help: string | null }[]} reasons @param {string} kind */
const reasons = (id, words, reasons, kind) =>
  reasons.length ? el('section', { class: kind, 'aria-labelledby': id }, el('h2', { id }, words), el('ul', {}, reasons.map(reason))) : null;

export class Result {
  /** @param {() => void} save */
  constructor(save) {
    this.image = el('img', { class: 'paper', alt: '' });
    this.image.addEventListener('error', () => (this.image.hidden = true));
    this.image.addEventListener('load', () => (this.image.hidden = false));
    this.figure = el('figure', {}, this.image);
    this.print = el('a', { class: 'button main', target: '_blank', rel: 'noopener' }, 'Print the handout', el('span', { class: 'unseen' }, ' (opens in a new tab)'));
    this.save = button('Save the lesson', save, { class: 'writes' });
    this.say = el('p', { class: 'note' });
    this.parts = el('div', { class: 'parts' });
    this.element = el('div', { class: 'result' }, el('h2', {}, 'What comes of it'), el('div', { class: 'row' }, this.print, this.save), this.say, this.figure, this.parts);
    this.able(false);
    this.told = '';
  }

  /** @param {boolean} ready */
  able(ready) {
    this.print.classList.toggle('off', !ready);
    if (!ready) this.print.removeAttribute('href');
    this.print.setAttribute('aria-disabled', String(!ready));
  }

  /** An answer is missing. @param {string} missing */
  waits(missing) {
    this.able(false);
    this.save.disabled = true;
    this.say.textContent = missing;
    say(missing);
  }

  /** @param {File} file */
  show(file) {
    const { lesson } = file;
    const counts = lesson?.sizes.labels.length ?? 0;
    this.save.disabled = false;
    this.able(Boolean(lesson?.ready));
    if (lesson?.ready) this.print.href = `/api/handout/${file.id}.pdf?v=${lesson.version}`;
    this.draw(file);
    const faults = file.faults.map((fault) => ({ severity: fault.severity, text: fault.message, help: fault.help }));
    const errors = [...faults.filter((one) => one.severity === 'error'), ...(lesson?.lacking ?? [])];
    // What a size lacks is told once.
    const lacked = (lesson?.lacking ?? []).map((one) => one.text);
    const warnings = faults.filter((one) => one.severity === 'warning' && !lacked.some((text) => one.text.endsWith(text)));
    const measured = lesson?.measured;
    this.say.textContent = measured ? `How hard: ${Math.round(measured.grade)} of 100, ${measured.level}. ${sentence(measured.looks)}` : '';
    const parts = [reasons('not-word', 'What does not work', errors, 'not'), lesson && sizesTable(lesson), reasons('care-word', 'Worth knowing', warnings, 'care')];
    fill(this.parts, ...parts.filter((part) => part !== null));
    const told = errors[0] ? `Does not work: ${errors[0].text}` : `${counts} ${counts === 1 ? 'size' : 'sizes'} worked out`;
    if (told !== this.told) say(told);
    this.told = told;
  }

  /** The piece with the band in place. @param {File} file */
  draw(file) {
    const { lesson } = file;
    this.figure.hidden = !lesson?.ready;
    if (!lesson?.ready) return;
    const address = `/api/piece/${file.id}.svg?v=${lesson.version}`;
    if (this.image.getAttribute('src') === address) return;
    this.image.alt = `${lesson.title}, stitch by stitch`;
    this.image.src = address;
  }
}
