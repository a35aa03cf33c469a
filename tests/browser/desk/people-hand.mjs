// Hands for the tests of bringing in, of the class page and of the learners: opening a view, tabbing to a thing, waiting.
import assert from 'node:assert/strict';

/** Opens a view of the desk, anew even if it is open already. */
export const goto = async (page, url, hash) => {
  await page.goto(new URL(`/${hash}`, url).href);
  await page.reload();
  await page.locator('#view h1').first().waitFor();
};

/** Tabs until this has the focus. */
export const tabTo = async (page, wanted) => {
  for (let tries = 0; tries < 200; tries += 1) {
    await page.keyboard.press('Tab');
    if (await wanted.evaluate((one) => one === document.activeElement)) return;
  }
  assert.fail(`${wanted} is not reached by Tab`);
};

/** Waits until it is so. */
export const until = async (check, what, within = 8000) => {
  const end = Date.now() + within;
  while (!check()) {
    if (Date.now() > end) assert.fail(what);
    await new Promise((go) => setTimeout(go, 25));
  }
};
