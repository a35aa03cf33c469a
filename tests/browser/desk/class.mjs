// The class page: two charts chosen, hands counted, every answer shown; after the first answer the desk is away.
//
//     node desk/class.mjs
import assert from 'node:assert/strict';
import { desk, look } from './common.mjs';
import { goto, tabTo } from './people-hand.mjs';

/** All texts that the page tells of either chart in this step. */
const told = async (page) =>
  (await page.locator('.told').allInnerTexts()).map((text) => text.replace(/\s+/g, ' ').trim());

/** What the engine says of two charts. */
const contest = (page, a, b) =>
  page.evaluate(async ([a, b]) => (await fetch(`/api/class?a=${a}&b=${b}`)).json(), [a, b]);

/** Goes on until the verdict; answers what each step told. */
const toTheEnd = async (page, on) => {
  const steps = [];
  while (await page.locator('.moves button.next').isVisible()) {
    const before = await page.locator('h1').innerText();
    await on();
    await page.waitForFunction((was) => document.querySelector('h1')?.textContent !== was, before);
    steps.push({
      title: await page.locator('h1').innerText(),
      told: await told(page),
      strands: await page.locator('.strand').count(),
    });
  }
  return steps;
};

/** What was told must be what the engine measured. */
const compare = async (page, steps, measured) => {
  const all = steps.map((step) => step.told);
  measured.measures.forEach(({ name, values }) => {
    if (/busy|how hard/i.test(name)) return;
    values.forEach((value, side) =>
      assert.ok(
        all.some((texts) => texts[side].includes(`${name} ${value}`)),
        `${name} ${value} is told of ${side ? 'B' : 'A'}`,
      ),
    );
  });
  measured.sides.forEach((side, i) => {
    assert.ok(
      all.some((texts) => texts[i].includes(`looks busy ${side.busyness}`)),
      'how busy it looks',
    );
    assert.ok(all.at(-1)[i].includes(`is hard ${side.grade}`), 'how hard it is, at the end');
  });
  assert.equal(steps.at(-1).title, measured.verdict);
  assert.equal(await page.locator('.why').innerText(), measured.why);
  const floats = steps.find((step) => /float/i.test(step.title));
  assert.ok(
    floats.strands >= measured.sides[0].floats.length + measured.sides[1].floats.length,
    'every float is drawn',
  );
};

/** The whole round by mouse; the desk is ended after the first answer. */
const byMouse = async ({ page, origin, stop }) => {
  await goto(page, origin, '#/class');
  await page.getByLabel('Chart A').waitFor();
  assert.equal(
    await page.locator('option', { hasText: 'Boats at the mooring' }).count(),
    0,
    'a chart that may not be copied is not offered',
  );
  await page.getByLabel('Chart A').selectOption('tern');
  await page.getByLabel('Chart B').selectOption('tern');
  assert.ok(
    await page.getByRole('button', { name: 'Show them to the class' }).isDisabled(),
    'one chart against itself is no question',
  );
  await page.getByLabel('Chart B').selectOption('starfish');
  await look(page, 'class-choosing-two-charts');
  const measured = await contest(page, 'tern', 'starfish');
  await page.getByRole('button', { name: 'Show them to the class' }).click();
  await page.locator('.hands').first().waitFor();
  assert.ok(await page.locator('#bar').isHidden(), 'the bar is away');
  for (let i = 0; i < 3; i += 1) await page.getByRole('button', { name: 'One hand more for A' }).click();
  await page.getByRole('button', { name: 'One hand fewer for A' }).click();
  await page.getByRole('button', { name: 'One hand more for B' }).click();
  assert.deepEqual(await page.locator('.hands output').allInnerTexts(), ['2', '1']);
  await look(page, 'class-the-question');
  await page.locator('.moves button.next').click();

  // After the first answer nothing is asked of the desk any more.
  const asked = [];
  page.on('request', (request) => asked.push(request.url()));
  await stop();
  const first = { title: await page.locator('h1').innerText(), told: await told(page), strands: 0 };
  const steps = [first, ...(await toTheEnd(page, () => page.locator('.moves button.next').click()))];
  await compare(page, steps, measured);
  assert.deepEqual(
    asked.filter((url) => !url.endsWith('/api/events')),
    [],
    'no request after the first answer',
  );
  assert.ok(await page.locator('#trouble').isHidden(), 'the class sees no trouble');
  assert.deepEqual(await page.locator('.counted').allInnerTexts(), ['2 hands for A', '1 hand for B']);
  await look(page, 'class-the-verdict');
};

/** The same by keyboard alone. */
const byKeyboard = async ({ page, origin }) => {
  await goto(page, origin, '#/class');
  await tabTo(page, page.getByLabel('Chart A'));
  await page.keyboard.type('Rip');
  await tabTo(page, page.getByLabel('Chart B'));
  await page.keyboard.type('Small');
  assert.equal(await page.getByLabel('Chart A').inputValue(), 'ripple');
  assert.equal(await page.getByLabel('Chart B').inputValue(), 'shells');
  await tabTo(page, page.getByRole('button', { name: 'Show them to the class' }));
  await page.keyboard.press('Enter');
  await page.locator('.hands').first().waitFor();
  await page.keyboard.press('a');
  await page.keyboard.press('b');
  await page.keyboard.press('b');
  await page.keyboard.press('Shift+B');
  await page.keyboard.press('b');
  assert.deepEqual(await page.locator('.hands output').allInnerTexts(), ['1', '2']);
  await tabTo(page, page.getByRole('button', { name: 'One hand more for A' }));
  await page.keyboard.press('Space');
  assert.deepEqual(
    await page.locator('.hands output').allInnerTexts(),
    ['2', '2'],
    'Space on a button counts and does not go on',
  );
  const second = await contest(page, 'ripple', 'shells');
  const walked = await toTheEnd(page, () => page.keyboard.press('ArrowRight'));
  await compare(page, walked, second);
  await page.keyboard.press('ArrowLeft');
  await page.waitForFunction((was) => document.querySelector('h1')?.textContent !== was, second.verdict);
  await page.keyboard.press('Escape');
  await page.getByLabel('Chart A').waitFor();
  assert.ok(await page.locator('#bar').isVisible(), 'Escape leaves');
};

/** On a wall and on a telephone. */
const sizes = async ({ page, origin }) => {
  await goto(page, origin, '#/class/ripple/shells');
  await page.locator('.hands').first().waitFor();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.locator('.strand.longest').first().waitFor();
  await look(page, 'class-floats');
  for (const [width, least] of [
    [1280, 28],
    [1920, 40],
    [390, 18],
  ]) {
    await page.setViewportSize({ width, height: width === 390 ? 844 : (width * 9) / 16 });
    const small = await page.evaluate((least) => {
      const written = [...document.querySelectorAll('#view *')].filter((one) =>
        [...one.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim()),
      );
      // In a drawing type is as large as the drawing makes it.
      const size = (one) => parseFloat(getComputedStyle(one).fontSize) * (one.closest('svg')?.getScreenCTM().a ?? 1);
      const found = written.filter((one) => one.getClientRects().length && size(one) < least - 0.5);
      return found.map((one) => `${one.textContent} ${size(one)}`);
    }, least);
    assert.deepEqual(small, [], `nothing under ${least} px at ${width} px`);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(wide <= 0, `nothing sticks out at ${width} px`);
  }
};

await desk('class by mouse', byMouse);
await desk('class by keyboard', async (all) => {
  await byKeyboard(all);
  await sizes(all);
});
