// Bringing charts in: a picture (its grid, yarns and doubtful stitches put right), letters, a copy.
//
//     node desk/bring.mjs
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { desk, look } from './common.mjs';
import { goto, tabTo } from './people-hand.mjs';

/** What is drawn on the squared paper: two stitches are of a pencil that is neither the one nor the other. */
const ROWS = [
  'x..x..x..x..',
  '............',
  '.sss..x.x.x.',
  'sssss.qwx...',
  's.sss.x.x.x.',
  'sss.s.......',
  '.sss..xx..xx',
  '......x....x',
];
const INKS = { '.': '#f3eee0', x: '#31464f', s: '#b5763a', q: '#d4b58d', w: '#929a9a' };

/**
 * A photograph of squared paper that lies aslant, as PNG.
 */
const photograph = async (page, rows, inks) => {
  const text = await page.evaluate(
    ([rows, inks]) => {
      const canvas = document.createElement('canvas');
      canvas.width = 900;
      canvas.height = 700;
      const ink = canvas.getContext('2d');
      ink.fillStyle = '#8f8377';
      ink.fillRect(0, 0, 900, 700);
      const [a, b, c, d] = [
        [95, 80],
        [812, 118],
        [770, 640],
        [128, 604],
      ];
      // The projective map from the unit square to these four corners, as a camera makes it.
      const [sx, sy] = [0, 1].map((i) => a[i] - b[i] + c[i] - d[i]);
      const [[bx, by], [dx, dy]] = [b, d].map((p) => [p[0] - c[0], p[1] - c[1]]);
      const [g, h] = [(sx * dy - dx * sy) / (bx * dy - dx * by), (bx * sy - sx * by) / (bx * dy - dx * by)];
      const at = (u, v) =>
        [0, 1].map((i) => ((b[i] - a[i] + g * b[i]) * u + (d[i] - a[i] + h * d[i]) * v + a[i]) / (g * u + h * v + 1));
      const shape = (points, fill) => {
        ink.fillStyle = fill;
        ink.beginPath();
        points.forEach((point, i) => ink[i ? 'lineTo' : 'moveTo'](...point));
        ink.closePath();
        ink.fill();
      };
      shape([at(-0.06, -0.06), at(1.06, -0.06), at(1.06, 1.06), at(-0.06, 1.06)], '#f7f4ec');
      const [n, m] = [rows[0].length, rows.length];
      rows.forEach((row, j) =>
        [...row].forEach((letter, i) =>
          shape(
            [at(i / n, j / m), at((i + 1) / n, j / m), at((i + 1) / n, (j + 1) / m), at(i / n, (j + 1) / m)],
            inks[letter],
          ),
        ),
      );
      ink.strokeStyle = '#5c6a70';
      ink.lineWidth = 1.5;
      const line = (from, to) => {
        ink.beginPath();
        ink.moveTo(...from);
        ink.lineTo(...to);
        ink.stroke();
      };
      for (let i = 0; i <= n; i += 1) line(at(i / n, 0), at(i / n, 1));
      for (let j = 0; j <= m; j += 1) line(at(0, j / m), at(1, j / m));
      return canvas.toDataURL('image/png').split(',')[1];
    },
    [rows, inks],
  );
  return { name: 'squared-paper.png', mimeType: 'image/png', buffer: Buffer.from(text, 'base64') };
};

/** Does something after which the picture is read again, and waits for what was read. */
const reread = async (page, act, expected) => {
  await act();
  await page.locator('.status', { hasText: expected }).waitFor();
};

/** Saves the chart on the paper, and answers its file. */
const saved = async (page, course, id) => {
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.locator('#kept', { hasText: 'and saved' }).waitFor();
  return readFileSync(join(course, 'charts', `${id}.yaml`), 'utf8');
};

/** The rows of a chart file. */
const rowsOf = (text) =>
  /^rows: \|\n((?: +.*\n?)+)/m
    .exec(text)?.[1]
    .trimEnd()
    .split('\n')
    .map((line) => line.trim()) ?? [];

/** What a chart file must hold: the same squares, whatever the letters. */
const assertRows = (text, wanted) => {
  const rows = rowsOf(text);
  assert.equal(rows.length, wanted.length);
  const letters = new Map();
  rows.forEach((row, i) => {
    assert.equal(row.length, wanted[i].length);
    [...row].forEach((letter, j) => {
      const known = letters.get(wanted[i][j]) ?? letter;
      letters.set(wanted[i][j], known);
      assert.equal(letter, known, `row ${rows.length - i}, stitch ${row.length - j}`);
    });
  });
  assert.equal(new Set(letters.values()).size, letters.size, 'different yarns stay different');
};

