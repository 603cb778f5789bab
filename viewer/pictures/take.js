// Takes the README's pictures anew: `npm run pictures`. Needs the built program and Chromium.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { findChromium, MISSING } from '../../dist/test/helpers/chromium.js';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..');

/** What stands on each picture: a machine, a screen, and what is done before. */
const PICTURES = {
  'whole-light': { starter: 'travelling-demonstrator', width: 1440, height: 900, scheme: 'light' },
  'cut-dark': {
    starter: 'travelling-demonstrator',
    width: 1440,
    height: 900,
    scheme: 'dark',
    async act(page) {
      await page.locator('#cut-on').check();
      await page.locator('#cut').fill('90');
      await page.locator('.callouts .fit').first().waitFor();
    },
  },
  'fit-light': {
    starter: 'travelling-demonstrator',
    width: 1440,
    height: 900,
    scheme: 'light',
    async act(page) {
      await page.locator('#cut-on').check();
      await page.locator('#cut').fill('90');
      await page.getByRole('button', { name: 'pilot on the tube' }).click();
    },
  },
  'field-light': {
    starter: 'travelling-demonstrator',
    width: 1440,
    height: 900,
    scheme: 'light',
    async act(page) {
      await page.locator('#field').click();
      await page.locator('.labels .weakest').waitFor({ state: 'attached' });
    },
  },
  'apart-light': {
    starter: 'lecture-hall',
    width: 1440,
    height: 900,
    scheme: 'light',
    async act(page) {
      await page.locator('#apart').fill('0.75');
    },
  },
  'finding-light': {
    starter: 'inch-built',
    width: 1440,
    height: 900,
    scheme: 'light',
    async act(page) {
      await page.evaluate(() => globalThis.tubewright.chooseFinding('way/column-outer'));
    },
  },
  'narrow-light': { starter: 'travelling-demonstrator', width: 390, height: 844, scheme: 'light' },
};

const executablePath = findChromium();
if (!executablePath) {
  console.error(MISSING);
  process.exit(1);
}
const folder = mkdtempSync(join(tmpdir(), 'tubewright-pictures-'));
const browser = await chromium.launch({
  executablePath,
  args: ['--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
});
try {
  for (const [name, { starter, width, height, scheme, act }] of Object.entries(PICTURES)) {
    const pages = join(folder, starter);
    const file = join(root, 'cli', 'starters', `${starter}.yaml`);
    const program = join(root, 'cli', 'tubewright.js');
    const { status } = spawnSync(process.execPath, [program, 'view', file, '--export', pages], {
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    if (status !== 0) throw new Error(`the page of ${starter} could not be written`);
    const page = await browser.newPage({
      viewport: { width, height },
      colorScheme: scheme,
      reducedMotion: 'reduce',
    });
    await page.goto(pathToFileURL(join(pages, 'index.html')).href);
    await page.waitForFunction(() => document.documentElement.dataset.ready === 'yes');
    await act?.(page);
    await page.waitForTimeout(1500);
    await page.screenshot({ path: join(here, `${name}.png`) });
    await page.close();
    console.error(`${name}.png`);
  }
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
