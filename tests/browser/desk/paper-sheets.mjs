// The sheet by itself, without a browser: what its operations answer.
import assert from 'node:assert/strict';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

/** A module of the paper, from where the pages come from. */
const module = (name) => import(pathToFileURL(resolve(process.env.ASSETS ?? 'templates/desk', 'paper', `${name}.js`)).href);

export const sheets = async () => {
  const sheet = await module('sheet');
  const turn = await module('turn');
  const of = (rows, shaping = null, repeat = {}) =>
    sheet.fromChart({ rows, shaping, repeat: { stitches: null, rows: null, ...repeat }, colours: [{ letter: '.' }] });
  const plain = of(['x..', '.x.']);
  assert.deepEqual(sheet.lines(turn.shift(plain, sheet.whole(plain), 1, 1)), ['..x', '.x.']);
  assert.deepEqual(sheet.lines(turn.shift(plain, { x: 0, y: 0, width: 2, height: 1 }, -1, 0)), ['.x.', '.x.']);
  assert.deepEqual(sheet.lines(turn.upsideDown(plain, sheet.whole(plain))), ['.x.', 'x..']);
  assert.deepEqual(sheet.lines(turn.recolour(of(['x.o']), { x: 'o', o: 'x' }, { x: 0, y: 0, width: 3, height: 1 })), ['o.x']);
  assert.deepEqual(sheet.lines(turn.unfolded(of(['ab', 'cd']), 'both')), ['dcd', 'bab', 'dcd']);
  spans(sheet, turn, of);
  shaping(sheet, turn, of);
  await floats(of);
  const axis = { x: 1, y: 0.5 };
  const mirrored = sheet.mirrored([{ x: 0, y: 0 }], 'both', axis).map(({ x, y }) => `${x},${y}`);
  assert.deepEqual(mirrored.sort(), ['0,0', '0,1', '2,0', '2,1']);
  assert.equal(sheet.stretch({ x: 0, y: 0 }, { x: 5, y: 2 }).length, 6);
  assert.deepEqual(sheet.edits(plain, plain), []);
  assert.deepEqual(sheet.edits(plain, sheet.paint(plain, [{ x: 2, y: 0 }, { x: 9, y: 9 }], 'x')), [{ at: ['rows'], block: 'x.x\n.x.' }]);
};

/** The marked repeat goes with what it marks. */
const spans = (sheet, turn, of) => {
  const marked = of(['.....', '.....', '.....'], null, { stitches: '2-4', rows: '1-3' });
  assert.deepEqual(turn.addStitches(marked, 0, 2, 'x').repeat.stitches, [4, 6]);
  assert.deepEqual(turn.addStitches(marked, 3, 1, 'x').repeat.stitches, [2, 5]);
  assert.deepEqual(turn.addStitches(marked, 5, 1, 'x').repeat.stitches, [2, 4]);
  assert.deepEqual(turn.addRows(marked, 0, 1, 'x').repeat.rows, [1, 4]);
  assert.deepEqual(turn.addRows(marked, 3, 2, 'x').repeat.rows, [1, 5]);
  assert.deepEqual(turn.dropStitches(marked, 2, 1).repeat.stitches, [2, 3]);
  assert.deepEqual(turn.dropStitches(marked, 4, 1).repeat.stitches, [1, 3]);
  assert.deepEqual(turn.dropStitches(marked, 0, 1).repeat.stitches, [2, 4]);
  assert.equal(turn.dropStitches(marked, 1, 3).repeat.stitches, null);
  assert.equal(turn.dropRows(marked, 0, 3), marked);
  assert.deepEqual(sheet.edits(marked, turn.markRepeat(marked, [2, 4], [1, 2])), [{ at: ['repeat', 'rows'], text: '1-2' }]);
  assert.deepEqual(sheet.edits(marked, turn.markRepeat(marked, null, [1, 3])), [{ at: ['repeat', 'stitches'], remove: true }]);
  assert.deepEqual(sheet.edits(marked, turn.markRepeat(marked, null, null)), [{ at: ['repeat'], remove: true }]);
};

/** Marks of shaping go with their stitches, lean the other way in a mirror, and vanish with the last one. */
const shaping = (sheet, turn, of) => {
  const shaped = of(['xx', '..'], ['./', '..']);
  assert.deepEqual(turn.leftToRight(shaped, sheet.whole(shaped)).marks, [['\\', '.'], ['.', '.']]);
  assert.equal(sheet.shape(shaped, [{ x: 1, y: 0 }], '.').marks, null);
  assert.deepEqual(sheet.edits(shaped, sheet.shape(shaped, [{ x: 1, y: 0 }], '.')), [{ at: ['shaping'], remove: true }]);
  const copy = turn.copied(shaped, { x: 1, y: 0, width: 1, height: 1 });
  const put = turn.putDown(shaped, copy, { x: 0, y: 1 });
  assert.deepEqual([sheet.lines(put), put.marks], [['xx', 'x.'], [['.', '/'], ['/', '.']]]);
};

/** Where a float lies: into the edge stitches, or round the repeat. */
const floats = async (of) => {
  const { passed } = await module('canvas');
  const edged = of(['ab.b.a'], null, { stitches: '2-5' });
  assert.deepEqual(passed(edged, 0, { letter: 'a', start: 2, stitches: 4 }, false), [4, 3, 2, 1]);
  assert.deepEqual(passed(edged, 0, { letter: 'b', start: 4, stitches: 1 }, false), [2]);
  const round = of(['x...', 'a.bx'], null, { stitches: '1-4' });
  assert.deepEqual(passed(round, 0, { letter: 'x', start: 1, stitches: 3 }, false), [3, 2, 1]);
  assert.deepEqual(passed(round, 1, { letter: 'b', start: 3, stitches: 3 }, false), [1, 0, 3]);
  const turned = of(['b..x', 'bx.x'], null, { stitches: '1-3' });
  assert.deepEqual(passed(turned, 0, { letter: 'b', start: 3, stitches: 2 }, false), [1, 3]);
  assert.deepEqual(passed(of(['x..']), 0, { letter: 'x', start: 1, stitches: 2 }, true), [2, 1]);
};