const choose = async (page, origin, picture) => {
  await goto(page, origin, '#/bring');
  if (await page.getByRole('button', { name: 'Another picture' }).count())
    await page.getByRole('button', { name: 'Another picture' }).click();
  await page.getByLabel('Picture', { exact: true }).setInputFiles(picture);
};

const byMouse = async ({ page, course, origin }) => {
  await goto(page, origin, '#/bring');
  await page.getByRole('heading', { name: 'Bring a chart in' }).waitFor();
  await look(page, 'bring-three-ways-in');
  const picture = await photograph(page, ROWS, INKS);
  await reread(
    page,
    () => choose(page, origin, picture),
    'Read: 12 stitches, 8 rows, 5 colours, no doubtful stitches.',
  );
  assert.match(await page.locator('main').innerText(), /may not be printed until it is known whose it is/);

  // A corner dragged away spoils the reading; the grid is found again.
  const corner = page.getByRole('button', { name: 'Top left corner' });
  const box = await corner.boundingBox();
  const stood = await page.locator('.as-read-chart').innerHTML();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + 120, box.y + 110, { steps: 6 });
  await page.mouse.up();
  await page.waitForFunction(
    (was) => document.querySelector('.as-read-chart')?.innerHTML !== was || !document.querySelector('.refusal')?.hidden,
    stood,
  );
  await reread(
    page,
    () => page.getByRole('button', { name: 'Find the grid again' }).click(),
    '12 stitches, 8 rows, 5 colours, no doubtful',
  );
  assert.equal(await page.locator('.as-read-chart').innerHTML(), stood);

  // Three pencils, not five: two stitches are in doubt, and are told one by one.
  await reread(page, () => page.getByLabel('Colours').fill('3'), '3 colours, 2 doubtful stitches');
  await look(page, 'bring-a-picture-with-doubtful-stitches');
  await page.getByLabel('Name of the yarn on 19 stitches').fill('rust');
  await page.getByLabel('Name of the yarn on 19 stitches').press('Tab');
  assert.match(await page.locator('.doubts').innerText(), /1 of 2, row 5, stitch 6/);
  await page.locator('.doubts').getByRole('button', { name: 'It is rust' }).click();
  await page.locator('.doubts', { hasText: '2 of 2, row 5, stitch 5' }).waitFor();
  await page.locator('.doubts').getByRole('button', { name: 'It is third' }).click();
  await page.locator('.status', { hasText: 'no doubtful stitches' }).waitFor();
  await page.getByLabel('Title', { exact: true }).fill('Wall hanging');
  await page.getByRole('button', { name: 'Put it on the paper' }).click();
  await page.waitForURL(/#\/chart\/wall-hanging$/);
  const text = await saved(page, course, 'wall-hanging');
  assertRows(
    text,
    ROWS.map((row) => row.replaceAll('q', 's').replaceAll('w', 'x')),
  );
  assert.match(text, /rust/);
  assert.match(text, /reference-only/, 'it may not be printed yet');
};

