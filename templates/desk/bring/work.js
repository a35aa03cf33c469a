// The picture that is being brought in: what was asked of the server, what it read, and what was put right by hand.
// It outlives the view, so that a look elsewhere on the desk loses nothing.
import { Away, Refused, post } from '../api.js';
import { inside } from './grid.js';

/** @typedef {import('../types').Traced} Traced */
/** @typedef {import('./grid.js').Corners} Corners */
/** @typedef {{ letter: string, hex: string, cells: number, role: string }} Yarn */
/** @typedef {Traced['uncertain'][number]} Doubt */
/**
 * @typedef {{
 *   blob: Blob,
 *   name: string,
 *   bitmap: ImageBitmap,
 *   width: number,
 *   height: number,
 *   corners: Corners,
 *   stitches: number | null,
 *   rows: number | null,
 *   colours: number | null,
 *   traced: Traced | null,
 *   refusal: string | null,
 *   merged: { from: string, into: string }[],
 *   answers: Map<string, string>,
 *   roles: Map<string, string>,
 *   doubt: number,
 *   title: string,
 * }} Work
 */

/** What yarns are called until somebody says otherwise, the commonest first. */
const ROLES = ['ground', 'motif', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'];

/**
 * A picture taken in hand. Null where the browser cannot show it.
 * @param {Blob} blob
 * @param {string} name
 * @returns {Promise<Work | null>}
 */
export const workOn = async (blob, name) => {
  const bitmap = await createImageBitmap(blob).catch(() => null);
  if (!bitmap) return null;
  const { width, height } = bitmap;
  return {
    blob,
    name,
    bitmap,
    width,
    height,
    corners: inside(width, height),
    stitches: null,
    rows: null,
    colours: null,
    traced: null,
    refusal: null,
    merged: [],
    answers: new Map(),
    roles: new Map(),
    doubt: 0,
    title: '',
  };
};

/**
 * @param {Work} work
 * @param {boolean} found whether the grid is to be found anew
 */
const queryOf = (work, found) => {
  const query = new URLSearchParams();
  if (!found) {
    query.set(
      'corners',
      work.corners
        .flat()
        .map((n) => n.toFixed(1))
        .join(','),
    );
    if (work.stitches) query.set('stitches', String(work.stitches));
    if (work.rows) query.set('rows', String(work.rows));
  }
  if (work.colours) query.set('colours', String(work.colours));
  const text = query.toString();
  return text ? `?${text}` : '';
};

/**
 * Has the picture read. What is refused stands in `refusal`; what was read before stays then.
 * @param {Work} work
 * @param {boolean} found
 * @param {() => boolean} wanted whether the answer is still asked for
 */
export const read = async (work, found, wanted) => {
  try {
    const traced = /** @type {Traced} */ (await post(`/api/trace${queryOf(work, found)}`, work.blob));
    if (!wanted()) return;
    const same = work.traced?.stitches === traced.stitches && work.traced.rows === traced.rows;
    if (!same) work.answers.clear();
    work.doubt = 0;
    work.traced = traced;
    work.refusal = null;
    work.width = traced.width;
    work.height = traced.height;
    work.stitches = traced.stitches;
    work.rows = traced.rows;
    if (found) work.corners = /** @type {Corners} */ (traced.corners);
  } catch (error) {
    if (!(error instanceof Refused || error instanceof Away)) throw error;
    if (wanted()) work.refusal = error.message;
  }
};

/**
 * @param {string} hex
 */
const channels = (hex) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));

/**
 * The colour nearest to one that was seen before: reading again may change its letter and a little of its tint.
 * @template {{ hex: string }} T
 * @param {T[]} colours
 * @param {string} hex
 * @returns {T | undefined}
 */
const nearest = (colours, hex) => {
  const want = channels(hex);
  const far = (/** @type {T} */ one) => channels(one.hex).reduce((sum, n, i) => sum + (n - (want[i] ?? 0)) ** 2, 0);
  return [...colours].sort((a, b) => far(a) - far(b))[0];
};

/**
 * Which letter stands for which after merging by hand.
 * @param {Work} work
 * @param {Traced} traced
 */
const standing = (work, traced) => {
  const stands = new Map(traced.colours.map(({ letter }) => [letter, letter]));
  for (const { from, into } of work.merged) {
    const a = nearest(traced.colours, from)?.letter;
    const b = nearest(traced.colours, into)?.letter;
    if (!a || !b || a === b) continue;
    for (const [letter, now] of stands) if (now === a) stands.set(letter, stands.get(b) ?? b);
  }
  return stands;
};

/**
 * @param {{ row: number, stitch: number }} cell
 */
export const keyOf = ({ row, stitch }) => `${row} ${stitch}`;

/**
 * The chart as it stands: what was read, with merged yarns, answers and names.
 * @param {Work} work
 * @returns {{ lines: string[], yarns: Yarn[], doubts: Doubt[] } | null}
 */
export const chartOf = (work) => {
  const { traced } = work;
  if (!traced) return null;
  const stands = standing(work, traced);
  const letterOf = (/** @type {string} */ letter) => stands.get(letter) ?? letter;
  const lines = traced.lines.map((line, down) => {
    const row = traced.rows - down;
    return [...line]
      .map((letter, across) => {
        const answer = work.answers.get(keyOf({ row, stitch: traced.stitches - across }));
        return letterOf((answer && nearest(traced.colours, answer)?.letter) || letter);
      })
      .join('');
  });
  const kept = traced.colours.filter(({ letter }) => letterOf(letter) === letter);
  const roles = new Map([...work.roles].map(([hex, role]) => [nearest(traced.colours, hex)?.letter, role]));
  // By its place among all that were read, so that a name or a merging does not rename the others.
  const usual = (/** @type {string} */ letter) => {
    const at = traced.colours.findIndex((one) => one.letter === letter);
    const role = ROLES[at];
    return role && ![...roles.values()].includes(role) ? role : `yarn-${at + 1}`;
  };
  const yarns = kept.map((yarn) => ({
    ...yarn,
    cells: traced.colours.reduce((sum, one) => sum + (letterOf(one.letter) === yarn.letter ? one.cells : 0), 0),
    role: roles.get(yarn.letter) ?? usual(yarn.letter),
  }));
  const doubts = traced.uncertain
    .map((doubt) => ({ ...doubt, letter: letterOf(doubt.letter), instead: letterOf(doubt.instead) }))
    .filter(({ letter, instead }) => letter !== instead);
  return { lines, yarns, doubts };
};
