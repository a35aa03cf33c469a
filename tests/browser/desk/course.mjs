// The course and its lessons: a lesson moved by mouse and by keyboard, faults that lead to their place, the pack, a lesson
// changed as form and as text with its handout beside it, two windows, a hundred lessons.
//
//     node desk/course.mjs
import assert from 'node:assert/strict';
import { existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { desk, enter, look, second } from './common.mjs';

/** Waits until something holds. */
const until = async (what, why, ms = 8000) => {
  const end = Date.now() + ms;
  for (;;) {
    if (await what()) return;
    assert.ok(Date.now() < end, `in ${ms} ms: ${why}`);
    await new Promise((go) => setTimeout(go, 20));
  }
};

const goto = (page, hash) => page.evaluate((to) => { location.hash = to; }, hash);

/** The ids of the ladder, the first first. */
const ladder = (page) => page.locator('.ladder > li').evaluateAll((lines) => lines.map((line) => line.dataset.id).reverse());

/** Presses Tab until this has the focus. */
const tabTo = async (page, locator, most = 120) => {
  for (let i = 0; i < most; i += 1) {
    if (await locator.evaluate((one) => one === document.activeElement).catch(() => false)) return;
    await page.keyboard.press('Tab');
  }
  assert.fail(`no Tab leads to ${locator}`);
};

const lessonFile = (course, id) => readdirSync(course).find((name) => name.replace(/^\d+-/, '') === `${id}.yaml`);
const yaml = (course, id) => readFileSync(join(course, lessonFile(course, id)), 'utf8');
const needs = (text) => /^needs: \[(.*)\]/m.exec(text)?.[1]?.split(', ') ?? [];

/** Drags a lesson to where another one stands. */
const drag = async (page, id, to) => {
  const from = await page.locator(`.handle[data-id="${id}"]`).boundingBox();
  await page.mouse.move(from.x + 20, from.y + from.height / 2);
  await page.mouse.down();
  const goal = await page.locator(`.ladder > li[data-id="${to}"]`).boundingBox();
  await page.mouse.move(from.x + 20, (from.y + goal.y) / 2, { steps: 4 });
  await page.mouse.move(from.x + 20, goal.y + goal.height / 2, { steps: 6 });
  await page.mouse.up();
};

/** One or two files say in `needs` what holds the order, each of a lesson further down; comments and all else stay. */
const heldByNeeds = (course, wished, texts) => {
  const changed = wished.filter((id) => yaml(course, id) !== texts[id]);
  assert.ok(changed.length === 1 || changed.length === 2, `changed: ${changed}`);
  for (const id of changed) {
    const [was, is] = [texts[id], yaml(course, id)];
    const added = needs(is).filter((need) => !needs(was).includes(need));
    assert.ok(added.length && added.every((need) => wished.indexOf(need) < wished.indexOf(id)), `${id} needs ${added}`);
    assert.ok(is.startsWith('# yaml-language-server'), 'comments stay');
    assert.equal(is.replace(/^needs: .*\n/m, ''), was.replace(/^needs: .*\n/m, ''), 'all else stays');
  }
};

const movedByMouse = async ({ page, course }) => {
  const before = await ladder(page);
  assert.equal(before[0], 'tideline-cowl');
  const texts = Object.fromEntries(before.map((id) => [id, yaml(course, id)]));
  await look(page, 'course');

  // What a lesson needs cannot be moved after it, and says so.
  await drag(page, 'pebble-hat', 'dunlin-yoke');
  await page.locator('.verdict', { hasText: 'Not possible: Mooring cowl needs Pebble hat' }).waitFor();
  assert.ok(await page.getByRole('button', { name: 'Keep this order' }).isDisabled());
  await page.locator('li[data-id=mooring-cowl] .forbidden', { hasText: 'It needs Pebble hat' }).waitFor();
  await look(page, 'course-forbidden');
  await page.getByRole('button', { name: 'Put it back' }).click();
  assert.deepEqual(await ladder(page), before);

  // A possible place: its steps are shown, and only keeping writes.
  await drag(page, 'turnstone-mitts', 'drizzle-hat');
  await page.locator('.verdict', { hasText: 'within the budget' }).waitFor();
  const wished = await ladder(page);
  assert.equal(wished.indexOf('turnstone-mitts'), before.indexOf('drizzle-hat'));
  assert.match(await page.locator('li[data-id=turnstone-mitts] .step').innerText(), /\+10\.6\s*was \+9\.0/);
  await look(page, 'course-moved');
  assert.ok(before.every((id) => yaml(course, id) === texts[id]), 'looking writes nothing');
  await page.getByRole('button', { name: 'Keep this order' }).click();
  await page.getByRole('button', { name: 'Save all' }).waitFor();
  assert.deepEqual(await ladder(page), wished);
  assert.ok(before.every((id) => yaml(course, id) === texts[id]), 'kept is not saved');
  await look(page, 'course-kept');
  // Undone, and kept again.
  await page.getByRole('button', { name: 'Undo the new order' }).click();
  await until(async () => (await ladder(page)).join() === before.join(), 'undone');
  await page.getByText('All saved').waitFor();
  await drag(page, 'turnstone-mitts', 'drizzle-hat');
  await page.locator('.verdict', { hasText: 'within the budget' }).waitFor();
  await page.getByRole('button', { name: 'Keep this order' }).click();
  await page.getByRole('button', { name: 'Save all' }).waitFor();
  await page.getByRole('button', { name: 'Save all' }).click();
  await page.getByText('All saved').waitFor();
  heldByNeeds(course, wished, texts);
  await page.reload();
  await page.locator('.ladder > li').first().waitFor();
  assert.deepEqual(await ladder(page), wished);
};

const movedByKeys = async ({ page, course }) => {
  const before = await ladder(page);
  const texts = Object.fromEntries(before.map((id) => [id, yaml(course, id)]));
  const place = before.indexOf('starfish-hat');
  const handle = page.getByRole('button', { name: 'Move Starfish hat' });
  await tabTo(page, handle);
  await page.keyboard.press('ArrowDown');
  await page.locator('.verdict', { hasText: /Largest step/ }).waitFor();
  assert.ok(await handle.evaluate((one) => one === document.activeElement), 'the handle keeps the focus');
  await page.locator('#said', { hasText: `Place ${place} of ${before.length}` }).waitFor({ state: 'attached' });
  await page.keyboard.press('Escape');
  assert.deepEqual(await ladder(page), before);
  assert.ok(await handle.evaluate((one) => one === document.activeElement), 'also when it is put back');

  // The same with the buttons.
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('button', { name: 'Down', exact: true }));
  await page.keyboard.press('Enter');
  await page.locator('.verdict', { hasText: /Largest step/ }).waitFor();
  await tabTo(page, page.getByRole('button', { name: 'Keep this order' }));
  await page.keyboard.press('Enter');
  const save = page.getByRole('button', { name: 'Save all' });
  await save.waitFor();
  const wished = await ladder(page);
  assert.equal(wished.indexOf('starfish-hat'), place - 1);
  assert.ok(await handle.evaluate((one) => one === document.activeElement), 'and when it is kept');
  await tabTo(page, save);
  await page.keyboard.press('Enter');
  await page.getByText('All saved').waitFor();
  heldByNeeds(course, wished, texts);
  assert.notEqual(await page.evaluate(() => document.activeElement.tagName), 'BODY', 'the focus is not lost');
};

