// From a chart to a printed hat, by mouse and by keyboard alone; her own measures; what cannot work says why.
//
//     node desk/make.mjs
import assert from 'node:assert/strict';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { desk, look } from './common.mjs';

/** Waits until something holds. */
const until = async (what, why, ms = 8000) => {
  const end = Date.now() + ms;
  for (;;) {
    if (await what()) return;
    assert.ok(Date.now() < end, `in ${ms} ms: ${why}`);
    await new Promise((go) => setTimeout(go, 20));
  }
};

/** Opens the page for a chart. */
const open = async (page, chart) => {
  await page.evaluate((to) => { location.hash = `#/make/${to}`; }, chart);
  await page.getByRole('heading', { name: /^Make something of/ }).waitFor();
  await page.locator('.result table').waitFor();
};

/** Presses Tab until this has the focus. */
const tabTo = async (page, locator, most = 120) => {
  for (let i = 0; i < most; i += 1) {
    if (await locator.evaluate((one) => one === document.activeElement).catch(() => false)) return;
    await page.keyboard.press('Tab');
  }
  assert.fail(`no Tab leads to ${locator}`);
};

/** The values of a line of the table of sizes. */
const counts = async (page, name) => (await page.locator('.result tr', { has: page.getByRole('rowheader', { name, exact: true }) }).locator('td').allInnerTexts());

/** The handout as a PDF, by the link. */
const pdf = async (page) => {
  const href = await page.getByRole('link', { name: 'Print the handout' }).getAttribute('href');
  const answer = await page.request.get(new URL(href, page.url()).href);
  assert.equal(answer.status(), 200);
  assert.equal(answer.headers()['content-type'], 'application/pdf');
  assert.equal((await answer.body()).subarray(0, 5).toString(), '%PDF-');
};

const byMouse = async ({ page, course, read }) => {
  await open(page, 'pebble');
  await look(page, 'make');
  await page.locator('.result img').and(page.locator('img:not([hidden])')).waitFor();
  const before = await counts(page, 'Cast on');
  assert.equal(before.length, 3);

  // Another gauge, other sizes: other counts, at once.
  await page.getByLabel('Stitches in 10 cm').fill('24');
  await until(async () => (await counts(page, 'Cast on'))[0] !== before[0], 'more stitches to 10 cm: more to cast on');
  assert.ok(Number((await counts(page, 'Cast on'))[0]) > Number(before[0]));
  await page.getByText('Children', { exact: true }).click();
  await page.getByLabel('Child, 6 years').check();
  await until(async () => (await counts(page, 'Cast on')).length === 4, 'a size more');
  await page.getByLabel('Chart upwards, times').fill('1');
  await page.getByLabel('Name of the yarn for ground').fill('Slate');
  await page.getByRole('rowheader', { name: 'Slate' }).waitFor();
  await page.getByLabel('Title').fill('Grey pebbles');
  await page.getByLabel('Title').blur();
  await until(async () => (await page.getByRole('link', { name: 'Print the handout' }).getAttribute('href')).includes('/grey-pebbles.pdf'), 'the id follows the title');
  await look(page, 'make-answered');
  await pdf(page);
  assert.equal(existsSync(join(course, 'grey-pebbles.yaml')), false, 'nothing is written before it is saved');

  await page.getByRole('button', { name: 'Save the lesson' }).click();
  await page.locator('main.lesson h1', { hasText: 'Grey pebbles' }).waitFor();
  const text = read('grey-pebbles.yaml');
  assert.match(text, /makes: hat/);
  assert.match(text, /stitches: 24/);
  assert.match(text, /chart: \{ id: pebble, times: 1 \}/);
  assert.match(text, /name: "Slate"/);
  assert.match(text, /sizes: \[child-6, adult-small, adult-medium, adult-large\]/);
  // No draft of the first title is left behind.
  assert.equal(await page.evaluate(() => fetch('/api/file/pebble-hat-2').then((answer) => answer.status)), 404);
};

