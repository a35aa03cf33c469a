// The register and the logs: ticks that are on the disk, two windows, what comes next, the way, gauge and hat.
//
//     node desk/people.mjs
import assert from 'node:assert/strict';
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { desk, look, second } from './common.mjs';
import { goto, tabTo, until } from './people-hand.mjs';

/** The register as it lies on the disk. */
const register = (course) => {
  const path = join(course, 'people', 'register.yaml');
  return existsSync(path) ? readFileSync(path, 'utf8') : '';
};

/** What the register says of a learner: from her name to the next one. */
const of = (course, name) =>
  register(course)
    .split(/^(?=\s*- )/m)
    .find((part) => part.includes(name)) ?? '';

/** Adds a learner by mouse. */
const add = async (page, name, size) => {
  await page.locator('form.row').first().getByLabel('Name').fill(name);
  await page.locator('form.row').first().getByLabel('Size').selectOption(size);
  await page.getByRole('button', { name: 'Add', exact: true }).click();
  await page.getByLabel(`Name of ${name}`).waitFor();
};

/** The tick of a learner for a lesson. */
const tick = (page, name, lesson) => page.getByLabel(`${name} has done ${lesson}`);

/** What she is to do next. */
const next = (page, name) =>
  page
    .locator('tr', { has: page.getByLabel(`Name of ${name}`) })
    .locator('.next')
    .innerText();

const byMouse = async ({ page, course, origin }) => {
  await goto(page, origin, '#/people');
  await page.getByRole('heading', { name: 'Learners', level: 1 }).waitFor();
  assert.match(await page.locator('main').innerText(), /people\/register\.yaml.*never printed/);
  await add(page, 'Wren', 'adult-small');
  await add(page, 'Bracken', 'adult-large');
  assert.equal(await next(page, 'Wren'), 'Tideline cowl');
  await tick(page, 'Wren', 'Tideline cowl').click();
  await until(() => /tideline-cowl/.test(of(course, 'Wren')), 'the tick is on the disk');
  assert.match(of(course, 'Wren'), /adult-small/);
  await page.getByRole('link', { name: 'Sanderling headband' }).first().waitFor();
  assert.equal(await next(page, 'Wren'), 'Sanderling headband');
  await look(page, 'people-the-register');

  // A second window: it sees the first one's ticks, and what it keeps while the first knows nothing of it is not lost.
  const other = await second(page);
  await goto(other, origin, '#/people');
  await tick(other, 'Wren', 'Tideline cowl').waitFor();
  assert.ok(await tick(other, 'Wren', 'Tideline cowl').isChecked());
  await tick(page, 'Bracken', 'Tideline cowl').click();
  await until(() => /tideline-cowl/.test(of(course, 'Bracken')), 'the first window’s tick is on the disk');
  await tick(other, 'Bracken', 'Tideline cowl').and(other.locator(':checked')).waitFor();
  await tick(other, 'Wren', 'Sanderling headband').click();
  await until(() => /sanderling-headband/.test(of(course, 'Wren')), 'the second window’s tick is on the disk');
  assert.match(of(course, 'Bracken'), /tideline-cowl/, 'and did not undo the first one’s');
  await tick(page, 'Wren', 'Sanderling headband').and(page.locator(':checked')).waitFor();
  await other.close();

  // A register that was changed meanwhile is said to be.
  await page.route(
    '**/api/register',
    (route) => {
      const sent = route.request().method() === 'POST' ? route.request().postDataJSON() : null;
      return route.continue(sent ? { postData: JSON.stringify({ ...sent, at: sent.at - 1 }) } : {});
    },
    { times: 1 },
  );
  await tick(page, 'Bracken', 'Sanderling headband').click();
  await until(() => /sanderling-headband/.test(of(course, 'Bracken')), 'kept on what stood there');
  await page.locator('#said', { hasText: 'changed in another window' }).waitFor({ state: 'attached' });

  // Renamed, removed, put back.
  await page.getByLabel('Name of Bracken').fill('Brock');
  await page.getByLabel('Name of Bracken').press('Enter');
  await page.getByLabel('Name of Brock').waitFor();
  await until(() => /Brock/.test(register(course)) && !/Bracken/.test(register(course)), 'renamed on the disk');
  await page.getByRole('button', { name: 'Remove Brock' }).click();
  await until(() => !/Brock/.test(register(course)), 'removed on the disk');
  await look(page, 'people-removed');
  await page.getByRole('button', { name: 'Put back' }).click();
  await until(() => /sanderling-headband/.test(of(course, 'Brock')), 'put back with all ticks');
};

