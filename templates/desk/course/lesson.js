// A lesson, or the settings of the course: as a form, as the text of its file, and as it will print. Every change is kept
// on the desk at once; Save writes it to the file.
import { attempt, get } from '../api.js';
import { actions, button, el, fill, kept, say, trouble } from '../dom.js';
import { hatches } from './bar.js';
import { Clash } from './clash.js';
import { Draft } from './draft.js';
import { hardness, lackingList, sizesTable } from './facts.js';
import { Form } from './form.js';
import { Printed } from './printed.js';
import { Sheet } from './sheet.js';
import { at, read } from './yaml.js';

/**
 * @typedef {import('../types').File} File
 * @typedef {import('./form.js').Spec} Spec
 * @typedef {import('./draft.js').Change} Change
 */

class Page {
  /** @param {import('../main.js').Desk} desk @param {File} file @param {Spec} spec */
  constructor(desk, file, spec) {
    const { root, course } = desk;
    const { readOnly } = course;
    this.root = root;
    this.course = course;
    this.title = el('h1', { tabindex: -1 });
    this.facts = el('div', { class: 'facts' });
    this.clash = new Clash(readOnly);
    this.draft = new Draft(file, {
      answered: (now) => this.show(now),
      crossed: (theirs, change) => this.clash.windows(this.draft, theirs, change, () => this.title.focus()),
      refused: (message) => trouble(message),
      moved: () => this.bar(),
    });
    this.form = new Form(file.kind === 'course' ? 'course' : 'lesson', spec, { course, id: file.id, change: (change) => this.change(change) });
    this.sheet = new Sheet(readOnly, (text) => this.draft.add({ change: { text } }));
    this.printed = file.kind === 'lesson' ? new Printed(file.id, course.sizes) : null;
    this.undo = button('Undo', () => this.act('undo'), { class: 'writes' });
    this.redo = button('Redo', () => this.act('redo'), { class: 'writes' });
    this.save = button('Save', () => this.act('save'), { class: 'writes main' });
    this.drop = button('', () => this.giveUp(), { class: 'writes' });
    this.sure = false;
    this.timer = 0;
  }

  /** @param {string | undefined} line */
  open(line) {
    const { root, printed } = this;
    fill(root,
      /** @type {any} */ (hatches()),
      el('div', { class: 'head' }, this.title, this.where(), this.drop), this.clash.element,
      el('div', { class: printed ? 'work' : 'work two' },
        this.form.element, this.sheet.element, printed?.element), this.facts);
    actions(this.undo, this.redo, this.save);
    root.addEventListener('keydown', this.keys);
    window.addEventListener('pagehide', this.flush);
    this.show(this.draft.file);
    this.sheet.listed();
    // The shell gives the focus to the view first.
    if (line && /^\d+$/.test(line)) setTimeout(() => this.sheet.area.isConnected && this.sheet.go(Number(line)));
  }

  where() {
    const { file } = this.draft;
    const rung = this.course.lessons.findIndex((one) => one.id === file.id);
    const place = file.kind === 'course' ? 'Settings of the course' : rung < 0 ? (file.lesson ? 'Not on the ladder yet' : 'Not on the ladder: it has errors') : `Lesson ${rung + 1} of ${this.course.lessons.length}`;
    return el('p', { class: 'note where' }, place);
  }

  /** @param {Change} change */
  change(change) {
    this.sheet.flush();
    this.draft.add({ change });
  }

  /** @param {'undo' | 'redo' | 'save'} act */
  async act(act) {
    this.flush();
    await this.settled();
    const { file, halted } = this.draft;
    if (halted || (act === 'save' ? !(file.changed || file.fresh) : !file[act])) return;
    await this.draft.add({ act });
    await this.settled();
    if (act === 'save' && !this.draft.file.changed) say('Saved to the file');
    if (act !== 'save') say(act === 'undo' ? 'Undone' : 'Done again');
  }

  /** Back to what the file says; of a draft without a file nothing is left, so that is asked twice. */
  async giveUp() {
    const { fresh } = this.draft.file;
    if (fresh && !this.sure) {
      this.sure = true;
      this.bar();
      return say('Press again to give it up for good');
    }
    this.sure = false;
    await this.draft.add({ act: 'drop' });
    await this.settled();
    if (fresh) return;
    say('As in the file again');
    this.title.focus();
  }

