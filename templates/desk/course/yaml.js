// Reads the YAML of our files for the form: mappings, lists, both also on one line, quoted and plain values, blocks.
// What it does not know (anchors, tags) it refuses; then only the text can be changed. The desk's server judges the file.

/** @typedef {string | null | any[] | { [key: string]: any }} Tree A value, kept as it is written; lists and mappings of such. */
/** @typedef {{ tree: { [key: string]: Tree }, spans: Map<string, [number, number]> }} Read Spans: first and last line, from 1. */
/** @typedef {{ indent: number, text: string, n: number }} Line */

export class Unreadable extends Error {}

/** Takes a comment off the end of a line. @param {string} text */
const bare = (text) => {
  let quote = '';
  for (let i = 0; i < text.length; i += 1) {
    const c = text[i];
    if (quote) {
      if (c === '\\' && quote === '"') i += 1;
      else if (c === quote) quote = '';
    } else if ((c === '"' || c === "'") && (i === 0 || /[\s[{,:]/.test(text[i - 1] ?? ''))) quote = c;
    else if (c === '#' && (i === 0 || /\s/.test(text[i - 1] ?? ''))) return text.slice(0, i).trimEnd();
  }
  return text.trimEnd();
};

/** Where the value of `key: value` begins; −1 without a key. @param {string} text */
const colon = (text) => {
  if (/^["']/.test(text)) {
    const quoted = /^("(?:[^"\\]|\\.)*"|'(?:[^']|'')*')\s*:(?=\s|$)/.exec(text);
    return quoted ? quoted[0].length : -1;
  }
  const plain = /^[^\s[\]{},#&*!|>%@`][^#]*?:(?=\s|$)/.exec(text);
  return plain ? plain[0].length : -1;
};

/** @param {string} text */
const scalar = (text) => {
  if (text === '' || text === '~' || text === 'null') return null;
  if (/^"(?:[^"\\]|\\.)*"$/.test(text)) {
    try {
      return String(JSON.parse(text));
    } catch {
      throw new Unreadable();
    }
  }
  if (/^'(?:[^']|'')*'$/.test(text)) return text.slice(1, -1).replaceAll("''", "'");
  if (/^[&*!@`%"']/.test(text)) throw new Unreadable();
  return text;
};

/** A list or mapping on one line, or a few. */
class Flow {
  /** @param {string} text */
  constructor(text) {
    this.text = text;
    this.i = 0;
  }

  space() {
    while (/\s/.test(this.text[this.i] ?? '')) this.i += 1;
  }

  /** @returns {Tree} */
  value() {
    this.space();
    if (this.text[this.i] === '[') return this.items();
    if (this.text[this.i] === '{') return this.pairs();
    return this.word(/[,\]}]/);
  }

  /** @param {RegExp} end */
  word(end) {
    this.space();
    const rest = this.text.slice(this.i);
    const quoted = /^("(?:[^"\\]|\\.)*"|'(?:[^']|'')*')/.exec(rest);
    if (quoted) {
      this.i += quoted[0].length;
      this.space();
      return scalar(quoted[0]);
    }
    const length = rest.search(end);
    if (length < 0) throw new Unreadable();
    this.i += length;
    return scalar(rest.slice(0, length).trim());
  }

  /** @param {string} close */
  ended(close) {
    this.space();
    const c = this.text[this.i];
    if (c === undefined) throw new Unreadable();
    if (c !== close && c !== ',') throw new Unreadable();
    this.i += 1;
    this.space();
    return c === close || (this.text[this.i] === close && (this.i += 1) > 0);
  }

  items() {
    /** @type {Tree[]} */
    const made = [];
    this.i += 1;
    this.space();
    if (this.text[this.i] === ']') {
      this.i += 1;
      return made;
    }
    do made.push(this.value());
    while (!this.ended(']'));
    return made;
  }

  pairs() {
    /** @type {{ [key: string]: Tree }} */
    const made = {};
    this.i += 1;
    this.space();
    if (this.text[this.i] === '}') {
      this.i += 1;
      return made;
    }
    do {
      const key = this.word(/:(?=\s|$)|[,}]/);
      this.space();
      if (key === null || this.text[this.i] !== ':') throw new Unreadable();
      this.i += 1;
      made[key] = this.value();
    } while (!this.ended('}'));
    return made;
  }
}

class Reader {
  /** @param {string} text */
  constructor(text) {
    this.raw = text.split('\n');
    this.i = 0;
  }

  /** The next line that says something. @returns {Line | null} */
  peek() {
    for (; this.i < this.raw.length; this.i += 1) {
      const raw = this.raw[this.i] ?? '';
      if (/^\t|^(---|\.\.\.)/.test(raw)) throw new Unreadable();
      const text = bare(raw.trimStart());
      if (text) return { indent: raw.length - raw.trimStart().length, text, n: this.i + 1 };
    }
    return null;
  }

  /** What stands at this depth. @param {number} least @returns {Tree} */
  node(least) {
    const line = this.peek();
    if (!line || line.indent < least) return null;
    if (/^-(\s|$)/.test(line.text)) return this.list(line.indent);
    if (colon(line.text) >= 0) return this.mapping(line.indent);
    this.i += 1;
    return this.inline(line.text, line.indent);
  }

  /** @param {number} indent */
  list(indent) {
    /** @type {Tree[]} */
    const made = [];
    for (let line = this.peek(); line && line.indent === indent && /^-(\s|$)/.test(line.text); line = this.peek()) {
      const rest = line.text.slice(1).trimStart();
      const deeper = indent + line.text.length - rest.length;
      if (rest && colon(rest) >= 0 && !/^[[{"']/.test(rest)) {
        // The rest of the line is the first of a mapping.
        this.raw[this.i] = ' '.repeat(deeper) + rest;
        made.push(this.mapping(deeper));
      } else {
        this.i += 1;
        made.push(rest ? this.inline(rest, indent) : this.node(indent + 1));
      }
    }
    return made;
  }

  /** @param {number} indent @param {Map<string, [number, number]>} [spans] */
  mapping(indent, spans) {
    /** @type {{ [key: string]: Tree }} */
    const made = {};
    for (let line = this.peek(); line && line.indent >= indent; line = this.peek()) {
      const at = colon(line.text);
      if (line.indent !== indent || at < 0) throw new Unreadable();
      const key = scalar(line.text.slice(0, at).replace(/\s*:$/, ''));
      if (key === null || Object.hasOwn(made, key)) throw new Unreadable();
      const rest = line.text.slice(at).trim();
      this.i += 1;
      made[key] = rest ? this.inline(rest, indent) : this.below(indent);
      spans?.set(key, [line.n, this.i]);
    }
    return made;
  }

  /** The value of a key beneath it; a list may stand at its own depth. @param {number} indent */
  below(indent) {
    const line = this.peek();
    if (line && line.indent === indent && /^-(\s|$)/.test(line.text)) return this.list(indent);
    return this.node(indent + 1);
  }

  /** What begins on the line of its key. @param {string} text @param {number} indent @returns {Tree} */
  inline(text, indent) {
    if (/^[|>]/.test(text)) return this.block(text, indent);
    if (/^[[{]/.test(text)) return this.flow(text);
    let whole = text;
    for (let line = this.peek(); line && line.indent > indent; line = this.peek()) {
      whole += ` ${line.text}`;
      this.i += 1;
    }
    return scalar(whole);
  }

  /** @param {string} text */
  flow(text) {
    let whole = text;
    for (;;) {
      const flow = new Flow(whole);
      try {
        const value = flow.value();
        if (whole.slice(flow.i).trim()) throw new Unreadable();
        return value;
      } catch (error) {
        const next = this.peek();
        if (flow.i < whole.trimEnd().length || !next) throw error;
        whole += ` ${next.text}`;
        this.i += 1;
      }
    }
  }

  /** @param {string} head @param {number} indent */
  block(head, indent) {
    /** @type {string[]} */
    const lines = [];
    let deep = 0;
    for (; this.i < this.raw.length; this.i += 1) {
      const raw = this.raw[this.i] ?? '';
      const depth = raw.length - raw.trimStart().length;
      if (raw.trim() && depth <= indent) break;
      if (raw.trim() && !deep) deep = depth;
      lines.push(raw.slice(deep || raw.length));
    }
    while (lines.length && !lines.at(-1)) lines.pop();
    return head.startsWith('>') ? lines.join('\n').replace(/([^\n])\n(?=[^\n])/g, '$1 ') : lines.join('\n');
  }
}

/**
 * @param {string} text
 * @returns {Read | null} null where the text is none that the form can show
 */
export const read = (text) => {
  const reader = new Reader(text);
  /** @type {Map<string, [number, number]>} */
  const spans = new Map();
  try {
    const first = reader.peek();
    if (!first) return { tree: {}, spans };
    const tree = reader.mapping(0, spans);
    return reader.peek() ? null : { tree, spans };
  } catch (error) {
    if (error instanceof Unreadable) return null;
    throw error;
  }
};

/** What stands there. @param {Tree | undefined} tree @param {(string | number)[]} path @returns {Tree | undefined} */
export const at = (tree, path) => {
  /** @type {Tree | undefined} */
  let now = tree;
  for (const step of path) {
    if (Array.isArray(now)) now = now[Number(step)];
    else if (now && typeof now === 'object') now = now[String(step)];
    else return undefined;
  }
  return now;
};

/**
 * The text of a key's value as lines, without their common indent.
 * @param {string} text
 * @param {[number, number] | undefined} span
 */
export const below = (text, span) => {
  if (!span) return '';
  const lines = text.split('\n').slice(span[0] - 1, span[1]);
  const head = (lines[0] ?? '').replace(/^[^:]*:\s?/, '');
  const rest = lines.slice(1);
  const depth = Math.min(...rest.filter((line) => line.trim()).map((line) => line.length - line.trimStart().length));
  const shown = rest.map((line) => line.slice(Number.isFinite(depth) ? depth : 0));
  return [...(head.trim() ? [head] : []), ...shown].join('\n').trimEnd();
};

/**
 * The text with other lines for a key.
 * @param {string} text
 * @param {string} key
 * @param {[number, number] | undefined} span
 * @param {string} lines
 */
export const withLines = (text, key, span, lines) => {
  const all = text.split('\n');
  const old = span ? all.slice(span[0] - 1, span[1]) : [];
  let tail = 0;
  while (tail < old.length - 1 && !(old.at(-1 - tail) ?? '').trim()) tail += 1;
  const body = lines.trimEnd().split('\n');
  const single = body.length === 1 && !/^(-\s|[^[{"'\s]+:(\s|$))/.test(body[0] ?? '');
  const made = single ? [`${key}: ${body[0]}`] : [`${key}:`, ...body.map((line) => (line ? `  ${line}` : line))];
  if (!span) return `${text.replace(/\n*$/, '\n')}${made.join('\n')}\n`;
  all.splice(span[0] - 1, span[1] - span[0] + 1 - tail, ...made);
  return all.join('\n');
};
