// A chart drawn in its yarns, the repeat several times, with the strands that float behind it.

/**
 * What there is to draw. Rows top line first; columns and rows of the repeat from 1, both ends included.
 * @typedef {{
 *   rows: string[],
 *   colours: { letter: string, hex: string }[],
 *   aspect: number,
 *   repeats?: { stitches: [number, number], rows: [number, number] },
 *   across?: number,
 *   up?: number,
 * }} Drawn
 */
/** @typedef {{ row: number, letter: string, start: number, stitches: number }} Strand */

const CELL = 10;

/**
 * An element of a drawing.
 * @param {string} tag
 * @param {Record<string, unknown>} [attributes]
 * @param {...(Node | string | null)} children
 * @returns {SVGElement}
 */
export const svg = (tag, attributes = {}, ...children) => {
  const made = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== null && value !== undefined && value !== false) made.setAttribute(name, String(value));
  }
  made.append(...children.filter((child) => child !== null));
  return /** @type {SVGElement} */ (made);
};

/**
 * Drawn numbers in the order in which they lie: what stands before the repeat, the repeat so often, what stands behind.
 * @param {number} size
 * @param {[number, number]} repeat
 * @param {number} times
 */
const laid = (size, [from, to], times) => {
  const run = (/** @type {number} */ a, /** @type {number} */ b) =>
    Array.from({ length: Math.max(0, b - a + 1) }, (_, i) => a + i);
  const again = run(from, to);
  return [...run(1, from - 1), ...Array.from({ length: Math.max(1, times) }, () => again).flat(), ...run(to + 1, size)];
};

/**
 * Which drawn stitch lies in each column (from the right) and which drawn row in each line (from the bottom).
 * @param {Drawn} chart
 */
const plan = (chart) => {
  const width = [...(chart.rows[0] ?? '')].length;
  const height = chart.rows.length;
  const repeats = chart.repeats ?? { stitches: [1, width], rows: [1, height] };
  return {
    columns: laid(width, repeats.stitches, chart.across ?? 1),
    lines: laid(height, repeats.rows, chart.up ?? 1),
    period: repeats.stitches[1] - repeats.stitches[0] + 1,
    edges: repeats.stitches[0] > 1 || repeats.stitches[1] < width,
    cell: (/** @type {number} */ row, /** @type {number} */ stitch) =>
      [...(chart.rows[height - row] ?? '')][width - stitch] ?? ' ',
  };
};

/**
 * One path for all cells of a yarn, runs joined.
 * @param {ReturnType<typeof plan>} laidOut
 * @param {string} letter
 * @param {number} tall
 */
const cells = (laidOut, letter, tall) => {
  const { columns, lines } = laidOut;
  let path = '';
  lines.forEach((row, up) => {
    const y = (lines.length - 1 - up) * tall;
    let run = 0;
    for (let column = 0; column <= columns.length; column += 1) {
      const stitch = columns[column];
      if (stitch !== undefined && laidOut.cell(row, stitch) === letter) run += 1;
      else if (run) {
        path += `M${(columns.length - column) * CELL} ${y}h${run * CELL}v${tall}h${-run * CELL}z`;
        run = 0;
      }
    }
  });
  return path;
};

/**
 * The lines between the stitches.
 * @param {number} across
 * @param {number} up
 * @param {number} tall
 */
const ruled = (across, up, tall) => {
  let path = '';
  for (let x = 1; x < across; x += 1) path += `M${x * CELL} 0v${up * tall}`;
  for (let y = 1; y < up; y += 1) path += `M0 ${y * tall}h${across * CELL}`;
  return path;
};

/**
 * Where a strand is seen: every place in which the stitch that it first floats over lies, as far as it is on the paper.
 * @param {ReturnType<typeof plan>} laidOut
 * @param {Strand} strand
 */
const places = (laidOut, strand) => {
  const { columns, lines, period, edges } = laidOut;
  const starts = columns.flatMap((stitch, column) => (stitch === strand.start ? [column] : []));
  if (!edges) starts.push(...starts.map((column) => column - columns.length).filter((column) => column > -period - 1));
  return lines.flatMap((row, up) =>
    row === strand.row
      ? starts
          .map((column) => ({ up, from: column - 0.5, to: column + strand.stitches + 0.5 }))
          .filter(({ to }) => to > 0)
      : [],
  );
};