  async settled() {
    while (this.draft.busy) await new Promise((go) => setTimeout(go, 10));
  }

  /** Ctrl+S saves, as everywhere. @param {KeyboardEvent} event */
  keys = (event) => {
    if ((event.ctrlKey || event.metaKey) && !event.shiftKey && !event.altKey && event.key.toLowerCase() === 's') {
      event.preventDefault();
      if (!this.course.readOnly) this.act('save');
    }
  };

  /** @param {File} file */
  show(file) {
    if ('gone' in file) {
      location.hash = '#/course';
      return;
    }
    const tree = read(file.text)?.tree;
    const title = at(tree, ['title']);
    this.title.textContent = file.lesson?.title || (typeof title === 'string' && title) || file.id;
    this.form.show(file);
    this.sheet.show(file.text, file.faults);
    const sizes = at(tree, ['sizes']);
    const { lesson } = file;
    this.printed?.show(lesson?.ready ? lesson.version : null, Array.isArray(sizes) ? sizes.filter((one) => typeof one === 'string') : []);
    const measured = lesson?.measured;
    const parts = lesson ? [lackingList(lesson), measured ? hardness(measured) : null, sizesTable(lesson)] : [];
    const scroll = this.facts.querySelector('.wide')?.scrollLeft ?? 0;
    fill(this.facts, ...parts.filter((part) => part !== null));
    const wide = this.facts.querySelector('.wide');
    if (wide) wide.scrollLeft = scroll;
    this.root.querySelector('.where')?.replaceWith(this.where());
    this.clash.beside(this.draft, () => this.title.focus());
    this.bar();
  }

  bar() {
    const { file, halted } = this.draft;
    kept(this.draft.words());
    this.drop.hidden = !(file.changed || file.fresh) || file.elsewhere !== null;
    this.drop.textContent = !file.fresh ? 'Back to the file' : this.sure ? 'Give it up for good' : 'Give it up';
    // They keep the focus when they can do nothing more.
    this.undo.setAttribute('aria-disabled', String(halted || !file.undo));
    this.redo.setAttribute('aria-disabled', String(halted || !file.redo));
    this.save.setAttribute('aria-disabled', String(halted || !(file.changed || file.fresh || this.draft.waiting.length > 0)));
  }

  /** @param {import('../types').Change} change @param {import('../types').Course} course */
  changed(change, course) {
    this.course = course;
    this.root.querySelector('.where')?.replaceWith(this.where());
    // What was changed here is known already; it is told all the same, so there is no hurry.
    clearTimeout(this.timer);
    this.timer = window.setTimeout(() => {
      if (this.draft.idle && !this.sheet.pending && !this.form.pending.size) this.draft.read();
    }, 250);
  }

  /** Hands on what was typed last. */
  flush = () => {
    this.form.flush();
    this.sheet.flush();
  };

  async leave() {
    clearTimeout(this.timer);
    this.flush();
    this.root.removeEventListener('keydown', this.keys);
    window.removeEventListener('pagehide', this.flush);
    await this.draft.leave();
  }
}

/**
 * @param {import('../main.js').Desk} desk
 * @returns {Promise<import('../main.js').View>}
 */
export async function show(desk) {
  const [id = 'course', line] = desk.words;
  const both = await attempt(() => Promise.all([
    /** @type {Promise<File>} */ (get(`/api/file/${encodeURIComponent(id)}`)),
    /** @type {Promise<{ definitions: Record<string, Spec> }>} */ (get('/api/schema')),
  ]));
  if (!both || both[0].kind === 'chart') {
    fill(desk.root, el('h1', {}, 'No such lesson'), el('p', {}, el('a', { href: '#/course' }, 'To the course')));
    return {};
  }
  const [file, schema] = both;
  const page = new Page(desk, file, schema.definitions[file.kind] ?? {});
  page.open(line);
  return { leave: () => page.leave(), changed: (change, course) => page.changed(change, course) };
}
