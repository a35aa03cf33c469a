// The marks of shaping, drawn as the handout draws them: forks say what happens, a bar is a purl, a hatch no stitch.

/** Every mark with its name on the page. @type {{ mark: string, name: string }[]} */
export const MARKS = [
  { mark: '/', name: 'Decrease leaning right' },
  { mark: '\\', name: 'Decrease leaning left' },
  { mark: '^', name: 'Three to one' },
  { mark: '+', name: 'Make one' },
  { mark: '-', name: 'Purl' },
  { mark: '#', name: 'No stitch' },
  { mark: '.', name: 'Plain again' },
];

/**
 * Lines of a mark in a box from 0 to 1, y down.
 * @type {Record<string, [number, number][][]>}
 */
const STROKES = {
  '/': [[[0.2, 0.85], [0.45, 0.5], [0.8, 0.15]], [[0.7, 0.85], [0.45, 0.5]]],
  '\\': [[[0.8, 0.85], [0.55, 0.5], [0.2, 0.15]], [[0.3, 0.85], [0.55, 0.5]]],
  '^': [[[0.15, 0.85], [0.5, 0.45], [0.5, 0.12]], [[0.85, 0.85], [0.5, 0.45]], [[0.5, 0.85], [0.5, 0.45]]],
  '+': [[[0.5, 0.88], [0.5, 0.5], [0.2, 0.15]], [[0.5, 0.5], [0.8, 0.15]]],
  '-': [[[0.15, 0.5], [0.85, 0.5]]],
};

/**
 * @param {CanvasRenderingContext2D} pen
 * @param {string} mark
 * @param {number} x
 * @param {number} y
 * @param {number} w
 * @param {number} h
 * @param {boolean} onDark
 */
export const drawMark = (pen, mark, x, y, w, h, onDark) => {
  if (mark === '#') {
    hatch(pen, x, y, w, h);
    return;
  }
  const strokes = STROKES[mark];
  if (!strokes) return;
  const side = Math.min(w, h);
  const [left, top] = [x + (w - side) / 2, y + (h - side) / 2];
  pen.lineWidth = Math.max(1.5, side / 10);
  pen.strokeStyle = onDark ? '#fff' : '#1b2225';
  pen.beginPath();
  for (const points of strokes) {
    points.forEach(([px, py], i) => pen[i ? 'lineTo' : 'moveTo'](left + px * side, top + py * side));
  }
  pen.stroke();
};

/** @param {CanvasRenderingContext2D} pen @param {number} x @param {number} y @param {number} w @param {number} h */
const hatch = (pen, x, y, w, h) => {
  pen.fillStyle = '#fff';
  pen.fillRect(x + 1, y + 1, w - 1, h - 1);
  pen.save();
  pen.beginPath();
  pen.rect(x + 1, y + 1, w - 1, h - 1);
  pen.clip();
  pen.lineWidth = 1;
  pen.strokeStyle = '#465055';
  pen.beginPath();
  for (let at = -h; at < w; at += 5) {
    pen.moveTo(x + at, y + h);
    pen.lineTo(x + at + h, y);
  }
  pen.stroke();
  pen.restore();
};