/**
 * One strand, with a dot on the stitches that it joins; the longest are thick, and one of them carries its number.
 * @param {{ up: number, from: number, to: number }} place
 * @param {{ across: number, up: number, tall: number, strand: Strand, longest: boolean }} how
 */
const drawStrand = (place, how) => {
  const { across, up, tall, strand, longest } = how;
  const y = (up - place.up - 0.5) * tall + 0.3 * tall;
  const x = (/** @type {number} */ column) => (across - column) * CELL;
  const [from, to] = [Math.max(0, place.from), Math.min(across, place.to)];
  const line = `M${x(from)} ${y}H${x(to)}`;
  const ends = [place.from, place.to].filter((end) => end > 0 && end < across);
  return svg(
    'g',
    { class: longest ? 'strand longest' : 'strand' },
    svg('path', { d: line, class: 'edge' }),
    svg('path', { d: line, class: 'thread' }),
    ...ends.map((end) => svg('circle', { cx: x(end), cy: y, r: longest ? 1.9 : 1.4, class: 'end' })),
  );
};

/**
 * How long a strand is, as large against the whole chart as it must be to be read from the back of a room.
 * @param {number} stitches
 * @param {number} x
 * @param {number} y
 * @param {{ width: number, height: number }} whole
 */
const number = (stitches, x, y, { width, height }) => {
  const size = width * 0.052;
  const [wide, high] = [size * (stitches > 9 ? 1.5 : 1), size * 1.15];
  const top = Math.min(height - high - 1, Math.max(1, y - high / 2));
  return svg(
    'g',
    {},
    svg('rect', { x: x - wide / 2, y: top, width: wide, height: high, class: 'plate' }),
    svg(
      'text',
      { x, y: top + high * 0.79, 'text-anchor': 'middle', class: 'count', 'font-size': size },
      String(stitches),
    ),
  );
};

/**
 * The strands to draw over a chart; the longest last, on top.
 * @param {ReturnType<typeof plan>} laidOut
 * @param {Strand[]} floats
 * @param {number} tall
 */
const strands = (laidOut, floats, tall) => {
  const longest = Math.max(0, ...floats.map((strand) => strand.stitches));
  const across = laidOut.columns.length;
  const up = laidOut.lines.length;
  const sorted = [...floats].sort((a, b) => a.stitches - b.stitches);
  const drawn = sorted.flatMap((strand) =>
    places(laidOut, strand).map((place) => ({
      place,
      how: { across, up, tall, strand, longest: strand.stitches === longest },
    })),
  );
  const whole = drawn.filter(({ place, how }) => how.longest && place.from > 0 && place.to < across);
  const told = whole[Math.floor(whole.length / 2)];
  const middle = told && across - (told.place.from + told.place.to) / 2;
  return [
    ...drawn.map(({ place, how }) => drawStrand(place, how)),
    ...(told && middle !== undefined
      ? [number(longest, middle * CELL, (up - told.place.up - 0.2) * tall, { width: across * CELL, height: up * tall })]
      : []),
  ];
};

/**
 * A chart as a picture with a name for those who do not see it.
 * @param {Drawn} chart
 * @param {string} label
 * @param {Strand[]} [floats]
 */
export const drawing = (chart, label, floats = []) => {
  const laidOut = plan(chart);
  const tall = CELL * chart.aspect;
  const across = laidOut.columns.length;
  const up = laidOut.lines.length;
  const [width, height] = [across * CELL, up * tall];
  return svg(
    'svg',
    {
      viewBox: `-0.1 -0.1 ${width + 0.2} ${height + 0.2}`,
      role: 'img',
      'aria-label': label,
      class: 'drawn',
      preserveAspectRatio: 'xMinYMin meet',
    },
    ...chart.colours.map(({ letter, hex }) => svg('path', { d: cells(laidOut, letter, tall), fill: hex })),
    svg('path', { d: ruled(across, up, tall), class: 'thin' }),
    svg('rect', { x: 0, y: 0, width, height, class: 'frame' }),
    svg('g', { class: 'strands' }, ...strands(laidOut, floats, tall)),
  );
};
