// Makes the README's pictures from a pack: the ladder, the chart page of a handout, a handout on a phone.
//
//     node pictures.mjs FOLDER TO
//
// Needs pdftoppm. Beside the pictures it writes of which bytes they are, so that a test can tell when they are old.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { launch } from './common.mjs';

const [folder, to] = process.argv.slice(2).map((path) => resolve(path));
if (!to) {
  console.error('usage: node pictures.mjs FOLDER TO');
  process.exit(2);
}
const lesson = 'lessons/06-pebble-hat';
const sources = {
  'ladder.png': 'index.html',
  'chart-page.png': `${lesson}/handout.pdf`,
  'phone.png': `${lesson}/handout.html`,
};

const browser = await launch();
try {
  const open = async (path, viewport) => {
    const page = await (await browser.newContext({ viewport })).newPage();
    await page.goto(pathToFileURL(join(folder, path)).href);
    return page;
  };
  const index = await open(sources['ladder.png'], { width: 900, height: 700 });
  await index.locator('figure').first().screenshot({ path: join(to, 'ladder.png') });

  const phone = await open(sources['phone.png'], { width: 375, height: 780 });
  for (let i = 0; i < 3; i += 1) {
    await phone.locator('.tracker .next').first().click();
  }
  await phone.locator('figure.chart').first().evaluate((node) => node.scrollIntoView());
  await phone.screenshot({ path: join(to, 'phone.png') });
} finally {
  await browser.close();
}
const stem = join(to, 'chart-page');
execFileSync('pdftoppm', ['-r', '72', '-f', '2', '-l', '2', '-png', '-singlefile', join(folder, sources['chart-page.png']), stem]);

const digest = (path) => createHash('sha256').update(readFileSync(join(folder, path))).digest('hex');
const made = Object.entries(sources).map(([picture, path]) => [picture, { path, sha256: digest(path) }]);
writeFileSync(join(to, 'made-from.json'), `${JSON.stringify(Object.fromEntries(made), null, 2)}\n`);
