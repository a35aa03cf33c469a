// What both tests share: the browser, and the pages of a pack.
import { readdirSync } from 'node:fs';
import { join, relative } from 'node:path';
import { chromium } from 'playwright-core';

/** Debian's Chromium; another one by the variable CHROMIUM. It asks nobody for anything. */
export const launch = () =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--headless=new',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });

/** Every HTML file of a folder, as paths relative to it, sorted. */
export const pagesOf = (folder) => {
  const pages = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.html'))
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)))
    .sort();
  if (pages.length === 0) {
    throw new Error(`no HTML files in ${folder}`);
  }
  return pages;
};
