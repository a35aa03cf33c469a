// Draws the sheet on squared paper: yarns, lines, the repeat and its copies, shaping, strands too long, catches, numbers.
// Only what is in view is drawn, with a margin, so that a large sheet scrolls as well as a small one.
import { NO_STITCH, height, letterAt, markAt, repeated, rowOf, stitchOf, width } from './sheet.js';
import { drawMark } from './marks.js';

/**
 * @typedef {import('./sheet.js').Sheet} Sheet
 * @typedef {import('./sheet.js').Block} Block
 * @typedef {import('./sheet.js').Cell} Cell
 * @typedef {{
 *   sheet: Sheet,
 *   hex: Map<string, string>,
 *   cell: { width: number, height: number },
 *   ghosts: { left: number, top: number },
 *   folded: boolean,
 *   facts: import('../types').RowFacts[],
 *   faults: { row: number, stitch: number | null }[],
 *   block: Block | null,
 *   held: { copy: Sheet, at: Cell } | null,
 *   axis: { way: string, x: number, y: number } | null,
 * }} Drawing
 */
const INK = '#1b2225';
const BUOY = '#a5300d';
const MARGIN = 160;

/** @param {string} hex @param {number} share */
const tint = (hex, share) => {
  const n = parseInt(hex.slice(1), 16);
  const mix = [n >> 16, (n >> 8) & 255, n & 255].map((v) => Math.round(255 + (v - 255) * share));
  return `rgb(${mix.join()})`;
};

/** Whether a yarn is dark, so that what is drawn on it must be white. @param {string} hex */
export const dark = (hex) => {
  const n = parseInt(hex.slice(1), 16);
  return 0.299 * (n >> 16) + 0.587 * ((n >> 8) & 255) + 0.114 * (n & 255) < 128;
};

/** A place for canvas positions: whole pixels, so that lines stay sharp. @param {Drawing} of */
export const places = (of) => ({
  /** @param {number} x */
  x: (x) => Math.round((x + of.ghosts.left) * of.cell.width),
  /** @param {number} y */
  y: (y) => Math.round((y + of.ghosts.top) * of.cell.height),
});

/** @param {Drawing} of */
export const extent = (of) => ({
  width: Math.round((width(of.sheet) + of.ghosts.left) * of.cell.width) + 1,
  height: Math.round((height(of.sheet) + of.ghosts.top) * of.cell.height) + 1,
});

export class Canvas {
  /** @param {HTMLCanvasElement} canvas @param {HTMLElement} scroller */
  constructor(canvas, scroller) {
    this.canvas = canvas;
    this.scroller = scroller;
    const pen = canvas.getContext('2d', { alpha: false });
    if (!pen) throw new Error('this browser cannot draw');
    this.pen = pen;
    /** @type {Drawing | null} */
    this.of = null;
    this.left = 0;
    this.top = 0;
    this.asked = 0;
    scroller.addEventListener('scroll', () => this.scrolled(), { passive: true });
  }

  scrolled() {
    const { scrollLeft, scrollTop } = this.scroller;
    const far = Math.max(Math.abs(scrollLeft - this.left), Math.abs(scrollTop - this.top));
    if (far > MARGIN / 2) this.draw(this.of);
  }

  /** Draws before the next picture is shown, once. @param {Drawing} of */
  soon(of) {
    this.of = of;
    if (this.asked) return;
    this.asked = requestAnimationFrame(() => {
      this.asked = 0;
      this.draw(this.of);
    });
  }