const faults = async ({ page, course }) => {
  const name = lessonFile(course, 'drizzle-hat');
  const text = yaml(course, 'drizzle-hat');
  writeFileSync(join(course, name), text.replace(/^craft: .*$/m, 'crafft: knit'));
  const line = text.split('\n').findIndex((one) => one.startsWith('craft:')) + 1;
  const fault = page.locator('.faults li.error', { hasText: 'crafft' });
  await fault.waitFor();
  await look(page, 'course-fault');
  await fault.getByRole('link').click();
  await page.locator('#file-text').waitFor();
  assert.equal(await page.evaluate(() => location.hash), `#/lesson/drizzle-hat/${line}`);
  await until(() => page.evaluate(() => document.activeElement?.id === 'file-text'), 'the cursor is in the text');
  const at = await page.locator('#file-text').evaluate((area) => area.value.slice(0, area.selectionStart).split('\n').length);
  assert.equal(at, line);
  await look(page, 'lesson-fault');
  // Mended where it stands, by keyboard.
  await page.keyboard.press('Home');
  await page.keyboard.press('Shift+End');
  await page.keyboard.type('craft: knit');
  await page.getByText('No faults in this file.').waitFor();
  await page.keyboard.press('Control+s');
  await until(() => /^craft: knit$/m.test(yaml(course, 'drizzle-hat')), 'mended on the disk');
  await goto(page, '#/course');
  await page.locator('.ladder').waitFor();
};

