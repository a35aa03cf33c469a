// Runs axe-core over every HTML page of a pack: light, dark, on a narrow screen and in large print.
//
//     node axe.mjs FOLDER [FOLDER IN LARGE PRINT]
//
// Without the second folder, large print is the first one with its letters half as large again.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { launch, pagesOf } from './common.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

const [folder, large] = process.argv.slice(2).map((path) => resolve(path));
if (!folder) {
  console.error('usage: node axe.mjs FOLDER [FOLDER IN LARGE PRINT]');
  process.exit(2);
}
const modes = [
  { name: 'light', scheme: 'light', width: 1000, folder },
  { name: 'dark', scheme: 'dark', width: 1000, folder },
  { name: '375 px', scheme: 'light', width: 375, folder, smallest: 12 },
  { name: '320 px', scheme: 'light', width: 320, folder },
  { name: 'large print', scheme: 'light', width: 1000, folder: large ?? folder, enlarge: !large },
];

/** A window with axe-core in every page it opens; the pages' own policy is not loosened for that. */
const newPage = async (context) => {
  await context.addInitScript(axe);
  return context.newPage();
};

/** Opens a page of a pack as a reader would: from the disk, under its own security policy. */
const open = async (page, mode, path) => {
  await page.goto(pathToFileURL(join(mode.folder, path)).href);
  if (mode.enlarge) {
    await page.evaluate(() => {
      const root = document.documentElement;
      root.style.fontSize = `${parseFloat(getComputedStyle(root).fontSize) * 1.5}px`;
    });
  }
};

/** Type that shows in less than so many pixels, as it stands on the screen: pictures may be drawn smaller. */
const small = (page, least) =>
  page.evaluate((floor) => {
    const found = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const node = walker.currentNode;
      const parent = node.parentElement;
      if (node.data.trim() && parent.getClientRects().length > 0) {
        const scale = parent.closest('svg')?.getScreenCTM().a ?? 1;
        const size = parseFloat(getComputedStyle(parent).fontSize) * scale;
        // A hundredth of a pixel is rounding.
        if (size < floor - 0.01) {
          found.push({ rule: 'small type', where: parent.id ? `#${parent.id}` : node.data.trim(), why: `${size.toFixed(1)} px` });
        }
      }
    }
    return found;
  }, least);

/** What is wrong with the page as it stands: rule, where, and why. */
const faults = async (page, smallest = 0) => {
  const found = await page.evaluate(async (values) => {
    const { violations } = await window.axe.run(document, {
      runOnly: { type: 'tag', values },
      resultTypes: ['violations'],
    });
    const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
    return { violations, wide };
  }, tags);
  const list = found.violations.flatMap(({ id, nodes }) =>
    nodes.map((node) => ({
      rule: id,
      where: node.target.join(' '),
      why: (node.failureSummary ?? '').split('\n').slice(1).join(' ').trim(),
    })),
  );
  if (found.wide > 1) {
    list.push({ rule: 'sideways scrolling', where: 'html', why: `the page is ${found.wide} px wider than the screen` });
  }
  return [...list, ...(await small(page, smallest))];
};

// Faults put in on purpose: one that is not found means that the run below would prove nothing.
// Each marks its victim, so that only the planted fault counts.
const plants = [
  {
    rule: 'svg-img-alt',
    where: '#planted',
    plant: () => {
      const picture = document.querySelector('svg[role=img]');
      picture.removeAttribute('aria-label');
      picture.removeAttribute('aria-labelledby');
      picture.querySelectorAll('title').forEach((title) => title.remove());
      picture.id = 'planted';
    },
  },
  {
    rule: 'color-contrast',
    where: '#planted',
    plant: () => {
      const words = document.querySelector('main p:not([class])');
      words.id = 'planted';
      words.style.color = '#999';
      words.style.background = '#fff';
    },
  },
  {
    rule: 'small type',
    where: '#planted',
    plant: () => {
      const words = document.querySelector('figure svg text');
      words.id = 'planted';
      words.closest('.held').style.width = '50px';
    },
  },
  {
    rule: 'sideways scrolling',
    where: 'html',
    plant: () => {
      document.querySelector('main').style.minWidth = '2000px';
    },
  },
];

const selfCheck = async (browser, path) => {
  const context = await browser.newContext({ colorScheme: 'light', viewport: { width: 1000, height: 900 } });
  const page = await newPage(context);
  const missed = [];
  for (const { rule, where, plant } of plants) {
    await open(page, modes[0], path);
    await page.evaluate(plant);
    const found = await faults(page, 12);
    if (!found.some((fault) => fault.rule === rule && fault.where.includes(where))) {
      missed.push(rule);
    }
  }
  await context.close();
  return missed;
};

/** Every page of a pack in one mode: how many, and a line for each fault. */
const look = async (browser, mode) => {
  const context = await browser.newContext({ colorScheme: mode.scheme, viewport: { width: mode.width, height: 900 } });
  const page = await newPage(context);
  const pages = pagesOf(mode.folder);
  const wrong = [];
  for (const path of pages) {
    await open(page, mode, path);
    for (const { rule, where, why } of await faults(page, mode.smallest)) {
      wrong.push(`${path} (${mode.name}): ${rule} at ${where}: ${why}`);
    }
  }
  await context.close();
  return { pages: pages.length, wrong };
};

const browser = await launch();
let failed = false;
try {
  const first = pagesOf(folder);
  const victim = first.find((path) => path.includes('handout')) ?? first[0];
  const missed = await selfCheck(browser, victim);
  if (missed.length > 0) {
    console.error(`planted in ${victim} and not found: ${missed.join(', ')}`);
    failed = true;
  }

  // All modes at once, each in a window of its own.
  const looked = await Promise.all(modes.map((mode) => look(browser, mode)));
  const looks = looked.reduce((sum, { pages }) => sum + pages, 0);
  const wrong = looked.flatMap(({ wrong }) => wrong);
  wrong.forEach((line) => console.error(line));
  failed ||= wrong.length > 0;
  console.log(
    `axe: ${first.length} pages, ${looks} looks in ${modes.length} modes, ${wrong.length} violations; ` +
      `${plants.length - missed.length} of ${plants.length} planted faults found`,
  );
} finally {
  await browser.close();
}
process.exit(failed ? 1 : 0);
