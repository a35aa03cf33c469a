// Small drawn things: parts of pictures as elements, and a sheet at small size.
import { height, letterAt, markAt, width } from './sheet.js';
import { dark } from './canvas.js';
import { drawMark } from './marks.js';

/**
 * A part of a drawing.
 * @param {string} tag
 * @param {Record<string, string | number>} attributes
 * @param {...Node} children
 */
export const svg = (tag, attributes, ...children) => {
  const made = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  made.append(...children);
  return made;
};

/**
 * A patch of yarn.
 * @param {string} hex
 * @param {number} [wide]
 * @param {number} [tall]
 */
export const patch = (hex, wide = 28, tall = 18) =>
  svg('svg', { width: wide, height: tall, viewBox: `0 0 ${wide} ${tall}`, 'aria-hidden': 'true', class: 'patch' },
    svg('rect', { x: 0.75, y: 0.75, width: wide - 1.5, height: tall - 1.5, fill: hex, class: 'framed' }));

/**
 * A sheet at small size, with changed cells in a frame.
 * @param {import('./sheet.js').Sheet} sheet
 * @param {import('../types').Chart} chart
 * @param {{ most: number, changed?: import('./sheet.js').Cell[], words: string, times?: [number, number] }} how
 */
export const small = (sheet, chart, { most, changed = [], words, times = [1, 1] }) => {
  const canvas = document.createElement('canvas');
  const [w, h] = [width(sheet), height(sheet)];
  const side = Math.max(2, Math.min(18, most / (w * times[0])));
  const [cw, ch] = [side, side * chart.aspect];
  const [all, tall] = [Math.round(cw * w * times[0]) + 2, Math.round(ch * h * times[1]) + 2];
  const ratio = Math.min(2, window.devicePixelRatio || 1);
  canvas.width = all * ratio;
  canvas.height = tall * ratio;
  canvas.style.width = `${all}px`;
  canvas.className = 'small paper';
  canvas.setAttribute('role', 'img');
  canvas.setAttribute('aria-label', words);
  const pen = canvas.getContext('2d');
  if (!pen) return canvas;
  pen.scale(ratio, ratio);
  const hex = new Map(chart.colours.map((colour) => [colour.letter, colour.hex]));
  /** @param {number} n */
  const px = (n) => 1 + Math.round(n * cw);
  /** @param {number} n */
  const py = (n) => 1 + Math.round(n * ch);
  for (let y = 0; y < h * times[1]; y += 1) {
    for (let x = 0; x < w * times[0]; x += 1) {
      const colour = hex.get(letterAt(sheet, x % w, y % h)) ?? '#ffffff';
      const gap = side > 5 && times[0] === 1 ? 1 : 0;
      pen.fillStyle = colour;
      pen.fillRect(px(x), py(y), px(x + 1) - px(x) - gap, py(y + 1) - py(y) - gap);
      drawMark(pen, markAt(sheet, x % w, y % h), px(x), py(y), px(x + 1) - px(x), py(y + 1) - py(y), dark(colour));
    }
  }
  for (const { x, y } of changed) {
    for (const [colour, thick] of /** @type {const} */ ([['#fff', 4], ['#a5300d', 2]])) {
      pen.lineWidth = thick;
      pen.strokeStyle = colour;
      pen.strokeRect(px(x), py(y), px(x + 1) - px(x) - 1, py(y + 1) - py(y) - 1);
    }
  }
  pen.lineWidth = 1;
  pen.strokeStyle = '#1b2225';
  pen.strokeRect(0.5, 0.5, all - 1, tall - 1);
  return canvas;
};