const pack = async ({ page, origin }) => {
  await page.getByRole('button', { name: 'Make the pack' }).click();
  const link = page.getByRole('link', { name: 'The whole course, to print' });
  await link.waitFor({ timeout: 180_000 });
  await look(page, 'course-pack');
  const href = await link.getAttribute('href');
  const answer = await page.request.get(origin + href);
  assert.equal(answer.status(), 200);
  assert.equal(answer.headers()['content-type'], 'application/pdf');
  assert.equal((await answer.body()).subarray(0, 5).toString(), '%PDF-');
};

/** The title of the handout that is shown. */
const printedTitle = (page) => page.evaluate(() => document.querySelector('iframe.shown')?.contentDocument?.querySelector('h1')?.textContent ?? '');

const lesson = async ({ page, course }) => {
  await goto(page, '#/lesson/little-tern-hat');
  await until(async () => (await printedTitle(page)) === 'Little tern hat', 'the handout is shown');
  await look(page, 'lesson');
  const text = yaml(course, 'little-tern-hat');
  await page.evaluate(() => document.querySelector('iframe.shown').contentWindow.scrollTo(0, 700));

  // The form, by keyboard.
  await tabTo(page, page.getByLabel('Title', { exact: true }));
  await page.keyboard.press('End');
  await page.keyboard.type(' in grey');
  const start = Date.now();
  await page.keyboard.press('Tab');
  await until(async () => (await printedTitle(page)) === 'Little tern hat in grey', 'the handout has the new title', Number(process.env.HANDOUT_MS ?? 500));
  console.log(`the handout shows a new title after ${Date.now() - start} ms`);
  assert.equal(await page.evaluate(() => document.querySelector('iframe.shown').contentWindow.scrollY), 700, 'the place read stays');
  assert.match(await page.locator('#file-text').inputValue(), /^title: Little tern hat in grey$/m);
  assert.equal(yaml(course, 'little-tern-hat'), text, 'not saved yet');
  assert.equal(await page.locator('h1').innerText(), 'Little tern hat in grey');
  await page.getByText('not saved to the file').waitFor();

  // One value within a line; nothing else of the file changes.
  await tabTo(page, page.getByLabel('Stitches', { exact: true }).first());
  await page.keyboard.press('Control+a');
  await page.keyboard.type('21');
  await page.keyboard.press('Control+s');
  await until(() => /stitches: 21,/.test(yaml(course, 'little-tern-hat')), 'the gauge is on the disk');
  const saved = yaml(course, 'little-tern-hat');
  assert.equal(saved.replace('title: Little tern hat in grey', 'title: Little tern hat').replace('stitches: 21,', 'stitches: 20,'), text);
  await page.getByText('All changes kept and saved').waitFor();

  // Undo takes it back, redo does it again.
  await page.getByRole('button', { name: 'Undo' }).click();
  await until(() => page.getByLabel('Stitches', { exact: true }).first().inputValue().then((value) => value === '20'), 'undone in the form');
  await page.getByRole('button', { name: 'Redo' }).click();
  await until(() => page.getByLabel('Stitches', { exact: true }).first().inputValue().then((value) => value === '21'), 'and done again');
};

const textAndVariants = async ({ page, course }) => {
  // What the text says, the form shows; what is wrong is told at its line and at its field.
  const area = page.locator('#file-text');
  const text = await area.inputValue();
  await area.fill(text.replace(/^makes: .*$/m, 'makes: hatt'));
  await page.locator('.text .faults li', { hasText: /hatt/ }).waitFor();
  await page.locator('.field.makes .fault').waitFor();
  await look(page, 'lesson-wrong');
  await page.locator('.text .faults').getByRole('button', { name: /^Line \d+/ }).first().click();
  assert.match(await area.evaluate((one) => one.value.slice(0, one.selectionEnd).split('\n').at(-1)), /^makes: hatt$/);
  await area.fill(text.replace(/^makes: .*$/m, 'makes: headband'));
  await until(() => page.getByLabel('What it makes').inputValue().then((value) => value === 'headband'), 'the form follows the text');
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('button', { name: 'Undo' }).click();
  await until(() => page.getByLabel('What it makes').inputValue().then((value) => value === 'hat'), 'and follows undo');

  // Printed otherwise.
  await page.getByLabel('Large print').check();
  await page.getByRole('combobox', { name: 'Size', exact: true }).selectOption('adult-small');
  await page.waitForFunction(() => /large=1&size=adult-small/.test(document.querySelector('iframe.shown')?.getAttribute('src') ?? ''));
  const pdf = await page.getByRole('link', { name: /Open as PDF/ }).getAttribute('href');
  const answer = await page.request.get(new URL(pdf, page.url()).href);
  assert.equal(answer.headers()['content-type'], 'application/pdf');
  // All sizes in numbers, and why it is as hard as it is.
  await page.getByRole('cell', { name: /^\d+$/ }).first().waitFor();
  await page.getByRole('heading', { name: 'How hard is it?' }).waitFor();
  assert.equal(yaml(course, 'little-tern-hat').includes('hatt'), false);
};