  /** @param {Drawing | null} of */
  draw(of) {
    if (!of) return;
    this.of = of;
    const all = extent(of);
    const { scrollLeft, scrollTop, clientWidth, clientHeight } = this.scroller;
    [this.left, this.top] = [scrollLeft, scrollTop];
    const x0 = Math.max(0, scrollLeft - MARGIN);
    const y0 = Math.max(0, scrollTop - MARGIN);
    const w = Math.min(all.width - x0, clientWidth + 2 * MARGIN);
    const h = Math.min(all.height - y0, clientHeight + 2 * MARGIN);
    const ratio = Math.min(2, window.devicePixelRatio || 1);
    if (this.canvas.width !== Math.round(w * ratio) || this.canvas.height !== Math.round(h * ratio)) {
      this.canvas.width = Math.round(w * ratio);
      this.canvas.height = Math.round(h * ratio);
      this.canvas.style.width = `${w}px`;
      this.canvas.style.height = `${h}px`;
    }
    this.canvas.style.left = `${x0}px`;
    this.canvas.style.top = `${y0}px`;
    this.pen.setTransform(ratio, 0, 0, ratio, -x0 * ratio, -y0 * ratio);
    this.pen.fillStyle = '#fff';
    this.pen.fillRect(x0, y0, w, h);
    const at = places(of);
    const { left, top } = of.ghosts;
    const view = {
      x0: Math.max(-left, Math.floor(x0 / of.cell.width) - left),
      x1: Math.min(width(of.sheet), Math.ceil((x0 + w) / of.cell.width) - left),
      y0: Math.max(-top, Math.floor(y0 / of.cell.height) - top),
      y1: Math.min(height(of.sheet), Math.ceil((y0 + h) / of.cell.height) - top),
    };
    fills(this.pen, of, at, view);
    rules(this.pen, of, at, view);
    marks(this.pen, of, at, view);
    strands(this.pen, of, at, view);
    frames(this.pen, of, at);
  }
}

/**
 * @typedef {{ x0: number, x1: number, y0: number, y1: number }} View
 * @typedef {{ x: (x: number) => number, y: (y: number) => number }} At
 */

/**
 * The yarns; beyond the sheet the repeat again at half tint.
 * @param {CanvasRenderingContext2D} pen @param {Drawing} of @param {At} at @param {View} view
 */
const fills = (pen, of, at, view) => {
  const rep = repeated(of.sheet);
  for (let y = view.y0; y < view.y1; y += 1) {
    for (let x = view.x0; x < view.x1; x += 1) {
      const ghost = x < 0 || y < 0;
      const fx = x < 0 ? rep.x + ((((x % rep.width) + rep.width) % rep.width)) : x;
      const fy = y < 0 ? rep.y + ((((y % rep.height) + rep.height) % rep.height)) : y;
      const bare = ghost && markAt(of.sheet, fx, fy) === NO_STITCH;
      const colour = bare ? '#ffffff' : (of.hex.get(letterAt(of.sheet, fx, fy)) ?? '#ffffff');
      pen.fillStyle = ghost ? tint(colour, 0.5) : colour;
      pen.fillRect(at.x(x), at.y(y), at.x(x + 1) - at.x(x), at.y(y + 1) - at.y(y));
    }
  }
  if (!of.held) return;
  const { copy, at: place } = of.held;
  for (let y = 0; y < height(copy); y += 1) {
    for (let x = 0; x < width(copy); x += 1) {
      const [tx, ty] = [place.x - width(copy) + 1 + x, place.y - height(copy) + 1 + y];
      if (tx < 0 || ty < 0 || tx >= width(of.sheet) || ty >= height(of.sheet)) continue;
      pen.fillStyle = of.hex.get(letterAt(copy, x, y)) ?? '#fff';
      pen.fillRect(at.x(tx), at.y(ty), at.x(tx + 1) - at.x(tx), at.y(ty + 1) - at.y(ty));
    }
  }
};

/**
 * Thin lines round every stitch; every fifth and tenth stronger, counted from the right and from below.
 * @param {CanvasRenderingContext2D} pen @param {Drawing} of @param {At} at @param {View} view
 */
const rules = (pen, of, at, view) => {
  const [w, h] = [width(of.sheet), height(of.sheet)];
  const [left, right, top, bottom] = [at.x(view.x0), at.x(view.x1) + 1, at.y(view.y0), at.y(view.y1) + 1];
  pen.fillStyle = '#8f8a86';
  for (let x = view.x0; x <= view.x1; x += 1) if ((w - x) % 5) pen.fillRect(at.x(x), top, 1, bottom - top);
  for (let y = view.y0; y <= view.y1; y += 1) if ((h - y) % 5) pen.fillRect(left, at.y(y), right - left, 1);
  /** @param {number} x @param {number} y @param {number} across @param {number} down @param {number} thick */
  const strong = (x, y, across, down, thick) => {
    pen.fillStyle = '#fff';
    pen.fillRect(x - (down ? thick : 0), y - (across ? thick : 0), across || 2 * thick + 1, down || 2 * thick + 1);
    pen.fillStyle = INK;
    pen.fillRect(x, y, across || thick, down || thick);
  };
  for (let x = view.x0; x <= view.x1; x += 1) {
    if ((w - x) % 5 === 0) strong(at.x(x), top, 0, bottom - top, (w - x) % 10 ? 1 : 2);
  }
  for (let y = view.y0; y <= view.y1; y += 1) {
    if ((h - y) % 5 === 0) strong(left, at.y(y), right - left, 0, (h - y) % 10 ? 1 : 2);
  }
};

