import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { withWritten } from '../../parts/index.js';
import { starterText } from '../helpers/machines.js';
import { machineFile, temporaryFolder } from '../helpers/program.js';
import { browserForTests, openPage, openStarter, PATIENCE, served, settled } from './on-page.js';

// What an accessibility checker says of the page, in every state that looks different.

const browser = browserForTests();
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const TEXT = starterText('inch-built');
const LENGTH = 'column.tube.length';
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice'];

/** The checker gives up on words over a drawn background; the sheet's is a hair in its margin, clear of all words. */
async function prepared(page: Page): Promise<void> {
  await page.addStyleTag({ content: '.sheet, .tabs { background-image: none !important }' });
  await page.evaluate(AXE);
}

/** What an accessibility checker calls serious or worse, in words that lead to the place. */
async function grave(page: Page, options: RunOptions): Promise<string[]> {
  const { violations } = await page.evaluate(
    (given) =>
      (globalThis as unknown as { axe: { run(o: RunOptions): Promise<AxeResults> } }).axe.run({
        ...given,
        resultTypes: ['violations'],
      }),
    options,
  );
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) =>
      nodes.map(({ target, any }) => `${id}: ${target.join(' ')}: ${any[0]?.message ?? ''}`),
    );
}

const write = (page: Page, items: readonly string[]) =>
  page.evaluate(([key, written]) => globalThis.tubewright.write(key, written), [LENGTH, items] as const);

/** Every state of the page that looks different, how to get there and back again. */
const STATES: readonly {
  readonly name: string;
  enter(page: Page, file: string): Promise<void>;
  leave?(page: Page, file: string): Promise<void>;
}[] = [
  { name: 'as it opens', enter: async () => {} },
  {
    name: 'a finding chosen',
    enter: (page) => page.locator('[data-finding="way/column-outer"]').click(),
    leave: (page) => page.locator('[data-finding="way/column-outer"]').click(),
  },
  {
    name: 'the print list, the machine cut open',
    enter: async (page) => {
      await page.locator('#tab-print').click();
      await page.locator('#cut-on').check();
      await page.locator('.callouts .fit').first().waitFor();
    },
    leave: (page) => page.locator('#cut-on').uncheck(),
  },
  {
    name: 'the cautions, the machine as a drawing',
    enter: async (page) => {
      await page.locator('#tab-cautions').click();
      await page.locator('#drawing').check();
      await page.locator('.drawing path[data-piece]').first().waitFor();
    },
    leave: (page) => page.locator('#drawing').uncheck(),
  },
  {
    name: 'the field on the cut, with its lines',
    enter: async (page) => {
      await page.locator('#field').click();
      await page.locator('#field-lines').check();
      await page.locator('.field-weakest').waitFor();
      await settled(page);
    },
    leave: (page) => page.locator('#field').click(),
  },
  {
    name: 'the field in the drawing, for more than is aimed for',
    enter: async (page) => {
      await page.locator('#drawing').check();
      await page.locator('#field').click();
      await page.locator('#field-voltage').press('PageUp');
      await page.locator('#field-voltage-back').waitFor();
      await page.locator('.field-drawn').waitFor();
    },
    leave: async (page) => {
      await page.locator('#field-voltage-back').click();
      await page.locator('#field').click();
      await page.locator('#drawing').uncheck();
    },
  },
  {
    name: 'all of the stock, a value in it wrong',
    enter: async (page) => {
      await page.locator('#tab-stock').click();
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll<HTMLDetailsElement>('.sheet details')) fold.open = true;
      });
      await write(page, ['24 im']);
      await page.locator('.problems li').first().waitFor();
    },
    leave: async (page) => {
      await page.locator('#back-to-file').click();
      await settled(page);
    },
  },
  {
    name: 'the link, and the question before saving',
    enter: async (page) => {
      await write(page, ['25']);
      await settled(page);
      await page.locator('#link').click();
      await page.locator('#save').click();
      await page.locator('#save-dialog[open]').waitFor();
    },
    leave: async (page) => {
      await page.keyboard.press('Escape');
      await page.locator('#save-dialog').waitFor({ state: 'detached' });
    },
  },
  {
    name: 'both changed',
    enter: async (page, file) => {
      writeFileSync(file, withWritten(TEXT, 'base.feet', ['3']));
      await page.locator('.clash').waitFor();
    },
  },
];

describe('an accessibility checker', { timeout: 4 * PATIENCE }, () => {
  it.each([
    [1440, 900],
    [390, 844],
  ])('finds nothing serious at %i px, light or dark, whatever is open', async (width, height) => {
    const file = machineFile(temporaryFolder(), 'inch-built');
    const { address } = await served(file);
    const { page, complaints } = await openPage(browser(), address, {
      viewport: { width, height },
      colorScheme: 'light',
    });
    await settled(page);
    await prepared(page);
    for (const { name, enter, leave } of STATES) {
      await enter(page, file);
      expect(await grave(page, { runOnly: RULES }), `${name}, light`).toEqual([]);
      // Only colours differ.
      await page.emulateMedia({ colorScheme: 'dark' });
      expect(await grave(page, { runOnly: ['color-contrast'] }), `${name}, dark`).toEqual([]);
      await page.emulateMedia({ colorScheme: 'light' });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(wide, `${name}: scrolled to the side`).toBe(width);
      await leave?.(page, file);
    }
    expect(complaints).toEqual([]);
  });

  it('would find it: a button without a name, and words too faint', async () => {
    const { page } = await openStarter(browser(), 'inch-built');
    await prepared(page);
    await page.evaluate(() => {
      const faint = document.createElement('p');
      faint.style.color = '#e0ddd5';
      faint.append('too faint', document.createElement('button'));
      document.querySelector('.sheet')!.prepend(faint);
    });
    const said = (await grave(page, { runOnly: RULES })).join('\n');
    expect(said).toContain('button-name');
    expect(said).toContain('color-contrast');
  });
});
