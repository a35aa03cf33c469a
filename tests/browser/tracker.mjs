// Works the handouts by their script in a real browser, from the disk and from a server: places kept in rounds, steps and
// tables, rows marked on charts, one size alone.
//
//     node tracker.mjs FOLDER
//
// Needs pdftotext and pdftoppm.
import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { launch, pagesOf } from './common.mjs';

if (!process.argv[2]) {
  console.error('usage: node tracker.mjs FOLDER');
  process.exit(2);
}
const folder = resolve(process.argv[2]);

/** Serves the folder's files on this computer, at any free port. */
const serve = () =>
  new Promise((done) => {
    const server = createServer((request, response) => {
      const path = join(folder, decodeURIComponent(new URL(request.url, 'http://x').pathname));
      if (path.endsWith(`${sep}favicon.ico`)) {
        response.writeHead(204).end();
        return;
      }
      if (relative(folder, path).startsWith('..')) {
        response.writeHead(404).end();
        return;
      }
      try {
        const bytes = readFileSync(path);
        response.writeHead(200, { 'content-type': 'text/html; charset=utf-8' }).end(bytes);
      } catch {
        response.writeHead(404).end();
      }
    });
    server.listen(0, '127.0.0.1', () => done(server));
  });

const complaints = [];
/** A new reader, with nothing remembered. What the browser complains of, and what it asks of others, is noted. */
const reader = async (browser, options = {}) => {
  const context = await browser.newContext({ viewport: { width: 1000, height: 700 }, ...options });
  const page = await context.newPage();
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) {
      complaints.push(`console: ${message.text()}`);
    }
  });
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`));
  page.on('request', (request) => {
    if (!/^(file:|data:|http:\/\/127\.0\.0\.1:)/.test(request.url())) {
      complaints.push(`asked for ${request.url()}`);
    }
  });
  if (options.javaScriptEnabled !== false) {
    await page.exposeFunction('refused', (what) => complaints.push(`the security policy refused ${what}`));
    await page.addInitScript(() => {
      document.addEventListener('securitypolicyviolation', (event) => {
        window.refused(`${event.violatedDirective} ${event.blockedURI}`);
      });
    });
  }
  return { context, page };
};

/** What the page shows: every list of rows, what is marked in it, and what its tracker says. */
const state = (page) =>
  page.evaluate(() => {
    const text = (node) => node?.textContent.trim() ?? null;
    const trackers = [...document.querySelectorAll('.tracker')];
    let charts = [];
    const chartsOf = new Map();
    for (const node of document.querySelectorAll('svg[data-areas], dl.rows')) {
      if (node.matches('svg')) {
        charts.push(node);
      } else {
        chartsOf.set(node, charts);
        charts = [];
      }
    }
    return [...document.querySelectorAll('dl.rows')].map((list) => {
      const rows = [...list.children];
      const tracker = list.previousElementSibling;
      const ticks = rows.flatMap((row) => [...row.querySelectorAll('input')].map(({ checked }) => checked));
      return {
        ticked: ticks.filter(Boolean).length,
        boxes: ticks.length,
        charts: chartsOf.get(list).length,
        onChart: chartsOf.get(list).map((chart) => [...chart.querySelectorAll('rect.now')].map((mark) => mark.getAttribute('y'))),
        rows: rows.map((row) => ({ label: text(row.querySelector('dt')), words: text(row.querySelector('dd')) })),
        marked: rows.flatMap((row, i) => (row.classList.contains('here') ? [i] : [])),
        current: rows.flatMap((row, i) => (row.querySelector('[aria-current=step]') ? [i] : [])),
        tracked: trackers.includes(tracker),
        name: tracker?.getAttribute('aria-label') ?? null,
        label: text(tracker?.querySelector('[role=status] .label')),
        words: text(tracker?.querySelector('[role=status] .words')),
        count: text(tracker?.querySelector('[role=status] .count')),
        next: text(tracker?.querySelector('.next')),
      };
    });
  });

/** All trackers of the page stand at these rows, counted from 0, and say so everywhere. */
const at = async (page, places, when) => {
  const lists = await state(page);
  assert.equal(lists.length, places.length, `${when}: lists of rows`);
  lists.forEach((list, i) => {
    const place = places[i];
    const chart = `${when}, chart ${i + 1}`;
    assert.ok(list.tracked, `${chart}: no tracker before the list`);
    const last = Math.max(...list.rows.flatMap(({ label }) => label.match(/\d+/g).map(Number)));
    assert.match(list.count, new RegExp(`^of ${last}(, time 1 of \\d+)?\\.$`), `${chart}: its place`);
    assert.equal(list.ticked, place, `${chart}: boxes ticked up to its place`);
    assert.ok(list.charts > 0, `${chart}: no chart to mark the row on`);
    assert.ok(list.onChart.some((marks) => marks.length > 0), `${chart}: the row is marked on no part of the chart`);
    assert.equal(list.label, list.rows[place].label, `${chart}: its label`);
    assert.equal(list.words, list.rows[place].words, `${chart}: its words`);
    assert.deepEqual(list.marked, [place], `${chart}: the row marked`);
    assert.deepEqual(list.current, [place], `${chart}: the row with aria-current`);
  });
};

const press = (page, chart, name) => page.locator('.tracker:has(+ dl.rows)').nth(chart).getByRole('button', { name }).click();
const scrolled = (page) => page.evaluate(() => window.scrollY);

/** One reader's evening with a page of several charts, and a second page at the same place. */
const evening = async (browser, url, other, place) => {
  const { context, page } = await reader(browser);
  await page.goto(url);
  const fresh = await state(page);
  const places = fresh.map(() => 0);
  const say = (what) => `${place}, ${what}`;
  await at(page, places, say('at first'));
  assert.equal(new Set(fresh.map(({ name }) => name)).size, fresh.length, say('trackers share a name'));

  // By the buttons.
  await press(page, 0, /^Next /);
  await press(page, 0, /^Next /);
  places[0] = 2;
  await at(page, places, say('after Next twice'));
  await press(page, 0, 'One back');
  places[0] = 1;
  await at(page, places, say('after One back'));

  // By the keys, with the focus on a button; the page must not move.
  await page.locator('.tracker .next').first().focus();
  const before = await scrolled(page);
  await page.keyboard.press('ArrowDown');
  places[0] = 2;
  await at(page, places, say('after arrow down'));
  await page.keyboard.press('ArrowUp');
  places[0] = 1;
  await at(page, places, say('after arrow up'));
  await page.keyboard.press('Enter');
  places[0] = 2;
  await at(page, places, say('after Enter on Next'));
  await page.keyboard.press('Home');
  places[0] = 0;
  await at(page, places, say('after Home'));
  await page.keyboard.press('ArrowUp');
  await at(page, places, say('after arrow up at the first row'));
  await page.keyboard.press('Control+ArrowDown');
  await at(page, places, say('after a key with Control'));
  await page.waitForTimeout(150);
  assert.equal(await scrolled(page), before, say('the keys moved the page'));

  // Outside a tracker the keys are the page's own.
  await page.evaluate(() => {
    document.activeElement.blur();
    window.scrollTo(0, 0);
  });
  await page.keyboard.press('ArrowDown');
  await page.waitForFunction(() => window.scrollY > 0, null, { timeout: 5000 }).catch(() => {
    assert.fail(say('arrow down outside a tracker no longer moves the page'));
  });
  await at(page, places, say('after arrow down outside a tracker'));

  // Past the last row is the end, once every box is ticked, and no further; the focus stays.
  await page.locator('.tracker .next').first().focus();
  for (let i = 0; i < fresh[0].boxes + 3; i += 1) {
    await page.keyboard.press('Enter');
  }
  const ended = async (when) => {
    const [list] = await state(page);
    assert.equal(list.label, 'The end', say(when));
    assert.equal(list.ticked, list.boxes, say(`${when}: boxes ticked`));
    assert.deepEqual([list.marked, list.current, list.onChart.flat()], [[], [], []], say(`${when}: no row is marked`));
  };
  await ended('past the last row');
  assert.ok(
    await page.evaluate(() => document.activeElement.matches('.tracker .next')),
    say('the focus left Next at the end'),
  );
  await press(page, 0, 'Start again');
  places[0] = 0;
  await at(page, places, say('after Start again'));
  await press(page, 0, 'Not again');
  await ended('after taking Start again back');
  await press(page, 0, 'Start again');
  await at(page, places, say('after Start again once more'));

  // A box ticked by hand is the last one worked; cleared, it is to be worked next.
  const tick = (nth) => page.locator('dl.rows').first().locator('input').nth(nth);
  const [, second] = await page.evaluate(() => {
    const rows = [...document.querySelector('dl.rows').children];
    const all = [...document.querySelectorAll('dl.rows input')];
    return rows.map((row) => all.indexOf(row.querySelector('input')));
  });
  await tick(second).check();
  places[0] = 2;
  await at(page, places, say('with the second row ticked'));
  await tick(0).uncheck();
  places[0] = 0;
  await at(page, places, say('with the first row cleared'));

  const [own, ...more] = await page.evaluate(() => Object.keys(localStorage));
  assert.ok(own && more.length === 0, say('what is kept: one entry for the one chart moved'));

  // Every chart keeps its own place, over a reload too, and so does every page.
  places[0] = 3;
  places[1] = 1;
  for (const chart of [0, 0, 0, 1]) {
    await press(page, chart, /^Next /);
  }
  await at(page, places, say('with two charts under way'));
  await page.reload();
  await at(page, places, say('after a reload'));
  await page.goto(other);
  await at(page, (await state(page)).map(() => 0), say('on another handout'));
  await page.goto(url);
  await at(page, places, say('back from another handout'));

  // A chart may have lost rows since: one past the last is as good as nothing, and the others stay.
  await page.evaluate(([key, value]) => localStorage.setItem(key, value), [own, '9999']);
  await page.reload();
  places[0] = 0;
  await at(page, places, say('with a row kept that is no more'));

  // What is kept may be damaged. All of it is overwritten, so no key need be known here.
  const kept = await page.evaluate(() => Object.keys(localStorage));
  assert.equal(kept.length, 2, say('what is kept: one entry for each chart under way'));
  for (const rubbish of ['', 'banana', '-1', '1.5', '1e0', 'null', '{"a":1}', '99999999999999999999']) {
    await page.evaluate((value) => Object.keys(localStorage).forEach((key) => localStorage.setItem(key, value)), rubbish);
    await page.reload();
    await at(page, fresh.map(() => 0), say(`with ${JSON.stringify(rubbish)} kept`));
  }
  await press(page, 0, /^Next /);
  await at(page, fresh.map((_, i) => (i === 0 ? 1 : 0)), say('going on from rubbish'));
  await context.close();
};

/** Every stage of a piece: steps and tables of rounds have trackers of their own, and the screen stays awake from the first move. */
const stages = async (browser, url) => {
  const { context, page } = await reader(browser);
  await page.addInitScript(() => {
    window.woken = 0;
    const request = async () => {
      window.woken += 1;
    };
    Object.defineProperty(navigator, 'wakeLock', { value: { request } });
  });
  await page.goto(url);
  assert.equal(await page.evaluate(() => window.woken), 0, 'the screen is kept awake before anything is worked');
  const says = (tracker) => tracker.locator('[role=status]').innerText();
  const steps = page.locator('.tracker:has(+ ol.steps)');
  const ticks = await page.locator('ol.steps > li').first().locator('input').count();
  assert.ok(ticks > 1, 'the first step has no boxes to count by');
  const all = await page.locator('ol.steps > li').count();
  const first = await page.locator('ol.steps > li h3').first().innerText();
  assert.ok((await says(steps)).startsWith(`${first} step 1 of ${all}, round 1 of ${ticks}.`), `steps at first: ${await says(steps)}`);
  for (let i = 0; i < ticks; i += 1) {
    await steps.getByRole('button', { name: 'Next step' }).click();
  }
  const second = await page.locator('ol.steps > li h3').nth(1).innerText();
  assert.ok((await says(steps)).startsWith(`${second} step 2 of ${all}`), `steps after the first: ${await says(steps)}`);
  assert.equal(await page.locator('ol.steps input:checked').count(), ticks, 'boxes of the first step ticked');
  assert.ok((await page.evaluate(() => window.woken)) > 0, 'the screen is not kept awake');
  const table = page.locator('.tracker:has(+ .wide > table)').first();
  assert.match(await says(table), /line 1 of \d+/, 'a table of rounds has a tracker');
  await context.close();
};

/** One size, chosen once: alone in tables and sentences, on every page that has it, until all are asked for again. */
const alone = async (browser, url, other, own) => {
  const { context, page } = await reader(browser);
  await page.goto(url);
  const main = () => page.evaluate(() => [...document.querySelectorAll('main > :not(.tracker, .chooser), main li')].map((node) => node.textContent).join('\n'));
  const shown = () => page.evaluate(() => [...document.querySelectorAll('th')].filter((cell) => cell.offsetParent).map((cell) => cell.textContent));
  const whole = await main();
  const select = page.locator('.chooser select');
  const sizes = (await select.locator('option').allInnerTexts()).slice(1);
  assert.ok(sizes.length > 1, 'the page has no sizes to choose from');
  const several = new RegExp(`\\d \\([\\d.–]+(, [\\d.–]+){${sizes.length - 2}}\\)`);
  assert.match(whole, several, 'numbers of all sizes at first');
  await select.selectOption(own);
  const check = async (when) => {
    assert.doesNotMatch(await main(), several, `${when}: numbers of other sizes`);
    const heads = await shown();
    assert.ok(heads.includes(own), `${when}: its column`);
    assert.ok(!sizes.some((size) => size !== own && heads.includes(size)), `${when}: columns of other sizes`);
  };
  await check('one size');
  await page.reload();
  await check('one size after a reload');
  await page.goto(other);
  assert.equal(await select.inputValue(), own, 'the size on another page');
  await check('on another page');
  await page.goto(url);
  await select.selectOption('all sizes');
  assert.equal(await main(), whole, 'all sizes again');
  await context.close();
};

/** Storage that may not be touched at all. */
const blocked = async (browser, url) => {
  const { context, page } = await reader(browser);
  await page.addInitScript(() => {
    Object.defineProperty(window, 'localStorage', {
      get() {
        throw new DOMException('storage is shut off', 'SecurityError');
      },
    });
  });
  await page.goto(url);
  assert.equal(
    await page.evaluate(() => {
      try {
        return window.localStorage !== undefined;
      } catch {
        return false;
      }
    }),
    false,
    'storage should be shut off here',
  );
  const places = (await state(page)).map(() => 0);
  await press(page, 0, /^Next /);
  places[0] = 1;
  await at(page, places, 'with storage shut off');
  await context.close();
};

/** No letters are joined: fonts are cut to their characters, and a joined glyph would be missing ("Catching a  oat"). */
const unjoined = async (browser, url) => {
  const { context, page } = await reader(browser, {});
  await page.goto(url);
  const joined = await page.evaluate(() =>
    [...document.querySelectorAll('body, body *')]
      .filter((node) => getComputedStyle(node).fontVariantLigatures !== 'none')
      .map((node) => node.localName),
  );
  assert.deepEqual(joined, [], 'letters may be joined');
  await context.close();
};

/** The numbers of a chart's rows stay in view, in their place, however far a wide chart is scrolled. */
const numbered = async (browser, url) => {
  const { context, page } = await reader(browser, { viewport: { width: 320, height: 700 } });
  await page.goto(url);
  const seen = await page.evaluate(() =>
    [...document.querySelectorAll('.chart .wide')].flatMap((box) => {
      const room = box.scrollWidth - box.clientWidth;
      const numbers = box.querySelector('.numbers > div');
      return [0, -room / 2, -room].map((to) => {
        box.scrollLeft = to;
        const [own, outer] = [numbers, box].map((node) => node.getBoundingClientRect());
        const within = own.left >= outer.left - 1 && own.right <= outer.right + 1 && own.width > 8;
        return { room, within, words: numbers.querySelectorAll('text').length };
      });
    }),
  );
  assert.ok(seen.some(({ room }) => room > 40), 'no chart is wider than a narrow screen');
  for (const { within, words } of seen) {
    assert.ok(within, 'row numbers leave the view of a chart that is scrolled');
    assert.ok(words > 0, 'a strip of row numbers holds none');
  }
  await context.close();
};

/** Room to touch, and no tracker wider than a narrow screen, also in letters half as large again, at the longest row. */
const narrow = async (browser, url) => {
  const { context, page } = await reader(browser, { viewport: { width: 320, height: 700 } });
  await page.goto(url);
  const lists = await state(page);
  for (const [chart, { rows }] of lists.entries()) {
    const lengths = rows.map(({ words }) => words.length);
    for (let i = lengths.indexOf(Math.max(...lengths)); i > 0; i -= 1) {
      await press(page, chart, /^Next /);
    }
  }
  for (const scale of [1, 1.5]) {
    const look = await page.evaluate((by) => {
      const root = document.documentElement;
      root.style.fontSize = '';
      root.style.fontSize = `${parseFloat(getComputedStyle(root).fontSize) * by}px`;
      return {
        reach: Math.max(
          ...[...document.querySelectorAll('.tracker, .tracker *')].map((node) =>
            Math.max(node.getBoundingClientRect().right, node.getBoundingClientRect().left + node.scrollWidth),
          ),
        ),
        buttons: [...document.querySelectorAll('.tracker button')].map((button) => {
          const { width, height } = button.getBoundingClientRect();
          return { text: button.textContent, width, height };
        }),
      };
    }, scale);
    assert.ok(look.reach <= 320, `320 px, letters ${scale}: the tracker reaches to ${look.reach} px`);
    assert.equal(look.buttons.length, 3 * (await page.locator('.tracker').count()), '320 px: three buttons for each tracker');
    assert.ok(look.buttons.length > 3 * lists.length, '320 px: trackers for more than charts');
    for (const { text, width, height } of look.buttons) {
      assert.ok(width >= 44 && height >= 44, `320 px, letters ${scale}: “${text}” is ${width} by ${height} px`);
    }
  }
  await context.close();
};

/** Without JavaScript: no tracker, no mark, and every row to be seen. */
const plain = async (browser, url, expected) => {
  const { context, page } = await reader(browser, { javaScriptEnabled: false });
  await page.goto(url);
  assert.equal(await page.locator('.tracker, [aria-current=step], .rows .here').count(), 0, 'a tracker without JavaScript');
  const rows = page.locator('dl.rows > div');
  assert.equal(await rows.count(), expected, 'rows without JavaScript');
  for (const row of await rows.all()) {
    assert.ok(await row.isVisible(), 'a row hidden without JavaScript');
  }
  await page.emulateMedia({ media: 'print' });
  const pdf = await page.pdf({ format: 'A4', printBackground: true });
  await context.close();
  return pdf;
};

/** On paper: as if there were no tracker, in its words and in every dot. */
const paper = async (browser, url, without) => {
  const { context, page } = await reader(browser);
  await page.goto(url);
  await press(page, 0, /^Next /);
  await press(page, 0, /^Next /);
  const trackers = page.locator('.tracker');
  const count = await trackers.count();
  assert.ok(count > 0, 'no tracker to print');
  assert.ok(await trackers.first().isVisible(), 'the tracker should show on a screen');
  const mark = () =>
    page.evaluate(() => {
      const here = document.querySelector('.rows .here');
      return [getComputedStyle(here).backgroundColor, getComputedStyle(here, '::before').content];
    });
  const onScreen = await mark();
  await page.emulateMedia({ media: 'print' });
  for (const tracker of await trackers.all()) {
    assert.ok(!(await tracker.isVisible()), 'a tracker shows in print');
  }
  const onPaper = await mark();
  assert.notEqual(onScreen[1], 'none', 'on a screen the row is marked by more than colour');
  assert.deepEqual(onPaper, ['rgba(0, 0, 0, 0)', 'none'], 'the row is marked in print');
  const withTracker = await page.pdf({ format: 'A4', printBackground: true });
  await context.close();

  const room = mkdtempSync(join(tmpdir(), 'tracker-'));
  try {
    const read = (name, pdf) => {
      const file = join(room, `${name}.pdf`);
      writeFileSync(file, pdf);
      const limits = { maxBuffer: 1 << 28 };
      const text = execFileSync('pdftotext', ['-layout', file, '-'], limits).toString();
      const dots = execFileSync('pdftoppm', ['-r', '40', file], limits);
      return { text, dots };
    };
    const one = read('with', withTracker);
    const two = read('without', without);
    assert.match(two.text, /in words/, 'the printed page has its rows');
    assert.equal(one.text, two.text, 'printed words differ from those without JavaScript');
    assert.ok(one.dots.equals(two.dots), 'printed dots differ from those without JavaScript');
  } finally {
    rmSync(room, { recursive: true });
  }
};

const browser = await launch();
const server = await serve();
let code = 0;
try {
  // Every page with rows has a tracker for each list of two or more, in the list's own word.
  const handouts = [];
  const { context, page } = await reader(browser);
  for (const path of pagesOf(folder)) {
    await page.goto(pathToFileURL(join(folder, path)).href);
    const lists = await state(page);
    const sizes = await page.evaluate(() => document.body.dataset.sizes?.split('|') ?? []);
    lists.forEach((list, i) => {
      assert.equal(list.tracked, list.rows.length > 1, `${path}, chart ${i + 1}: a tracker before the list`);
      if (list.tracked) {
        const unit = list.rows[0].label.split(' ')[0].toLowerCase();
        assert.equal(list.next, `Next ${unit}`, `${path}, chart ${i + 1}: its button`);
      }
    });
    assert.equal(await page.locator('.tracker:has(+ dl.rows)').count(), lists.filter(({ tracked }) => tracked).length, `${path}: trackers`);
    if (lists.length > 0) {
      handouts.push({ path, lists, sizes });
    }
  }
  await context.close();

  // The page with most charts is worked; all its charts need rows enough to walk.
  const busy = handouts
    .filter(({ lists }) => lists.every(({ rows }) => rows.length > 1) && lists[0].rows.length > 3)
    .sort((a, b) => b.lists.length - a.lists.length)[0];
  assert.ok(busy?.lists.length > 1, 'the pack has no handout of two charts to test with');
  const other = handouts.find(({ path, lists }) => path !== busy.path && lists.every(({ tracked }) => tracked));
  assert.ok(other, 'the pack has no second handout to test with');

  const file = (path) => pathToFileURL(join(folder, path)).href;
  const web = (path) => `http://127.0.0.1:${server.address().port}/${path.split(sep).map(encodeURIComponent).join('/')}`;
  await evening(browser, file(busy.path), file(other.path), 'from the disk');
  await evening(browser, web(busy.path), web(other.path), 'from a server');
  await stages(browser, web(busy.path));
  const [one, two, own] = handouts.flatMap((a) =>
    handouts.flatMap((b) => (a === b || a.sizes.length !== b.sizes.length ? [] : a.sizes.slice(1).filter((size) => b.sizes.includes(size)).map((size) => [a, b, size]))),
  )[0];
  await alone(browser, file(one.path), file(two.path), own);
  await blocked(browser, file(busy.path));
  await narrow(browser, file(busy.path));
  await numbered(browser, file(busy.path));
  await unjoined(browser, file(busy.path));
  const rows = busy.lists.reduce((sum, list) => sum + list.rows.length, 0);
  await paper(browser, file(busy.path), await plain(browser, file(busy.path), rows));

  assert.deepEqual(complaints, [], 'the browser complained');
  const charts = handouts.reduce((sum, { lists }) => sum + lists.length, 0);
  console.log(
    `tracker: ${charts} charts on ${handouts.length} handouts; ${busy.path} worked from the disk, from a server, ` +
      'without storage, at 320 px, without JavaScript and on paper',
  );
} catch (error) {
  console.error(`tracker: ${error.message}`);
  if (complaints.length > 0) {
    console.error(complaints.join('\n'));
  }
  if (error.name !== 'AssertionError') {
    console.error(error.stack);
  }
  code = 1;
} finally {
  server.close();
  await browser.close();
}
process.exit(code);