/**
 * Shaping, and the places where a fault lies.
 * @param {CanvasRenderingContext2D} pen @param {Drawing} of @param {At} at @param {View} view
 */
const marks = (pen, of, at, view) => {
  if (of.sheet.marks) {
    for (let y = Math.max(0, view.y0); y < view.y1; y += 1) {
      for (let x = Math.max(0, view.x0); x < view.x1; x += 1) {
        const colour = of.hex.get(letterAt(of.sheet, x, y)) ?? '#ffffff';
        const [left, top] = [at.x(x), at.y(y)];
        drawMark(pen, markAt(of.sheet, x, y), left, top, at.x(x + 1) - left, at.y(y + 1) - top, dark(colour));
      }
    }
  }
  const [w, h] = [width(of.sheet), height(of.sheet)];
  for (const { row, stitch } of of.faults) {
    const y = h - row;
    const [x0, x1] = stitch === null ? [0, w] : [w - stitch, w - stitch + 1];
    edged(pen, at.x(x0) + 1, at.y(y) + 1, at.x(x1) - at.x(x0) - 1, at.y(y + 1) - at.y(y) - 1, BUOY, [4, 3]);
  }
};

/**
 * A frame with a white edge, to be seen on any yarn.
 * @param {CanvasRenderingContext2D} pen @param {number} x @param {number} y @param {number} w @param {number} h
 * @param {string} colour @param {number[]} [dash]
 */
const edged = (pen, x, y, w, h, colour, dash = []) => {
  pen.lineWidth = 5;
  pen.strokeStyle = '#fff';
  pen.strokeRect(x, y, w, h);
  pen.lineWidth = 2.5;
  pen.strokeStyle = colour;
  pen.setLineDash(dash);
  pen.strokeRect(x, y, w, h);
  pen.setLineDash([]);
};

/**
 * The columns that a float passes, from its first stitch to the left: on into the edge stitches, or round the repeat
 * where its own yarn lies in the way; there and back where the chart is the half of a mirrored one.
 * @param {Sheet} sheet @param {number} y @param {{ letter: string, start: number, stitches: number }} float @param {boolean} folded
 */
export const passed = (sheet, y, { letter, start, stitches }, folded) => {
  const rep = repeated(sheet);
  const w = width(sheet);
  if (folded) {
    return Array.from({ length: stitches }, (_, i) => ((start + i - 1) % (2 * w - 1)) + 1).map((stitch) =>
      w - (stitch > w ? 2 * w - stitch : stitch));
  }
  /** @param {boolean} round */
  const walk = (round) => {
    /** @type {number[]} */
    const made = [];
    for (let x = w - start, guard = 0; made.length < stitches && guard < 4 * w; guard += 1) {
      if (markAt(sheet, x, y) !== NO_STITCH) made.push(x);
      x -= 1;
      if (round && x === rep.x - 1) x = rep.x + rep.width - 1;
      if (x < 0) x = w - 1;
    }
    return made;
  };
  const straight = walk(false);
  return straight.every((x) => letterAt(sheet, x, y) !== letter) ? straight : walk(true);
};

/**
 * The strand of every float over the limit, where it lies, and the catches that would hold it.
 * @param {CanvasRenderingContext2D} pen @param {Drawing} of @param {At} at @param {View} view
 */
