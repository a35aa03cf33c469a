// A grid seen aslant: where its lines lie in the picture, from its four corners. For drawing only; reading is the
// server's work.

/** @typedef {[number, number]} Point */
/** @typedef {[Point, Point, Point, Point]} Corners clockwise from the top left */

/**
 * The projective map from the unit square (0, 0 top left) to four corners.
 * @param {Corners} corners
 * @returns {(u: number, v: number) => Point}
 */
export const mapOf = ([a, b, c, d]) => {
  const [sx, sy] = [a[0] - b[0] + c[0] - d[0], a[1] - b[1] + c[1] - d[1]];
  const [dx1, dy1] = [b[0] - c[0], b[1] - c[1]];
  const [dx2, dy2] = [d[0] - c[0], d[1] - c[1]];
  const whole = dx1 * dy2 - dx2 * dy1 || 1e-9;
  const g = (sx * dy2 - dx2 * sy) / whole;
  const h = (dx1 * sy - sx * dy1) / whole;
  return (u, v) => {
    const w = g * u + h * v + 1 || 1e-9;
    return [
      ((b[0] - a[0] + g * b[0]) * u + (d[0] - a[0] + h * d[0]) * v + a[0]) / w,
      ((b[1] - a[1] + g * b[1]) * u + (d[1] - a[1] + h * d[1]) * v + a[1]) / w,
    ];
  };
};

/**
 * The corners of the grid slid by so many squares.
 * @param {Corners} corners
 * @param {number} u to the right, in shares of the whole grid
 * @param {number} v downwards
 * @returns {Corners}
 */
export const slid = (corners, u, v) => {
  const map = mapOf(corners);
  return [map(u, v), map(1 + u, v), map(1 + u, 1 + v), map(u, 1 + v)];
};

/**
 * The lines of the grid as a path.
 * @param {Corners} corners
 * @param {number} stitches
 * @param {number} rows
 */
export const linesOf = (corners, stitches, rows) => {
  const map = mapOf(corners);
  const line = (/** @type {Point} */ a, /** @type {Point} */ b) => `M${short(a)}L${short(b)}`;
  let path = '';
  for (let i = 1; i < stitches; i += 1) path += line(map(i / stitches, 0), map(i / stitches, 1));
  for (let i = 1; i < rows; i += 1) path += line(map(0, i / rows), map(1, i / rows));
  return path;
};

/**
 * The outline of a part of the grid, in shares of the whole.
 * @param {Corners} corners
 * @param {[number, number, number, number]} part left, top, right, bottom
 */
export const outline = (corners, [left, top, right, bottom]) => {
  const map = mapOf(corners);
  return [map(left, top), map(right, top), map(right, bottom), map(left, bottom)];
};

/**
 * @param {Point[]} points
 */
export const pathOf = (points) => `M${points.map(short).join('L')}z`;

/**
 * @param {Point} point
 */
const short = ([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`;

/**
 * Four corners somewhat inside a picture in which no grid was found.
 * @param {number} width
 * @param {number} height
 * @returns {Corners}
 */
export const inside = (width, height) => {
  const [x, y] = [Math.round(width * 0.08), Math.round(height * 0.08)];
  return [
    [x, y],
    [width - x, y],
    [width - x, height - y],
    [x, height - y],
  ];
};