const byKeyboard = async ({ page, course, origin }) => {
  const picture = await photograph(page, ROWS, INKS);
  await reread(page, () => choose(page, origin, picture), 'Read: 12 stitches, 8 rows, 5 colours');
  // A corner by the arrow keys, and back.
  await tabTo(page, page.getByRole('button', { name: 'Top left corner' }));
  const place = () => page.getByRole('button', { name: 'Top left corner' }).evaluate((one) => one.style.left);
  const stood = await place();
  await page.keyboard.press('Shift+ArrowRight');
  assert.notEqual(await place(), stood);
  await page.keyboard.press('Shift+ArrowLeft');
  await page.locator('.status', { hasText: 'Read: 12 stitches, 8 rows, 5 colours' }).waitFor();
  // The whole grid by one square to the right and back.
  await tabTo(page, page.getByLabel('Slide the grid by'));
  await page.keyboard.type('one');
  await tabTo(page, page.getByRole('button', { name: 'Left', exact: true }));
  const all = await page.locator('.as-read-chart').innerHTML();
  await page.keyboard.press('ArrowLeft');
  await page.waitForFunction((was) => document.querySelector('.as-read-chart')?.innerHTML !== was, all);
  await page.keyboard.press('ArrowRight');
  await page.waitForFunction((was) => document.querySelector('.as-read-chart')?.innerHTML === was, all);
  // Two of the five pencils are others, by hand.
  const merge = async (from, into) => {
    await tabTo(page, page.getByRole('combobox', { name: 'This yarn' }));
    await page.keyboard.type(from);
    await tabTo(page, page.getByRole('combobox', { name: 'is the same as' }));
    await page.keyboard.type(into);
    await tabTo(page, page.getByRole('button', { name: 'Make them one' }));
    await page.keyboard.press('Enter');
    await page.locator('#said', { hasText: `${from} is ${into} now` }).waitFor({ state: 'attached' });
  };
  await merge('fifth', 'third');
  await merge('fourth', 'motif');
  const yarns = page.locator('section', { has: page.getByRole('heading', { name: 'Yarns' }) });
  assert.equal(await yarns.locator('tbody tr').count(), 3, 'three yarns are told');
  await tabTo(page, page.getByLabel('Title', { exact: true }));
  await page.keyboard.type('Wall hanging');
  await page.keyboard.press('Enter');
  await page.waitForURL(/#\/chart\/wall-hanging-2$/);
  const text = await saved(page, course, 'wall-hanging-2');
  assert.equal(new Set(rowsOf(text).join('')).size, 3, 'three yarns are left');
};

/** Six stitches and four rows told by dots alone: no lines that a grid could be found by. */
const DOTS = ['x..x..', '.xx.xx', 'x..x..', '......'];
const CORNERS = {
  'Top left corner': [60, 80],
  'Top right corner': [396, 80],
  'Bottom right corner': [396, 304],
  'Bottom left corner': [60, 304],
};

/** A picture of them on plain paper, 900 by 400. */
const dotted = async (page) => {
  const text = await page.evaluate((rows) => {
    const canvas = document.createElement('canvas');
    canvas.width = 900;
    canvas.height = 400;
    const ink = canvas.getContext('2d');
    ink.fillStyle = '#f7f4ec';
    ink.fillRect(0, 0, 900, 400);
    ink.fillStyle = '#31464f';
    rows.forEach((row, j) =>
      [...row].forEach((letter, i) => {
        if (letter !== 'x') return;
        ink.beginPath();
        ink.arc(88 + i * 56, 108 + j * 56, 17, 0, 7);
        ink.fill();
      }),
    );
    return canvas.toDataURL('image/png').split(',')[1];
  }, DOTS);
  return { name: 'dots.png', mimeType: 'image/png', buffer: Buffer.from(text, 'base64') };
};

/** A picture without lines is refused in words; corners and size by hand, and it is read. */
const refused = async ({ page, course, origin }) => {
  await choose(page, origin, await dotted(page));
  await page.locator('.refusal').waitFor();
  assert.match(await page.locator('.refusal').innerText(), /no grid.*corners/is);
  assert.ok(
    await page.getByRole('button', { name: 'Put it on the paper' }).isHidden(),
    'nothing is read that could be kept',
  );
  await look(page, 'bring-a-picture-that-was-refused');
  for (const [name, [x, y]] of Object.entries(CORNERS)) {
    const canvas = await page.getByRole('img', { name: 'The picture dots.png' }).boundingBox();
    const handle = await page.getByRole('button', { name }).boundingBox();
    await page.mouse.move(handle.x + handle.width / 2, handle.y + handle.height / 2);
    await page.mouse.down();
    await page.mouse.move(canvas.x + (x / 900) * canvas.width, canvas.y + (y / 400) * canvas.height, { steps: 4 });
    await page.mouse.up();
  }
  await page.getByLabel('Stitches', { exact: true }).fill('6');
  await page.getByLabel('Rows', { exact: true }).fill('4');
  await page.locator('.status', { hasText: 'Read: 6 stitches, 4 rows, 2 colours' }).waitFor();
  assert.ok(await page.locator('.refusal').isHidden(), 'what was refused is forgotten');
  await page.getByLabel('Title', { exact: true }).fill('Dots');
  await page.getByRole('button', { name: 'Put it on the paper' }).click();
  await page.waitForURL(/#\/chart\/dots$/);
  assertRows(await saved(page, course, 'dots'), DOTS);
};

/** Doubtful stitches answered by keys; the picture came by paste, another one by a drop. */
const byKeys = async ({ page, course, origin }) => {
  const picture = await photograph(page, ROWS, INKS);
  for (const way of ['drop', 'paste']) {
    await goto(page, origin, '#/bring');
    await reread(page, () => hand(page, way, picture), 'Read: 12 stitches, 8 rows, 5 colours');
  }
  await tabTo(page, page.getByLabel('Colours'));
  await reread(
    page,
    async () => {
      await page.keyboard.press('Control+A');
      await page.keyboard.type('3');
    },
    '3 colours, 2 doubtful stitches',
  );
  const doubts = page.locator('.doubts');
  await tabTo(page, doubts.getByRole('button', { name: 'It is ground' }));
  await page.keyboard.press('4');
  await doubts.getByText('2 of 2').waitFor();
  await page.keyboard.press('2');
  await doubts.getByText('You have seen all').waitFor();
  assert.match(await page.locator('.status').innerText(), /one doubtful stitch/, 'what was skipped is still in doubt');
  await page.waitForFunction(() => document.activeElement?.textContent === 'Look at them again');
  await page.keyboard.press('Enter');
  await doubts.getByText('1 of 2').waitFor();
  await page.keyboard.press('2');
  await page.locator('.status', { hasText: 'no doubtful stitches' }).waitFor();
  await tabTo(page, page.getByLabel('Title', { exact: true }));
  await page.keyboard.type('Wall by keys');
  await page.keyboard.press('Enter');
  await page.waitForURL(/#\/chart\/wall-by-keys$/);
  assertRows(
    await saved(page, course, 'wall-by-keys'),
    ROWS.map((row) => row.replaceAll('q', 's').replaceAll('w', 'x')),
  );
};

/** Hands a picture to the page as a drop or a paste does. */
const hand = (page, way, { name, mimeType, buffer }) =>
  page.evaluate(
    ([way, name, type, text]) => {
      const data = new DataTransfer();
      data.items.add(new File([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], name, { type }));
      const event =
        way === 'drop'
          ? new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true })
          : new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true });
      document.querySelector('main').dispatchEvent(event);
    },
    [way, name, mimeType, buffer.toString('base64')],
  );

