// A desk of its own for each test: a copy of the demo course, the program beside it, a browser, and what all tests of the
// desk look at: complaints of the browser, axe-core, screenshots.
//
//     YOKEWARD=target/release/yokeward LESSONS=lessons node desk/paper.mjs
//
// SHOTS=FOLDER keeps screenshots; ASSETS=FOLDER takes the pages from there instead of from the program.
import { strict as assert } from 'node:assert';
import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { extname, join, resolve } from 'node:path';
import { launch } from '../common.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const program = resolve(process.env.YOKEWARD ?? 'target/release/yokeward');
const lessons = resolve(process.env.LESSONS ?? 'lessons');
const kinds = { '.js': 'text/javascript', '.css': 'text/css', '.ttf': 'font/ttf' };

/** Opens a desk on a folder: the link, and how to end it. */
export const serve = (folder, ...options) =>
  new Promise((done, fail) => {
    const to = join(folder, '..', 'out');
    const child = spawn(program, ['desk', folder, '--no-open', '--to', to, ...options]);
    let said = '';
    child.stdout.on('data', (bytes) => {
      said += bytes;
      const link = /http:\S+/.exec(said)?.[0];
      if (link) {
        done({ link, origin: new URL(link).origin, child, stop: (signal = 'SIGTERM') => ended(child, signal) });
      }
    });
    child.on('error', fail);
    child.on('exit', (code) => fail(new Error(`the desk ended with ${code}`)));
  });

const ended = (child, signal) =>
  new Promise((done) => {
    if (child.exitCode !== null || child.signalCode !== null) return done();
    child.on('exit', done);
    child.kill(signal);
  });

/** A folder for one test, gone afterwards. */
export const folder = async (test) => {
  const place = mkdtempSync(join(tmpdir(), 'desk-'));
  try {
    return await test(place);
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
};

/** Serves pages and scripts from a folder instead of from the program. */
const fromFolder = (context, assets) =>
  context.route('**/desk/**', (route) => {
    const path = join(assets, new URL(route.request().url()).pathname.replace('/desk/', ''));
    if (!existsSync(path)) return route.continue();
    return route.fulfill({ body: readFileSync(path), contentType: kinds[extname(path)] });
  });

/** A page of the desk, entered by its link; what the browser complains of is noted. */
export const enter = async (browser, link, { complaints = [], ...options } = {}) => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
  if (process.env.ASSETS) await fromFolder(context, resolve(process.env.ASSETS));
  const page = await context.newPage();
  watch(page, complaints);
  await page.goto(link);
  await page.waitForSelector('#view h1');
  return page;
};

/** Another window of the same person. */
export const second = async (page, complaints = []) => {
  const other = await page.context().newPage();
  watch(other, complaints);
  return other;
};

const watch = (page, complaints) => {
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`));
  page.on('console', (message) => {
    // What the desk refuses, the browser complains of too; that is looked at where it is meant.
    const refused = /Failed to load resource/.test(message.text());
    if (['error', 'warning'].includes(message.type()) && !refused) complaints.push(message.text());
  });
};

let violations = 0;
/** axe-core over the page as it stands, in light and in dark. */
export const look = async (page, name, { schemes = ['light', 'dark'] } = {}) => {
  for (const colorScheme of schemes) {
    await page.emulateMedia({ colorScheme });
    // From within the page: what is called from outside is not bound by its policy.
    await page.evaluate(axe);
    const found = await page.evaluate(() =>
      globalThis.axe.run(document, {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      }),
    );
    for (const one of found.violations) {
      violations += 1;
      console.error(`${name}, ${colorScheme}: ${one.id}: ${one.help}`);
      for (const node of one.nodes.slice(0, 4)) console.error(`  ${node.html.slice(0, 200)}\n  ${node.failureSummary}`);
    }
    if (process.env.SHOTS) {
      mkdirSync(process.env.SHOTS, { recursive: true });
      await page.screenshot({ path: join(process.env.SHOTS, `${name}-${colorScheme}.png`), fullPage: true });
    }
  }
  await page.emulateMedia({ colorScheme: 'light' });
};

/**
 * Runs one test on a desk of its own: `{ page, browser, link, origin, course, read, write, complaints, stop, options }`,
 * `read` and `write` being of files of the course.
 */
export const desk = async (name, test, { serving = [], prepare = () => {} } = {}) =>
  folder(async (place) => {
    const course = join(place, 'lessons');
    cpSync(lessons, course, { recursive: true });
    rmSync(join(course, '.desk'), { recursive: true, force: true });
    const read = (path) => readFileSync(join(course, path), 'utf8');
    const write = (path, text) => writeFileSync(join(course, path), text);
    await prepare({ course, read, write });
    const served = await serve(course, ...serving);
    const browser = await launch();
    const complaints = [];
    try {
      const page = await enter(browser, served.link, { complaints });
      await test({ page, browser, course, read, write, complaints, ...served });
      assert.deepEqual(complaints, [], `${name}: the browser complains`);
      assert.equal(violations, 0, `${name}: axe-core finds something`);
      console.log(`${name}: right`);
    } finally {
      await browser.close();
      await served.stop('SIGKILL');
    }
  });
