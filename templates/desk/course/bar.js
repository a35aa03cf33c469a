// The bar of a grade: the points of its five parts, each with its own fill, so that it reads without colour.
import { el } from '../dom.js';

/** The parts, always in this order. @type {readonly { id: import('../types').PartName, name: string }[]} */
export const PARTS = [
  { id: 'floats', name: 'Floats' },
  { id: 'colours', name: 'Colours' },
  { id: 'reading', name: 'Reading' },
  { id: 'relief', name: 'Relief' },
  { id: 'handling', name: 'Handling' },
];

const SPACE = 'http://www.w3.org/2000/svg';
/** Height of a bar, and pixels for a point. */
const HIGH = 16;
const POINT = 1.6;

/**
 * @param {string} tag
 * @param {Record<string, string | number>} attributes
 * @param {...Element} children
 */
const svg = (tag, attributes, ...children) => {
  const made = document.createElementNS(SPACE, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  made.append(...children);
  return made;
};

/** The hatches; they must stand once in the view. */
export const hatches = () =>
  svg('svg', { width: 0, height: 0, class: 'hatches', 'aria-hidden': 'true' },
    svg('defs', {},
      svg('pattern', { id: 'bar-colours', width: 5, height: 5, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
        svg('rect', { width: 1.7, height: 5, class: 'solid' })),
      svg('pattern', { id: 'bar-relief', width: 4, height: 4, patternUnits: 'userSpaceOnUse' },
        svg('rect', { y: 1, width: 4, height: 1.3, class: 'solid' })),
      svg('pattern', { id: 'bar-handling', width: 4, height: 4, patternUnits: 'userSpaceOnUse' },
        svg('rect', { x: 1, y: 1, width: 1.6, height: 1.6, class: 'solid' }))));

/** @param {import('../types').PartName} part @param {number} x @param {number} wide */
const block = (part, x, wide) => {
  const made = svg('rect', { x: x + 0.5, y: 0.5, width: wide, height: HIGH - 1, class: `part ${part}` });
  if (part !== 'floats' && part !== 'reading') made.setAttribute('fill', `url(#bar-${part})`);
  return made;
};

/**
 * @param {Record<import('../types').PartName, number>} points
 * @returns {Element}
 */
export const bar = (points) => {
  const drawn = svg('svg', { height: HIGH, class: 'bar', 'aria-hidden': 'true' });
  let x = 0;
  for (const { id } of PARTS) {
    const wide = points[id] * POINT;
    if (wide < 0.4) continue;
    drawn.append(block(id, x, wide));
    x += wide;
  }
  drawn.setAttribute('width', String(Math.ceil(x) + 1));
  return drawn;
};

/** What the fills mean. */
export const legend = () =>
  el('ul', { class: 'fills', 'aria-label': 'Parts of a grade' },
    PARTS.map(({ id, name }) => {
      const box = svg('svg', { width: 19, height: HIGH, class: 'bar', 'aria-hidden': 'true' }, block(id, 0, 18));
      return el('li', {}, /** @type {any} */ (box), name);
    }));

/** A step as it is written. @param {number} step */
export const stepText = (step) => `${step < 0 ? '−' : '+'}${Math.abs(step).toFixed(1)}`;

/** Ids of techniques in words: the part behind a slash is in another craft. @param {string} id */
export const techniqueText = (id) => {
  const [craft, name] = id.includes('/') ? id.split('/') : [null, id];
  const words = (name ?? id).replaceAll('-', ' ');
  return craft ? `${words} (${craft})` : words;
};