const clashes = async ({ page, course, complaints }) => {
  // Two windows: the other one sees what is kept here.
  const other = await second(page, complaints);
  await other.goto(page.url());
  await other.reload();
  await other.locator('#file-text').waitFor();
  const title = page.getByLabel('Title', { exact: true });
  await title.fill('Little tern hat in blue');
  await until(() => other.getByLabel('Title', { exact: true }).inputValue().then((value) => value === 'Little tern hat in blue'), 'the other window follows');

  // Both write: what comes later is shown against what is there.
  await page.route('**/api/file/little-tern-hat', async (route) => {
    if (route.request().method() !== 'POST') return route.fulfill({ status: 503, json: { message: 'not now' } });
    const sent = route.request().postDataJSON();
    return route.continue({ postData: JSON.stringify({ ...sent, at: sent.at - 1 }) });
  });
  await page.locator('#file-text').fill((await page.locator('#file-text').inputValue()).replace('in blue', 'in green'));
  await page.getByRole('heading', { name: 'Changed in another window too' }).waitFor();
  await page.unroute('**/api/file/little-tern-hat');
  assert.match(await page.locator('.clash').innerText(), /in green[\s\S]*in blue/);
  await look(page, 'lesson-windows');
  await page.getByRole('button', { name: 'Keep mine' }).click();
  await until(() => other.getByLabel('Title', { exact: true }).inputValue().then((value) => value === 'Little tern hat in green'), 'mine stands');

  // The same with a value of the form: both values are shown.
  await page.route('**/api/file/little-tern-hat', (route) => {
    if (route.request().method() !== 'POST') return route.fulfill({ status: 503, json: { message: 'not now' } });
    const sent = route.request().postDataJSON();
    return route.continue({ postData: JSON.stringify({ ...sent, at: sent.at - 1 }) });
  });
  await title.fill('Little tern hat in red');
  await page.getByRole('heading', { name: 'Changed in another window too' }).waitFor();
  await page.unroute('**/api/file/little-tern-hat');
  assert.match(await page.locator('.clash').innerText(), /title: Little tern hat in red[\s\S]*title: Little tern hat in green/);
  await page.getByRole('button', { name: 'Keep the other' }).click();
  await until(() => title.inputValue().then((value) => value === 'Little tern hat in green'), 'the other stands');
  await other.close();

  // Beside the desk: both are shown, either is kept.
  const name = lessonFile(course, 'little-tern-hat');
  writeFileSync(join(course, name), yaml(course, 'little-tern-hat').replace(/^title: .*$/m, 'title: Little tern hat from the editor'));
  await page.getByRole('heading', { name: 'The file was changed outside the desk' }).waitFor();
  await look(page, 'lesson-beside');
  await page.getByRole('button', { name: 'Take theirs' }).click();
  await until(() => title.inputValue().then((value) => value === 'Little tern hat from the editor'), 'theirs is taken');
  assert.equal(await page.locator('.clash').isVisible(), false);
  assert.ok(existsSync(join(course, name)));
};

/** A course with a gap: its steps are small, and a lesson waits for a harder one. */
const gapped = ({ course, read, write }) => {
  write('course.yaml', `${read('course.yaml')}budget: { step: 12, doorstep: 28, techniques: 2 }\n`);
  const [tern, pebble] = ['little-tern-hat', 'pebble-hat'].map((id) => lessonFile(course, id));
  write(tern, read(tern).replace(/^needs: .*\n/m, ''));
  write(pebble, read(pebble).replace(/^needs: .*$/m, 'needs: [drizzle-hat, little-tern-hat]'));
};

/** Nothing is wider than a small screen. */
const narrow = async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  for (const [hash, shown] of [['#/course', '.ladder > li'], ['#/lesson/pebble-hat', 'iframe.shown'], ['#/lesson/course', '.field.guild']]) {
    await goto(page, hash);
    await page.locator(shown).first().waitFor();
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 320, `${hash} is too wide`);
    await look(page, `narrow-${hash.slice(2).replaceAll('/', '-')}`);
  }
};

