import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { SEVERITIES, withWritten } from '../../parts/index.js';
import { starterText } from '../helpers/machines.js';
import { machineFile, temporaryFolder } from '../helpers/program.js';
import {
  browserForTests,
  openPage,
  openStarter,
  PATIENCE,
  type SceneHost,
  served,
  settled,
} from './on-page.js';

// The page for those who use it without a mouse, without colours, without motion, or by ear.

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
    (given) => (globalThis as unknown as { axe: { run(o: RunOptions): Promise<AxeResults> } }).axe.run({ ...given, resultTypes: ['violations'] }),
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
  { name: 'print', enter: (page) => page.locator('#tab-print').click() },
  { name: 'cautions', enter: (page) => page.locator('#tab-cautions').click() },
  {
    name: 'stock, all of it unfolded',
    enter: async (page) => {
      await page.locator('#tab-stock').click();
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll<HTMLDetailsElement>('.sheet details')) fold.open = true;
      });
    },
  },
  {
    name: 'a wrong value',
    enter: async (page) => {
      await write(page, ['24 im']);
      await page.locator('.problems p, .problems li').first().waitFor();
    },
    leave: async (page) => {
      await page.locator('#back-to-file').click();
      await settled(page);
    },
  },
  {
    name: 'cut open',
    enter: async (page) => {
      await page.locator('#cut-on').check();
      await page.locator('.callouts .fit').first().waitFor();
    },
    leave: (page) => page.locator('#cut-on').uncheck(),
  },
  {
    name: 'the drawing',
    enter: async (page) => {
      await page.locator('#drawing').check();
      await page.locator('.drawing path[data-piece]').first().waitFor();
    },
    leave: (page) => page.locator('#drawing').uncheck(),
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
      const t0=Date.now();await enter(page, file);const t1=Date.now();
      expect(await grave(page, { runOnly: RULES }), `${name}, light`).toEqual([]);const t2=Date.now();
      // Only colours differ.
      await page.emulateMedia({ colorScheme: 'dark' });const t3=Date.now();
      expect(await grave(page, { runOnly: ['color-contrast'] }), `${name}, dark`).toEqual([]);
      const t4=Date.now();await page.emulateMedia({ colorScheme: 'light' });console.log(name,t1-t0,t2-t1,t3-t2,t4-t3,Date.now()-t4);
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

/** What has the focus now: a name for it, and whether that is to be seen. */
interface Stop {
  readonly what: string;
  readonly seen: boolean;
}

function focused(page: Page): Promise<Stop | undefined> {
  return page.evaluate(() => {
    const at = document.activeElement;
    if (!at || at === document.body) return undefined;
    const all = (document as unknown as { stops?: Element[] }).stops!;
    const { outlineStyle, outlineWidth } = getComputedStyle(at);
    // Within the rail's drawing the ring is drawn.
    const ring = at.querySelector(':scope > .hit');
    const drawn = ring ? getComputedStyle(ring) : undefined;
    const seen =
      (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2) ||
      (drawn !== undefined && drawn.stroke !== 'none' && Number.parseFloat(drawn.strokeWidth) >= 2);
    const { width, height } = at.getBoundingClientRect();
    return {
      what: `${all.indexOf(at)} ${at.tagName.toLowerCase()} ${at.id || at.getAttribute('aria-label') || at.textContent?.slice(0, 30)}`,
      seen: seen && width > 0 && height > 0,
    };
  });
}

/** Writes down, in the page, all that the tab key must lead to; says how many that are. */
function noteStops(page: Page): Promise<number> {
  return page.evaluate(() => {
    const able = 'a[href], button, input, select, textarea, summary, [tabindex]';
    const stops = [...document.querySelectorAll<HTMLElement | SVGElement>(able)].filter(
      (each) =>
        each.checkVisibility({ visibilityProperty: true }) &&
        each.tabIndex >= 0 &&
        !each.matches(':disabled'),
    );
    // A scrolling region without anything in it to stop at is a stop of its own accord; there shall be none.
    Object.assign(document, { stops });
    return stops.length;
  });
}

/** Presses the tab key until the focus leaves the page; what it came by. */
async function walk(page: Page, key: 'Tab' | 'Shift+Tab'): Promise<Stop[]> {
  const count = await noteStops(page);
  const stops: Stop[] = [];
  for (let i = 0; i < count + 5; i++) {
    await page.keyboard.press(key);
    const stop = await focused(page);
    if (!stop) return stops;
    stops.push(stop);
  }
  throw new Error(`caught at ${stops.map(({ what }) => what).join('; ')}`);
}

/** Elements that take the focus without having a name, as a screen reader would be told. */
async function nameless(page: Page): Promise<string[]> {
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send('Accessibility.getFullAXTree');
  await session.detach();
  return nodes
    .filter(
      ({ ignored, role, properties = [] }) =>
        !ignored &&
        role?.value !== 'RootWebArea' &&
        properties.some(({ name, value }) => name === 'focusable' && value.value === true),
    )
    // What is said in passing has no name but its words; it has the focus from the page only, never by the tab key.
    .filter(({ name, role }) => role?.value !== 'status' && !String(name?.value ?? '').trim())
    .map(({ role, nodeId }) => `${role?.value} ${nodeId}`);
}

describe('only the keyboard', { timeout: 4 * PATIENCE }, () => {
  it.each([
    [1440, 900],
    [390, 844],
  ])('leads through all of the page at %i px, is seen, and out of it again', async (width, height) => {
    const { page } = await openStarter(browser(), 'inch-built', { viewport: { width, height } });
    const pages = ['findings', 'stock', 'print', 'cautions'];
    for (const [i, tab] of pages.entries()) {
      if (i > 0) {
        await page.locator(`#tab-${pages[i - 1]}`).focus();
        await page.keyboard.press('ArrowRight');
      }
      await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
      // From the top, as after loading.
      await page.evaluate(() => {
        const before = document.createElement('span');
        before.tabIndex = -1;
        document.body.prepend(before);
        before.focus();
        before.remove();
      });
      const stops = await walk(page, 'Tab');
      const all = await page.evaluate(() => (document as unknown as { stops: Element[] }).stops.length);
      const numbers = stops.map(({ what }) => Number.parseInt(what, 10));
      expect(stops.length, `${tab}: ${JSON.stringify(stops)}`).toBe(all);
      expect(new Set(numbers).size, tab).toBe(all);
      expect(numbers, `${tab}: something takes the focus unforeseen`).not.toContain(-1);
      expect(
        stops.filter(({ seen }) => !seen).map(({ what }) => what),
        `${tab}: the focus is not seen`,
      ).toEqual([]);
      expect(await nameless(page), `${tab}: without a name`).toEqual([]);
    }
    // And back again.
    const back = await walk(page, 'Shift+Tab');
    expect(back.length).toBeGreaterThan(20);
  });
});

describe('motion', { timeout: 2 * PATIENCE }, () => {
  it('is left out where it is unwelcome, and ends in the same place where it is not', async () => {
    const { page } = await openStarter(browser(), 'inch-built');
    const view = () =>
      page.evaluate(() => {
        const { position, target } = document.querySelector<SceneHost>('.canvas')!.scene.stage.view;
        return [position, target].flatMap(({ x, y, z }) => [x, y, z]);
      });
    const choose = (id: string | undefined) =>
      page.evaluate((each) => globalThis.tubewright.chooseFinding(each), id);
    const whole = await view();
    await choose('way/column-outer');
    const there = await view();
    expect(there).not.toEqual(whole);
    await page.locator('#tab-stock').click();
    await page.locator('#cut-on').check();
    await page.locator('#apart').fill('1');
    expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
    await page.locator('#apart').fill('0');
    await page.locator('#cut-on').uncheck();
    await choose(undefined);

    await page.locator('.canvas canvas').press('Home');
    // Turned as before, so that both come from the same side.
    const side = await view();
    await choose('way/column-outer');
    const jumped = await view();
    await choose(undefined);
    await page.locator('.canvas canvas').press('Home');
    expect(Math.max(...(await view()).map((each, i) => Math.abs(each - side[i]!)))).toBeLessThan(1e-6);
    await page.emulateMedia({ reducedMotion: 'no-preference' });
    await choose('way/column-outer');
    // On its way it is neither here nor there.
    expect(await view()).not.toEqual(jumped);
    const away = async () => Math.max(...(await view()).map((each, i) => Math.abs(each - jumped[i]!)));
    await expect.poll(away, { timeout: 10_000 }).toBeLessThan(1e-6);
  });
});

describe('severity', { timeout: 2 * PATIENCE }, () => {
  it('is told by a word and an outline, in list, rail and picture, without any colour', async () => {
    const { page } = await openStarter(browser(), 'inch-built');
    await page.locator('.findings details summary').click();
    const listed = await page.locator('[data-finding]').evaluateAll((all) =>
      all.map((each) => ({
        id: (each as HTMLElement).dataset.finding!,
        words: each.textContent!,
        outline: each.querySelector('svg path')!.getAttribute('d')!,
      })),
    );
    const severities = await page.evaluate(() =>
      Object.fromEntries(
        globalThis.tubewright.machine.value!.findings.map(({ id, severity }) => [id, severity]),
      ),
    );
    const outlines = new Map<string, Set<string>>(SEVERITIES.map((severity) => [severity, new Set()]));
    for (const { id, words, outline } of listed) {
      expect(words).toContain(severities[id]);
      outlines.get(severities[id]!)!.add(outline);
    }
    const pins = await page.locator('.rail [data-item^="finding:"]').evaluateAll((all) =>
      all.map((each) => ({
        id: (each as HTMLElement).dataset.item!.replace('finding:', ''),
        name: each.getAttribute('aria-label')!,
        outline: each.querySelector('.shape')!.getAttribute('d')!,
      })),
    );
    expect(pins.length).toBeGreaterThan(5);
    for (const { id, name, outline } of pins) {
      expect(name.startsWith(`${severities[id]}: `), name).toBe(true);
      outlines.get(severities[id]!)!.add(outline);
    }
    // One outline each, the same everywhere, and no two alike.
    expect([...outlines.values()].map(({ size }) => size)).toEqual([1, 1, 1]);
    const own = SEVERITIES.map((severity) => [...outlines.get(severity)!][0]!);
    expect(new Set(own).size).toBe(3);
    // Pins in the picture are cut out with the same outlines.
    for (const severity of ['danger', 'caution'] as const) {
      const mask = await page
        .locator(`.labels .pin.${severity}`)
        .first()
        .evaluate((pin) => getComputedStyle(pin, '::before').maskImage);
      expect(decodeURIComponent(mask), severity).toContain(own[SEVERITIES.indexOf(severity)]);
    }
  });
});