const strands = (pen, of, at, view) => {
  const h = height(of.sheet);
  // Where many rows float too far, the catches would hide the picture.
  const many = of.facts.filter((fact) => fact.over).length * 3 > h;
  for (const fact of of.facts) {
    const y = h - fact.row;
    if (y < Math.max(0, view.y0) || y >= view.y1) continue;
    const middle = at.y(y) + Math.round((at.y(y + 1) - at.y(y)) * 0.84);
    for (const float of fact.long) {
      for (const x of passed(of.sheet, y, float, of.folded)) line(pen, at, x, middle, many ? 2 : 3);
    }
    for (const caught of many ? [] : fact.catches) {
      const x = width(of.sheet) - caught.stitch;
      const [cx, tall] = [(at.x(x) + at.x(x + 1)) / 2, (at.y(y + 1) - at.y(y)) / 3];
      pen.lineWidth = 2;
      pen.fillStyle = BUOY;
      pen.strokeStyle = '#fff';
      pen.strokeRect(cx - 3.5, middle - tall, 7, tall);
      pen.fillRect(cx - 3.5, middle - tall, 7, tall);
    }
  }
};

/** @param {CanvasRenderingContext2D} pen @param {At} at @param {number} x @param {number} y @param {number} thick */
const line = (pen, at, x, y, thick) => {
  const [x0, wide] = [at.x(x), at.x(x + 1) - at.x(x)];
  pen.fillStyle = '#fff';
  pen.fillRect(x0, y - 3, wide, thick + 4);
  pen.fillStyle = BUOY;
  pen.fillRect(x0, y - 1, wide, thick);
};

/**
 * The repeat, the block that is chosen, what is about to be put down, the axis of the mirror.
 * @param {CanvasRenderingContext2D} pen @param {Drawing} of @param {At} at
 */
const frames = (pen, of, at) => {
  const rep = repeated(of.sheet);
  /** @param {Block} b */
  const box = (b) => /** @type {const} */ ([at.x(b.x), at.y(b.y), at.x(b.x + b.width) - at.x(b.x), at.y(b.y + b.height) - at.y(b.y)]);
  pen.lineWidth = 3;
  pen.strokeStyle = INK;
  const [x, y, w, h] = box(rep);
  pen.strokeRect(x + 1.5, y + 1.5, w - 2, h - 2);
  if (of.block) edged(pen, ...box(of.block), INK, [6, 4]);
  if (of.held) {
    const { copy, at: place } = of.held;
    const [cw, ch] = [width(copy), height(copy)];
    edged(pen, ...box({ x: place.x - cw + 1, y: place.y - ch + 1, width: cw, height: ch }), INK, [2, 3]);
  }
  if (!of.axis) return;
  const all = box({ x: 0, y: 0, width: width(of.sheet), height: height(of.sheet) });
  const across = (at.x(Math.floor(of.axis.x)) + at.x(Math.ceil(of.axis.x) + 1)) / 2;
  const up = (at.y(Math.floor(of.axis.y)) + at.y(Math.ceil(of.axis.y) + 1)) / 2;
  const lines = [...(of.axis.way !== 'up' ? [[across, all[1], across, all[1] + all[3]]] : []),
    ...(of.axis.way !== 'across' ? [[all[0], up, all[0] + all[2], up]] : [])];
  for (const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] of lines) {
    for (const [colour, thick, dash] of /** @type {const} */ ([['#fff', 6, 0], [INK, 3, 9]])) {
      pen.lineWidth = thick;
      pen.strokeStyle = colour;
      pen.setLineDash(dash ? [dash, 6] : []);
      pen.beginPath();
      pen.moveTo(x0, y0);
      pen.lineTo(x1, y1);
      pen.stroke();
    }
    pen.setLineDash([]);
  }
};

/**
 * What is said of a cell: its round, its stitch, its yarn, what is on it.
 * @param {Sheet} sheet @param {number} x @param {number} y @param {string} round @param {Map<string, string>} names
 */
export const spoken = (sheet, x, y, round, names) => {
  const mark = { '/': 'decrease leaning right', '\\': 'decrease leaning left', '^': 'three to one', '+': 'make one', '-': 'purl', '#': 'no stitch' }[markAt(sheet, x, y)];
  const letter = letterAt(sheet, x, y);
  const where = `${round} ${rowOf(sheet, y)}, stitch ${stitchOf(sheet, x)}`;
  return `${where}, ${names.get(letter) ?? letter}${mark ? `, ${mark}` : ''}`;
};
