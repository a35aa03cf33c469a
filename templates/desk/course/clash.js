// Two states of a file against each other: another window wrote first, or the file was changed beside the desk.
import { button, el, fill, say } from '../dom.js';
import { differ } from '../paper/clash.js';
import { at, read } from './yaml.js';

/**
 * @typedef {import('../types').File} File
 * @typedef {import('./draft.js').Change} Change
 * @typedef {import('./draft.js').Draft} Draft
 */

/** A text with the lines marked that only it has. @param {string} text @param {string} other @param {string} words */
const sheet = (text, other, words) =>
  el('pre', { class: 'text', tabindex: 0, role: 'region', 'aria-label': words },
    differ(text, other).map(({ line, only }) => (only ? el('ins', {}, `${line}\n`) : el('span', {}, `${line}\n`))));

/** @param {HTMLElement} shown @param {string} words @param {HTMLElement | false} act */
const side = (shown, words, act) => el('figure', {}, el('figcaption', {}, words), shown, act);

/** Changed values as lines: key and value. @param {Extract<Change, { edits: unknown }>['edits']} edits @param {string | null} text theirs; null: ours */
const values = (edits, text) =>
  el('ul', {}, edits.map((edit) => {
    const value = text === null ? (edit.remove ? 'removed' : edit.block ?? edit.text ?? JSON.stringify(edit.value)) : at(read(text)?.tree, edit.at);
    const words = value === undefined || value === null ? 'not there' : typeof value === 'string' ? value : JSON.stringify(value);
    return el('li', {}, el('b', {}, edit.at.join(', ')), `: ${words}`);
  }));

export class Clash {
  /** @param {boolean} readOnly */
  constructor(readOnly) {
    this.readOnly = readOnly;
    this.element = el('div', { class: 'clash', hidden: true });
    this.key = '';
  }

  /**
   * Another window wrote first.
   * @param {Draft} draft
   * @param {File} theirs
   * @param {Change} change ours
   * @param {() => void} done
   */
  windows(draft, theirs, change, done) {
    /** @param {boolean} mine */
    const choose = async (mine) => {
      this.close();
      await draft.choose(theirs, mine);
      say(mine ? 'Kept what was in this window' : 'Kept what was in the other window');
      done();
    };
    const text = 'text' in change ? change.text : null;
    const [ours, others] = 'edits' in change
      ? [values(change.edits, null), values(change.edits, theirs.text)]
      : [sheet(text ?? '', theirs.text, 'The text in this window'), sheet(theirs.text, text ?? '', 'The text in the other window')];
    this.open('windows',
      el('h2', { tabindex: -1 }, 'Changed in another window too'),
      el('p', {}, 'Nothing of yours is lost: it is on this page, but not kept yet. Which one shall stand?'),
      el('div', { class: 'texts' },
        side(ours, 'In this window', button('Keep mine', () => choose(true))),
        side(others, 'In the other window', button('Keep the other', () => choose(false)))));
  }

  /**
   * The file was changed beside the desk, or not any more.
   * @param {Draft} draft
   * @param {() => void} done
   */
  beside(draft, done) {
    const { text, elsewhere } = draft.file;
    if (draft.halted) return;
    if (elsewhere === null) return this.close();
    /** @param {boolean} mine */
    const choose = async (mine) => {
      await draft.add(mine ? { act: 'save', over: true } : { act: 'drop' });
      if (draft.file.elsewhere !== null) return;
      this.close();
      say(mine ? 'Yours is saved over the file' : 'Theirs is taken');
      done();
    };
    this.open(`beside ${text} ${elsewhere}`,
      el('h2', { tabindex: -1 }, 'The file was changed outside the desk'),
      el('p', {}, 'Lines that differ are marked. Which one shall stand?'),
      el('div', { class: 'texts' },
        side(sheet(text, elsewhere, 'Yours, on the desk'), 'Yours, on the desk', !this.readOnly && button('Keep mine', () => choose(true))),
        side(sheet(elsewhere, text, 'Theirs, in the file'), 'Theirs, in the file', !this.readOnly && button('Take theirs', () => choose(false)))));
  }

  /** @param {string} key @param {...HTMLElement} parts */
  open(key, ...parts) {
    if (key === this.key) return;
    const was = this.element.hidden;
    this.key = key;
    this.element.hidden = false;
    fill(this.element, ...parts);
    if (was) say('This file was changed elsewhere too. Both are shown; keep either');
  }

  close() {
    this.key = '';
    this.element.hidden = true;
    fill(this.element);
  }
}