const letters = async ({ page, course, origin }) => {
  await goto(page, origin, '#/bring');
  if (await page.getByRole('button', { name: 'Another picture' }).count())
    await page.getByRole('button', { name: 'Another picture' }).click();
  await tabTo(page, page.getByLabel('The chart'));
  await page.keyboard.type('x..x\n.xx\n....');
  await tabTo(page, page.getByRole('button', { name: 'Read it' }));
  await page.keyboard.press('Enter');
  await page.locator('#trouble:visible').waitFor();
  assert.equal(await page.getByLabel('The chart').inputValue(), 'x..x\n.xx\n....', 'what was pasted is still there');
  await page.getByLabel('The chart').fill('x..x\n.xx.\n....');
  await tabTo(page, page.getByRole('button', { name: 'Read it' }));
  await page.keyboard.press('Enter');
  await page.getByRole('img', { name: 'The chart as read: 4 stitches, 3 rows' }).waitFor();
  await look(page, 'bring-letters-read');
  await tabTo(page, page.getByLabel('Title', { exact: true }));
  await page.keyboard.type('Four by three');
  await page.keyboard.press('Enter');
  await page.waitForURL(/#\/chart\/four-by-three$/);
  assertRows(await saved(page, course, 'four-by-three'), ['x..x', '.xx.', '....']);
};

const copy = async ({ page, course, origin }) => {
  await goto(page, origin, '#/bring');
  await page.getByRole('combobox', { name: 'Chart', exact: true }).selectOption('pebble');
  await page.getByLabel('Title of the copy').fill('Pebbles, mine');
  await page.getByRole('button', { name: 'Copy it' }).click();
  await page.waitForURL(/#\/chart\/pebbles-mine$/);
  const text = await saved(page, course, 'pebbles-mine');
  assert.match(text, /Pebbles, mine/);
  assert.deepEqual(rowsOf(text), rowsOf(readFileSync(join(course, 'charts', 'pebble.yaml'), 'utf8')));
};

await desk('bring', async (all) => {
  await byMouse(all);
  await byKeyboard(all);
  await byKeys(all);
  await refused(all);
  await letters(all);
  await copy(all);
});
