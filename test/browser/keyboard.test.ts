import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { SEVERITIES } from '../../parts/index.js';
import { browserForTests, openStarter, PATIENCE, type SceneHost } from './on-page.js';

// The page for those who use it without a mouse, without motion, or without telling colours apart.

const browser = browserForTests();

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

/** Presses the tab key until the focus leaves the page, or begins its round anew; what it came by. */
async function walk(page: Page, key: 'Tab' | 'Shift+Tab'): Promise<Stop[]> {
  const count = await noteStops(page);
  const stops: Stop[] = [];
  for (let i = 0; i < count + 5; i++) {
    await page.keyboard.press(key);
    const stop = await focused(page);
    if (!stop || stop.what === stops[0]?.what) return stops;
    stops.push(stop);
  }
  throw new Error(`caught at ${stops.map(({ what }) => what).join('; ')}`);
}

/** Elements that take the focus without having a name, as a screen reader would be told. */
async function nameless(page: Page): Promise<string[]> {
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send('Accessibility.getFullAXTree');
  await session.detach();
  return (
    nodes
      .filter(
        ({ ignored, role, properties = [] }) =>
          !ignored &&
          role?.value !== 'RootWebArea' &&
          properties.some(({ name, value }) => name === 'focusable' && value.value === true),
      )
      // What is said in passing has no name but its words; it has the focus from the page only, never by the tab key.
      .filter(({ name, role }) => role?.value !== 'status' && !String(name?.value ?? '').trim())
      .map(({ role, nodeId }) => `${role?.value} ${nodeId}`)
  );
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
      if (tab === 'findings') {
        const back = await walk(page, 'Shift+Tab');
        expect(back.map(({ what }) => what)).toEqual(stops.map(({ what }) => what).reverse());
      }
    }
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