const byKeys = async ({ page, read }) => {
  await page.evaluate(() => { location.hash = '#/charts'; });
  await page.getByRole('heading', { level: 1 }).waitFor();
  await open(page, 'sanderling-tracks');
  await tabTo(page, page.getByRole('radio', { name: 'Hat' }));
  await page.keyboard.press('ArrowDown');
  await until(() => page.getByLabel('Title').inputValue().then((title) => / headband$/i.test(title)), 'the title follows the piece');
  await page.keyboard.press('ArrowUp');
  await tabTo(page, page.getByLabel('I don’t know my tension'));
  await page.keyboard.press('Space');
  assert.ok(await page.getByLabel('Stitches in 10 cm').isDisabled());
  await tabTo(page, page.getByLabel('Adult large'));
  await page.keyboard.press('Space');
  await until(async () => (await counts(page, 'Cast on')).length === 2, 'a size less');
  await tabTo(page, page.getByLabel('Her own measures'));
  await page.keyboard.press('Space');
  await page.locator('.result .note', { hasText: 'Say her name' }).waitFor();
  await look(page, 'make-own');
  await tabTo(page, page.getByLabel('Her name'));
  await page.keyboard.type('Wren');
  await tabTo(page, page.getByLabel('Head, round, cm'));
  await page.keyboard.type('57,5');
  await page.locator('.result').getByRole('columnheader', { name: /Wren/ }).waitFor();
  await tabTo(page, page.getByLabel('Title'));
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Tracks for Wren');
  await tabTo(page, page.getByRole('link', { name: 'Print the handout' }));
  await until(async () => (await page.getByRole('link', { name: 'Print the handout' }).getAttribute('href'))?.includes('/tracks-for-wren.pdf'), 'the id follows the title');
  const [tab] = await Promise.all([page.context().waitForEvent('page'), page.keyboard.press('Enter')]);
  await tab.close();
  await pdf(page);
  await tabTo(page, page.getByRole('button', { name: 'Save the lesson' }));
  await page.keyboard.press('Enter');
  await page.locator('main.lesson h1', { hasText: 'Tracks for Wren' }).waitFor();
  const text = read('tracks-for-wren.yaml');
  assert.match(text, /sizes: \[adult-small, adult-medium, "Wren"\]/);
  assert.match(text, /is the swatch/);
  assert.match(read('course.yaml'), /bodies: .*Wren.*575 mm/);
  assert.match(read('course.yaml'), /^# yaml-language-server/);
};

const cannotWork = async ({ page }) => {
  // A band that is deeper than a small child's yoke.
  await open(page, 'reeds');
  await page.getByLabel('Yoke').check();
  await page.getByText('Children', { exact: true }).click();
  await page.getByLabel('Child, 2 years').check();
  await page.getByLabel('Chart upwards, times').fill('3');
  const why = page.getByRole('region', { name: 'What does not work' });
  await why.waitFor();
  assert.match(await why.innerText(), /child-2: the bands are deeper than this size's yoke may be/);
  assert.match(await why.innerText(), /Leave out a band or plain rounds, or leave out this size/);
  await look(page, 'make-cannot');

  // What makes no sense is told, and what was typed stays.
  await page.getByLabel('Stitches in 10 cm').fill('many');
  await page.locator('.result .note', { hasText: 'Say how many stitches' }).waitFor();
  assert.equal(await page.getByLabel('Stitches in 10 cm').inputValue(), 'many');
  assert.equal(await page.getByRole('button', { name: 'Save the lesson' }).isDisabled(), true);
};

const left = async ({ page }) => {
  await open(page, 'drizzle');
  await page.evaluate(() => { location.hash = '#/course'; });
  await page.locator('.ladder').waitFor();
  assert.equal(await page.locator('.ladder > li').count(), 12, 'looking makes no lesson');

  // What was begun is there again.
  await open(page, 'drizzle');
  await page.getByLabel('Plain rounds above').fill('5');
  await page.getByText('Kept as a draft').waitFor();
  await page.reload();
  await page.getByRole('link', { name: 'Drizzle hat', exact: true }).click();
  await page.locator('#file-text').waitFor();
  assert.match(await page.locator('#file-text').inputValue(), /rows: 5,/);
  // And goes when it is not wanted, asked twice.
  await page.getByRole('button', { name: 'Give it up', exact: true }).click();
  await page.getByRole('button', { name: 'Give it up for good' }).click();
  await page.locator('.ladder').waitFor();
  assert.equal(await page.locator('.ladder > li').count(), 12);
};

const readOnly = async ({ page }) => {
  await page.evaluate(() => { location.hash = '#/make/pebble'; });
  await page.getByText('This desk only reads').waitFor();
  assert.equal(await page.getByRole('button', { name: 'Save the lesson' }).count(), 0);
};

await desk('a hat by mouse', byMouse);
await desk('a hat by keyboard', byKeys);
await desk('what cannot work', cannotWork);
const narrow = async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  await open(page, 'pebble');
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 320, 'too wide');
  await look(page, 'make-narrow');
};

await desk('left', left);
await desk('a small screen', narrow);
await desk('a desk that only reads', readOnly, { serving: ['--read-only'] });