const gaps = async ({ page, course }) => {
  const line = page.locator('li[data-id=little-tern-hat]');
  await line.locator('.gap', { hasText: 'Too large a step' }).waitFor();
  assert.match(await line.locator('.gap').innerText(), /24\.9 where 12 is allowed/);
  await tabTo(page, line.getByRole('button', { name: 'What would close it?' }));
  await page.keyboard.press('Enter');
  const take = line.getByRole('button', { name: 'Take it' });
  await take.waitFor();
  await look(page, 'course-gap');
  assert.match(await line.locator('.remedies').innerText(), /pebble-hat not wait for little-tern-hat/);
  await tabTo(page, take);
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Save all' }).click();
  await until(() => !needs(yaml(course, 'pebble-hat')).includes('little-tern-hat'), 'the remedy is on the disk');
  assert.ok(needs(yaml(course, 'pebble-hat')).includes('drizzle-hat'), 'and nothing else is gone');
};

/** A course of a hundred lessons: copies without `needs`. */
const hundred = ({ course }) => {
  const files = readdirSync(course).filter((name) => /^\d\d-.*\.yaml$/.test(name));
  const texts = files.map((name) => readFileSync(join(course, name), 'utf8').replace(/^needs: .*\n/m, ''));
  for (const name of files) rmSync(join(course, name));
  for (let n = 1; n <= 100; n += 1) writeFileSync(join(course, `lesson-${n}.yaml`), texts[n % texts.length].replace(/^title: (.*)$/m, `title: $1 ${n}`));
};

const large = async ({ page, link, browser, complaints }) => {
  assert.equal(await page.locator('.ladder > li').count(), 100);
  const other = await enter(browser, link, { complaints });
  await goto(other, '#/charts');
  await other.getByRole('heading', { level: 1 }).waitFor();
  const ms = await other.evaluate(() => new Promise((done) => {
    const start = performance.now();
    new MutationObserver((_, seen) => {
      if (document.querySelectorAll('.ladder > li').length < 100) return;
      seen.disconnect();
      requestAnimationFrame(() => done(performance.now() - start));
    }).observe(document.querySelector('#view'), { childList: true, subtree: true });
    location.hash = '#/course';
  }));
  console.log(`the ladder of 100 lessons stands after ${Math.round(ms)} ms`);
  assert.ok(ms < 1000, `${ms} ms`);
  // The same from nothing, as the page is loaded.
  await other.addInitScript(() => new MutationObserver((_, seen) => {
    if (document.querySelectorAll('.ladder > li').length < 100) return;
    seen.disconnect();
    requestAnimationFrame(() => { globalThis.stood = performance.now(); });
  }).observe(document, { childList: true, subtree: true }));
  await other.reload();
  const loaded = await (await other.waitForFunction(() => globalThis.stood)).jsonValue();
  console.log(`and after ${Math.round(loaded)} ms when the page is loaded`);
  assert.ok(loaded < 1000, `${loaded} ms`);
  await other.close();
};

const readOnly = async ({ page, course }) => {
  const text = yaml(course, 'pebble-hat');
  assert.equal(await page.getByRole('button', { name: /^Move/ }).count(), 0);
  assert.equal(await page.getByRole('button', { name: 'Make the pack' }).count(), 0);
  await goto(page, '#/lesson/pebble-hat');
  await page.locator('#file-text').waitFor();
  assert.equal(await page.locator('#file-text').getAttribute('readonly'), '');
  assert.ok(await page.getByLabel('Title', { exact: true }).isDisabled());
  assert.equal(await page.getByRole('button', { name: 'Save' }).isVisible(), false);
  await look(page, 'lesson-reading');
  assert.equal(yaml(course, 'pebble-hat'), text);
};

await desk('a lesson moved by mouse', movedByMouse);
await desk('a lesson moved by keyboard', movedByKeys);
await desk('faults lead to their place', faults);
await desk('the pack', pack);
await desk('a lesson', async (at) => {
  await lesson(at);
  await textAndVariants(at);
  await clashes(at);
});
await desk('a small screen', narrow);
await desk('a gap', gaps, { prepare: gapped });
await desk('a hundred lessons', large, { prepare: hundred });
await desk('a desk that only reads', readOnly, { serving: ['--read-only'] });