/** What the engine says, as a sentence. */
const sentence = (text) => `${text[0].toUpperCase()}${text.slice(1)}`.replace(/[^.!?]$/, '$&.');

/** The titles that are proposed. */
const proposed = (page) => page.locator('.cards h3').allInnerTexts();

const log = async ({ page, course, origin }) => {
  await goto(page, origin, '#/people');
  await page.locator('.logs').getByLabel('Name').fill('Wren');
  await page.getByRole('button', { name: 'New log' }).click();
  await page.getByRole('heading', { name: 'Wren', level: 1 }).waitFor();
  const before = await proposed(page);
  assert.equal(before.length, 3);
  await page.getByRole('combobox', { name: 'What', exact: true }).selectOption('tideline-cowl');
  await page.getByLabel('Day (may be left out)').fill('2026-10-02');
  await page.getByLabel('It was easy').check();
  await page.getByLabel('Note (may be left out)').fill('On the train');
  await page.getByLabel('Stitches', { exact: true }).fill('21');
  await page.getByLabel('Rows', { exact: true }).fill('28');
  await page.getByRole('button', { name: 'Put it in the log' }).click();
  await page.getByRole('cell', { name: 'On the train' }).waitFor();
  const after = await proposed(page);
  assert.ok(!after.includes('Tideline cowl'), 'what is finished is not proposed');
  assert.notDeepEqual(after, before);
  const kept = readFileSync(join(course, 'people', 'wren.yaml'), 'utf8');
  assert.match(kept, /tideline-cowl/);
  assert.match(kept, /easy/);
  assert.match(kept, /2026-10-02/);
  assert.match(kept, /On the train/);

  // A second project without a gauge: what was measured on the first one is not asked for again.
  const offered = await page.getByRole('combobox', { name: 'What', exact: true }).inputValue();
  assert.notEqual(offered, 'tideline-cowl', 'the likeliest next project is offered');
  await page.getByRole('button', { name: 'Put it in the log' }).click();
  await until(
    () => readFileSync(join(course, 'people', 'wren.yaml'), 'utf8').includes(offered),
    'the second project is kept',
  );

  await page.getByLabel('I want to make').selectOption('pebble-hat');
  await page.getByRole('button', { name: 'Show the way' }).click();
  await page.locator('.answer li').first().waitFor();
  const way = await page.evaluate(async () => (await fetch('/api/person/wren/way?to=pebble-hat')).json());
  const list = await page.locator('.answer li').allInnerTexts();
  assert.equal(list.length, way.lessons.length);
  way.lessons.forEach((lesson, i) =>
    assert.ok(list[i].includes(lesson.title) && list[i].includes(`step of ${lesson.step}`)),
  );
  assert.match(list.at(-1), /^Pebble hat/);

  const gauge = page.locator('section', { has: page.getByRole('heading', { name: 'My tension' }) });
  await gauge.getByLabel('Lesson').selectOption('pebble-hat');
  await gauge.getByLabel('My stitches to 10 cm').fill('21.5');
  await gauge.getByRole('button').click();
  await gauge.locator('.answer p').first().waitFor();
  const fit = await page.evaluate(async () => (await fetch('/api/fit/pebble-hat?gauge=21.5')).json());
  assert.deepEqual(await gauge.locator('.answer > p').allInnerTexts(), fit.lines.map(sentence));
  const hat = page.locator('section', { has: page.getByRole('heading', { name: 'My hat' }) });
  await hat.getByLabel('Lesson').selectOption('pebble-hat');
  await hat.getByLabel('Its stitches').fill('96');
  await hat.getByLabel('Its girth, cm').fill('54');
  await hat.getByRole('button').click();
  await hat.locator('.answer p').first().waitFor();
  const mine = await page.evaluate(async () => (await fetch('/api/fit/pebble-hat?stitches=96&girth=540')).json());
  assert.deepEqual(await hat.locator('.answer > p').allInnerTexts(), mine.lines.map(sentence));
  await look(page, 'people-a-log');
};

