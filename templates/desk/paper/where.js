// The right column: how hard the chart is and why, what it asks, and where it stands on the ladder.
import { el, fill } from '../dom.js';
import { svg } from './drawn.js';
import { figure, signed } from './figures.js';
import { drawLadder } from './ladder.js';
import { height } from './sheet.js';

/**
 * @typedef {import('./work.js').Work} Work
 * @typedef {import('../main.js').Desk} Desk
 * @typedef {import('../types').Measured} Measured
 */
/** @type {import('../types').PartName[]} */
export const PARTS = ['floats', 'colours', 'reading', 'relief', 'handling'];

export class Where {
  /**
   * @param {Work} work
   * @param {Desk} desk
   * @param {(row: number) => void} go
   * @param {HTMLElement} kinder
   */
  constructor(work, desk, go, kinder) {
    this.work = work;
    this.desk = desk;
    this.go = go;
    this.kinder = kinder;
    this.grade = el('div', { class: 'hard' });
    this.ladder = el('div', { class: 'ladder-box' });
    this.lesson = el('div', { class: 'in-yarns' });
    this.element = el('section', { class: 'side', 'aria-labelledby': 'where-word' },
      el('h2', { id: 'where-word' }, 'Where it sits'), this.lesson, this.grade, kinder, this.ladder);
    this.shown = { grade: '', ladder: '', lesson: '' };
  }

  draw() {
    const { work, desk } = this;
    const { measured, lesson } = work.chart;
    const grade = JSON.stringify([measured?.grade, measured?.parts, measured?.looks, measured?.techniques, measured?.step, lesson]);
    if (grade !== this.shown.grade) this.drawGrade(measured);
    this.shown.grade = grade;
    const ladder = JSON.stringify([measured?.grade, measured?.step, measured?.parts, lesson, desk.course.lessons]);
    if (ladder !== this.shown.ladder) drawLadder(this.ladder, work, desk.course);
    this.shown.ladder = ladder;
    this.choose();
    this.kinder.hidden = !measured;
  }

  /** In the yarns of which lesson the chart is shown. */
  choose() {
    const { work, desk } = this;
    const users = desk.course.lessons.filter((rung) => rung.charts.includes(work.file.id));
    const now = work.chart.lesson;
    const called = desk.course.charts.find((chart) => chart.id === work.file.id)?.usedBy ?? [];
    const key = JSON.stringify([users.map((rung) => [rung.id, rung.title]), now, called, !work.chart.measured]);
    if (key === this.shown.lesson) return;
    this.shown.lesson = key;
    if (users.length < 2) {
      if (now) fill(this.lesson, el('p', {}, 'In the yarns of ', el('a', { href: `#/lesson/${now.id}` }, now.title)));
      else if (!work.chart.measured) fill(this.lesson);
      else if (called.length) fill(this.lesson, el('p', {}, 'Measured by itself: a lesson that uses it has a fault.'));
      else fill(this.lesson, el('p', {}, 'No lesson uses this chart yet. ', el('a', { href: `#/make/${work.file.id}` }, 'Make something of it')));
      return;
    }
    fill(this.lesson, el('label', {}, 'In the yarns of', el('select', {
      onchange: (/** @type {Event} */ event) => {
        const id = event.target instanceof HTMLSelectElement ? event.target.value : '';
        location.hash = `#/chart/${work.file.id}/${id}`;
      },
    }, users.map((rung) => el('option', { value: rung.id, selected: rung.id === now?.id }, rung.title)))));
  }

  /** @param {Measured | null} measured */
  drawGrade(measured) {
    if (!measured) {
      fill(this.grade, el('p', {}, 'The numbers come back when the chart has no fault.'));
      return;
    }
    const step = measured.step;
    fill(this.grade,
      el('p', { class: 'grade' },
        el('span', { class: 'unseen' }, 'How hard: '),
        el('span', { class: 'big' }, figure(measured.grade)),
        el('span', {}, el('strong', {}, `of 100: ${measured.level}`), el('br'), `Looks ${figure(measured.busyness)} of 100 busy. ${measured.looks}.`)),
      el('h3', {}, 'What makes it so'),
      el('dl', { class: 'parts' }, PARTS.map((name) => this.part(measured.parts[name]))),
      PARTS.some((name) => measured.parts[name].met !== null) && el('p', { class: 'note' }, triangle(), ' most met in the lessons before'),
      step !== null && el('p', {}, 'Step from the lessons before: ', el('strong', { class: 'figures' }, signed(step))),
      measured.techniques.length > 0 && el('p', {}, 'It asks for: ', measured.techniques.map(words).join(', '), '.'));
  }

  /** @param {Measured['parts']['floats']} part */
  part(part) {
    // A cause may lie in another chart of the lesson.
    const row = part.row !== null && part.row >= 1 && part.row <= height(this.work.sheet) ? part.row : null;
    return el('div', {},
      el('dt', {}, part.title),
      el('dd', {}, bar(part.value, part.met),
        el('span', { class: 'cause' }, part.cause,
          row !== null && ' ',
          row !== null && el('button', { type: 'button', class: 'go', onclick: () => this.go(row) },
            `Show ${this.work.round.toLowerCase()} ${row}`))));
  }
}

/** @param {string} id */
export const words = (id) => id.replaceAll('-', ' ').replace('/', ': ');

const triangle = () =>
  svg('svg', { width: 10, height: 9, 'aria-hidden': 'true', class: 'met' }, svg('path', { d: 'M5 0l5 9H0z' }));

/** A part as a bar; beneath it what was met before. @param {number} value @param {number | null} met */
const bar = (value, met) => {
  const [wide, tall] = [120, 14];
  const drawn = svg('svg', { width: wide, height: 22, 'aria-hidden': 'true', class: 'bar' },
    svg('rect', { x: 0.5, y: 0.5, width: wide - 1, height: tall, class: 'whole' }),
    svg('rect', { x: 1, y: 1, width: Math.max(0, Math.min(1, value)) * (wide - 2), height: tall - 1, class: 'part' }));
  if (met !== null) {
    const x = 1 + Math.max(0, Math.min(1, met)) * (wide - 2);
    drawn.append(svg('path', { d: `M${x} ${tall + 1}l4 7h-8z`, class: 'met' }));
  }
  return drawn;
};
