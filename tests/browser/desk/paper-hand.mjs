// Hands for the tests of the paper: where a stitch lies on the screen, what stands beside a row, what the file says.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

export const eventually = async (what, check, within = 8000) => {
  const end = Date.now() + within;
  for (;;) {
    let last;
    try {
      const found = await check();
      if (found) return found;
      last = `still ${JSON.stringify(found)}`;
    } catch (error) {
      last = error.message;
    }
    if (Date.now() > end) assert.fail(`${what}: ${last}`);
    await new Promise((go) => setTimeout(go, 25));
  }
};

/** The one cell that has the cursor: its row, stitch, yarn, and where it lies. */
export const cursor = async (page) => {
  const cell = page.locator('[role=gridcell][tabindex="0"]');
  const [, row, stitch, yarn] = /(?:Round|Row) (\d+), stitch (\d+), (.*)/.exec(await cell.getAttribute('aria-label'));
  return { row: Number(row), stitch: Number(stitch), yarn, box: await cell.boundingBox() };
};

/** The middle of any stitch on the screen. */
export const middle = async (page, row, stitch) => {
  const at = await cursor(page);
  return {
    x: at.box.x + at.box.width * (at.stitch - stitch + 0.5),
    y: at.box.y + at.box.height * (at.row - row + 0.5),
  };
};

/** Draws with the mouse from one stitch to another of a row. */
export const drag = async (page, row, from, to = from) => {
  const [start, end] = [await middle(page, row, from), await middle(page, row, to)];
  await page.mouse.move(start.x, start.y);
  await page.mouse.down();
  await page.mouse.move(end.x, end.y, { steps: 6 });
  await page.mouse.up();
};

/** Goes to a stitch by arrows, from wherever the focus on the paper is. */
export const go = async (page, row, stitch) => {
  for (;;) {
    const at = await cursor(page);
    if (at.row === row && at.stitch === stitch) return;
    await page.keyboard.press(at.row < row ? 'ArrowUp' : at.row > row ? 'ArrowDown' : at.stitch < stitch ? 'ArrowLeft' : 'ArrowRight');
  }
};

/** Tabs until something with this name has the focus. */
export const tabTo = async (page, name, back = false) => {
  for (let tries = 0; tries < 120; tries += 1) {
    const found = await page.evaluate(() => {
      const { activeElement: at } = document;
      return at?.getAttribute('aria-label') ?? at?.closest('label')?.textContent ?? at?.textContent ?? '';
    });
    if (typeof name === 'string' ? found.trim() === name : name.test(found.trim())) return;
    await page.keyboard.press(back ? 'Shift+Tab' : 'Tab');
  }
  assert.fail(`nothing called ${name} is reached by Tab`);
};

/** What stands beside a row: its longest float as read, and whether it is told to be over the limit. */
export const fact = async (page, row) => {
  const line = page.locator('.lines [role=row]').filter({ has: page.locator(`[role=rowheader]:text-is("${row}")`) });
  const text = await line.locator('[role=cell]').first().textContent();
  return { text, over: /over the limit/.test(text), longest: Number.parseInt(text, 10) };
};

/** Whether the strand of a float over the limit is drawn through a stitch. */
export const strand = async (page, row, stitch) => {
  const at = await middle(page, row, stitch);
  return page.evaluate(({ x, y }) => {
    const canvas = document.querySelector('.field canvas');
    const box = canvas.getBoundingClientRect();
    const scale = canvas.width / box.width;
    const copy = new OffscreenCanvas(1, 14).getContext('2d', { willReadFrequently: true });
    copy.drawImage(canvas, Math.round((x - box.left) * scale), Math.round((y - box.top) * scale), 1, 14, 0, 0, 1, 14);
    const pixels = copy.getImageData(0, 0, 1, 14).data;
    for (let i = 0; i < pixels.length; i += 4) {
      if (pixels[i] === 0xa5 && pixels[i + 1] === 0x30 && pixels[i + 2] === 0x0d) return true;
    }
    return false;
  }, at);
};

/** The lines under `rows` in a chart's file, from the top. */
export const rowsOnDisk = (folder, id) => {
  const text = readFileSync(join(folder, 'charts', `${id}.yaml`), 'utf8');
  return /^rows: \|\n((?: +.*\n)+)/m.exec(text)[1].trimEnd().split('\n').map((line) => line.trim());
};

/** Waits until the bar says that nothing is under way. */
export const settled = (page, words = /^All changes kept/) =>
  eventually(`the bar says ${words}`, async () => words.test(await page.locator('#kept').textContent()));

export const open = async (page, url, id) => {
  await page.goto(new URL(`/#/chart/${id}`, url).href);
  await page.locator(`[data-chart="${id}"] [role=gridcell][tabindex="0"]`).waitFor();
};
