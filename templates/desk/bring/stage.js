// The picture with the grid drawn over it, and its corners as handles: dragged, or moved by the arrow keys.
import { el, fill, say } from '../dom.js';
import { svg } from '../class/drawing.js';
import { linesOf, outline, pathOf } from './grid.js';

/** @typedef {import('./work.js').Work} Work */

const NAMES = ['Top left corner', 'Top right corner', 'Bottom right corner', 'Bottom left corner'];
/** How far around a corner the glass shows the picture, as it lies on the screen, and how large the glass is. */
const NEAR = 24;
const GLASS = 168;

/** @type {Record<string, [number, number]>} */
export const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/**
 * The picture itself, no larger than it is shown.
 * @param {Work} work
 */
const picture = (work) => {
  const scale = Math.min(1, 1600 / Math.max(work.bitmap.width, work.bitmap.height));
  const canvas = el('canvas', {
    width: Math.round(work.bitmap.width * scale),
    height: Math.round(work.bitmap.height * scale),
    role: 'img',
    'aria-label': `The picture ${work.name}`,
  });
  canvas.getContext('2d')?.drawImage(work.bitmap, 0, 0, canvas.width, canvas.height);
  return canvas;
};

/**
 * Pixels of the picture to one on the screen.
 * @param {Work} work
 * @param {HTMLElement} inside something that lies on the picture
 */
const pixel = (work, inside) => work.width / (inside.parentElement?.clientWidth || work.width);

/**
 * What lies under a corner, much larger.
 * @param {Work} work
 */
const magnifier = (work) => {
  const canvas = el('canvas', { width: GLASS, height: GLASS, class: 'glass', 'aria-hidden': 'true', hidden: true });
  const show = (/** @type {number} */ corner) => {
    const ink = canvas.getContext('2d');
    const at = work.corners[corner];
    if (!ink || !at) return;
    canvas.hidden = false;
    // Away from the corner that it shows.
    canvas.classList.toggle('right', corner === 0 || corner === 3);
    const scale = work.bitmap.width / work.width;
    const near = NEAR * pixel(work, canvas);
    ink.imageSmoothingEnabled = false;
    ink.fillStyle = '#fff';
    ink.fillRect(0, 0, GLASS, GLASS);
    ink.drawImage(
      work.bitmap,
      (at[0] - near) * scale,
      (at[1] - near) * scale,
      2 * near * scale,
      2 * near * scale,
      0,
      0,
      GLASS,
      GLASS,
    );
    for (const [width, colour] of /** @type {const} */ ([
      [4, '#ffffff'],
      [1.5, '#a5300d'],
    ])) {
      ink.lineWidth = width;
      ink.strokeStyle = colour;
      ink.beginPath();
      ink.moveTo(GLASS / 2, 0);
      ink.lineTo(GLASS / 2, GLASS);
      ink.moveTo(0, GLASS / 2);
      ink.lineTo(GLASS, GLASS / 2);
      ink.stroke();
    }
  };
  return { canvas, show, hide: () => void (canvas.hidden = true) };
};

/**
 * A corner to take hold of. `put` is given the place that it is moved to, in pixels of the picture.
 * @param {Work} work
 * @param {number} corner
 * @param {{ put: (corner: number, x: number, y: number, done: boolean) => void, glass: ReturnType<typeof magnifier> }} to
 */
const handle = (work, corner, { put, glass }) => {
  const name = NAMES[corner] ?? '';
  const one = el('button', { type: 'button', class: 'handle', 'aria-label': name, 'aria-describedby': 'corner-help' });
  const move = (/** @type {PointerEvent} */ event, /** @type {boolean} */ done) => {
    const area = one.parentElement?.getBoundingClientRect();
    if (!area || !one.hasPointerCapture(event.pointerId)) return;
    const x = ((event.clientX - area.left) / area.width) * work.width;
    put(corner, x, ((event.clientY - area.top) / area.height) * work.height, done);
  };
  one.addEventListener('pointerdown', (event) => {
    event.preventDefault();
    one.focus();
    one.setPointerCapture(event.pointerId);
  });
  one.addEventListener('pointermove', (event) => move(event, false));
  one.addEventListener('pointerup', (event) => {
    move(event, true);
    one.releasePointerCapture(event.pointerId);
  });
  one.addEventListener('focus', () => glass.show(corner));
  one.addEventListener('blur', () => glass.hide());
  one.addEventListener('keydown', (event) => {
    const way = ARROWS[event.key];
    const now = work.corners[corner];
    if (!way || !now) return;
    event.preventDefault();
    const far = pixel(work, one) * (event.shiftKey ? 10 : 1);
    put(corner, now[0] + way[0] * far, now[1] + way[1] * far, true);
    const [x, y] = work.corners[corner] ?? now;
    say(`${name}: ${Math.round(x)} across, ${Math.round(y)} down`);
  });
  return one;
};

/**
 * The lines of the grid, each on a white edge so that it shows on any picture.
 * @param {Work} work
 */
const gridLines = (work) => {
  const inner = work.stitches && work.rows ? linesOf(work.corners, work.stitches, work.rows) : '';
  const whole = pathOf(outline(work.corners, [0, 0, 1, 1]));
  return [
    svg('path', { d: inner, class: 'under' }),
    svg('path', { d: inner, class: 'over' }),
    svg('path', { d: whole, class: 'under whole' }),
    svg('path', { d: whole, class: 'over whole' }),
  ];
};

/**
 * The picture, the grid and its corners. `moved` is told of every move, and whether it is over.
 * @param {Work} work
 * @param {(move: { corner: number, done: boolean }) => void} moved
 */
export const stage = (work, moved) => {
  const overlay = svg('svg', { class: 'grid', 'aria-hidden': 'true', preserveAspectRatio: 'none' });
  const glass = magnifier(work);
  const put = (
    /** @type {number} */ corner,
    /** @type {number} */ x,
    /** @type {number} */ y,
    /** @type {boolean} */ done,
  ) => {
    const within = (/** @type {number} */ n, /** @type {number} */ most) => Math.min(most, Math.max(0, n));
    work.corners[corner] = [within(x, work.width), within(y, work.height)];
    draw();
    glass.show(corner);
    moved({ corner, done });
  };
  const handles = NAMES.map((_, corner) => handle(work, corner, { put, glass }));
  const box = el('div', { class: 'stage' }, picture(work), overlay, handles, glass.canvas);
  const draw = () => {
    overlay.setAttribute('viewBox', `0 0 ${work.width} ${work.height}`);
    fill(overlay, ...gridLines(work));
    handles.forEach((one, corner) => {
      const [x, y] = work.corners[corner] ?? [0, 0];
      one.style.left = `${(x / work.width) * 100}%`;
      one.style.top = `${(y / work.height) * 100}%`;
    });
  };
  draw();
  return { box, draw };
};