const byKeyboard = async ({ page, course, origin }) => {
  await goto(page, origin, '#/people');
  await page.getByLabel('Name of Wren').waitFor();
  const form = page.locator('form.row').first();
  await tabTo(page, form.getByLabel('Name'));
  await page.keyboard.type('Isla');
  await page.keyboard.press('Enter');
  await page.getByLabel('Name of Isla').waitFor();
  await tabTo(page, tick(page, 'Isla', 'Tideline cowl'));
  await page.keyboard.press('Space');
  await until(() => /tideline-cowl/.test(of(course, 'Isla')), 'ticked by the keyboard');
  await page.waitForFunction(
    () => document.activeElement?.getAttribute('aria-label') === 'Isla has done Tideline cowl',
  );
  await tabTo(page, page.getByLabel('Name of Isla'));
  await page.keyboard.type('Islay');
  await page.keyboard.press('Enter');
  await until(() => /Islay/.test(register(course)), 'renamed by the keyboard');
  await page.waitForFunction(() => document.activeElement?.getAttribute('aria-label') === 'Name of Islay');
  await page.keyboard.press('Control+A');
  await page.keyboard.type('Isla');
  await page.keyboard.press('Enter');
  await until(() => /tideline-cowl/.test(of(course, 'Isla')) && !/Islay/.test(register(course)), 'and back');
  await page.getByLabel('Name of Isla', { exact: true }).waitFor();
  await tabTo(page, page.getByRole('button', { name: 'Remove Isla' }));
  await page.keyboard.press('Enter');
  await until(() => !/Isla/.test(register(course)), 'removed by the keyboard');
  await page.waitForFunction(() => document.activeElement?.textContent === 'Put back');
  await page.keyboard.press('Enter');
  await until(() => /tideline-cowl/.test(of(course, 'Isla')), 'put back by the keyboard');
  await page.waitForFunction(() => document.activeElement?.getAttribute('aria-label') === 'Name of Isla');

  const logs = page.locator('.logs');
  await tabTo(page, logs.getByLabel('Name'));
  await page.keyboard.type('Isla');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Isla', level: 1 }).waitFor();
  await tabTo(page, page.getByRole('combobox', { name: 'What', exact: true }));
  await page.keyboard.type('Tideline');
  await tabTo(page, page.getByLabel('It was right'));
  await page.keyboard.press('ArrowRight');
  assert.ok(await page.getByLabel('It was hard').isChecked());
  await page.keyboard.press('Enter');
  await page.getByRole('cell', { name: 'hard', exact: true }).waitFor();
  assert.match(readFileSync(join(course, 'people', 'isla.yaml'), 'utf8'), /tideline-cowl[\s\S]*hard/);
  await tabTo(page, page.getByLabel('I want to make'));
  await page.keyboard.type('Drizzle');
  await page.keyboard.press('Enter');
  await tabTo(page, page.getByRole('button', { name: 'Show the way' }));
  await page.keyboard.press('Enter');
  await page.locator('.answer li', { hasText: 'Drizzle hat' }).waitFor();
  await tabTo(page, page.getByLabel('My stitches to 10 cm'));
  await page.keyboard.type('20');
  await page.keyboard.press('Enter');
  await page
    .locator('section', { has: page.getByRole('heading', { name: 'My tension' }) })
    .locator('.answer p')
    .first()
    .waitFor();
};

/** A desk that only reads shows all, and offers nothing that writes. */
const reading = async ({ page, origin, course }) => {
  const before = register(course);
  await goto(page, origin, '#/people');
  await tick(page, 'Wren', 'Tideline cowl').waitFor();
  assert.ok(await tick(page, 'Wren', 'Tideline cowl').isChecked());
  assert.ok(await tick(page, 'Wren', 'Tideline cowl').isDisabled());
  assert.ok(await page.getByLabel('Size of Wren').isDisabled());
  assert.equal(await page.getByLabel('Name of Wren').getAttribute('readonly'), '');
  assert.deepEqual(await page.locator('main button:visible').allInnerTexts(), []);
  await page.getByRole('link', { name: 'Wren', exact: true }).click();
  await page.getByRole('heading', { name: 'Wren', level: 1 }).waitFor();
  assert.deepEqual(await page.locator('main button:visible').allInnerTexts(), [
    'Show the way',
    'Whom does it fit?',
    'Whom does it fit?',
  ]);
  await look(page, 'people-read-only');
  await goto(page, origin, '#/bring');
  assert.match(await page.locator('main').innerText(), /only reads/);
  assert.equal(await page.locator('main input, main button').count(), 0);
  assert.equal(register(course), before);
};

/** A register and a log that are there already. */
const filled = ({ course, write }) => {
  mkdirSync(join(course, 'people'));
  write(
    'people/register.yaml',
    'learners:\n  - { name: Wren, size: adult-small, colours: "", done: [tideline-cowl] }\n',
  );
  write('people/wren.yaml', 'learner: Wren\ndone:\n  - { made: tideline-cowl, went: right }\n');
};

await desk('people', async (all) => {
  await byMouse(all);
  await log(all);
  await byKeyboard(all);
});
await desk('people on a desk that only reads', reading, { serving: ['--read-only'], prepare: filled });
