import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { fitInWords, fitPlaces } from '../../parts/index.js';
import { starterMachine, starterPath } from '../helpers/machines.js';
import {
  browserForTests,
  exportedPage,
  openPage,
  openStarter,
  PATIENCE,
  type SceneHost,
  settled,
} from './on-page.js';

// The section as a drawing: by choice, and where there is no three-dimensional picture.

/** Areas of the drawing's filled paths by piece, mm2, from what stands in the page. */
const drawnAreas = (page: Page) =>
  page.evaluate(() =>
    Object.fromEntries(
      [...document.querySelectorAll<SVGPathElement>('.drawing path[data-piece]')].map((path) => {
        let area = 0;
        for (const loop of path.getAttribute('d')!.split('M').slice(1)) {
          const points = [...loop.matchAll(/(-?[\d.]+)[ ,](-?[\d.]+)/g)].map(([, x, y]) => [
            Number(x),
            Number(y),
          ]);
          points.forEach(([x, y], i) => {
            const [nx, ny] = points[(i + 1) % points.length]!;
            area += (x! * ny! - nx! * y!) / 2;
          });
        }
        return [path.dataset.piece!, Math.abs(area)];
      }),
    ),
  );
const cutAreas = (page: Page) =>
  page.evaluate(() =>
    Object.fromEntries(
      globalThis.tubewright.section
        .value!.faces.filter(({ loops }) => loops.length > 0)
        .map(({ piece, loops }) => [
          piece,
          Math.abs(
            loops.reduce(
              (sum, loop) =>
                sum +
                loop.reduce((part, [x, z], i) => {
                  const [nx, nz] = loop[(i + 1) % loop.length]!;
                  return part + (x * nz - nx * z) / 2;
                }, 0),
              0,
            ),
          ),
        ]),
    ),
  );

async function showsTheSection(page: Page): Promise<void> {
  await expect.poll(() => page.locator('.drawing path[data-piece]').count()).toBeGreaterThan(5);
  const [drawn, cut] = [await drawnAreas(page), await cutAreas(page)];
  expect(Object.keys(drawn).sort()).toEqual(Object.keys(cut).sort());
  for (const [piece, area] of Object.entries(cut)) {
    expect(Math.abs(drawn[piece]! - area), piece).toBeLessThan(0.5 + 0.01 * area);
  }
}

describe('the drawing', { timeout: 3 * PATIENCE }, () => {
  const browser = browserForTests();

  it('shows what the plane cuts, tells the fits, is moved and saved', async () => {
    const { page, complaints } = await openStarter(browser(), 'travelling-demonstrator');
    await page.locator('#drawing').click();
    await showsTheSection(page);
    const machine = starterMachine('travelling-demonstrator');
    const told = async () => (await page.locator('.drawing').textContent())!.replace(/\s+/g, ' ');
    const words = (id: string) => fitInWords(fitPlaces(machine).find(({ fit }) => fit.id === id)!.fit);
    expect(await told()).toContain(words('fit/pilot-on-tube'));
    await page.locator('#cut').fill('90');
    await expect.poll(told).toContain(words('fit/hub-lower-on-axle'));
    await showsTheSection(page);

    const view = () => page.locator('.drawing svg').first().getAttribute('viewBox');
    const home = await view();
    const box = (await page.locator('.drawing svg').first().boundingBox())!;
    await page.mouse.move(box.x + box.width * 0.8, box.y + box.height / 2);
    await page.mouse.wheel(0, -400);
    await expect.poll(view).not.toBe(home);
    const near = await view();
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.8 + 80, box.y + box.height / 2 + 40, { steps: 4 });
    await page.mouse.up();
    await expect.poll(view).not.toBe(near);
    await page.locator('.drawing [tabindex="0"]').first().focus();
    await page.keyboard.press('Home');
    await expect.poll(view).toBe(home);
    await page.keyboard.press('+');
    await page.keyboard.press('ArrowUp');
    await expect.poll(view).not.toBe(home);

    for (const act of [
      () => page.locator('#save-drawing').click(),
      () => page.locator('#save-drawing').press('Enter'),
    ]) {
      const [download] = await Promise.all([page.waitForEvent('download'), act()]);
      expect(download.suggestedFilename()).toMatch(/\.svg$/);
      const svg = readFileSync(await download.path(), 'utf8');
      const size = await page.evaluate((text) => {
        const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');
        const root = parsed.documentElement;
        return {
          broken: parsed.querySelector('parsererror') !== null,
          width: root.getAttribute('width'),
          box: root.getAttribute('viewBox')!.split(/[ ,]+/).map(Number),
        };
      }, svg);
      expect(size.broken).toBe(false);
      // One unit is one mm on paper.
      expect(Number.parseFloat(size.width!)).toBeCloseTo(size.box[2]!, 1);
      expect(size.width).toMatch(/mm$/);
    }
    await page.locator('#drawing').press(' ');
    expect(await page.locator('.drawing').count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('takes over when the graphics card takes its picture away', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    await page.evaluate(() => {
      const { canvas } = document.querySelector<SceneHost>('.canvas')!.scene.stage;
      canvas.getContext('webgl2')!.getExtension('WEBGL_lose_context')!.loseContext();
    });
    await showsTheSection(page);
    expect(await page.locator('.no-scene').textContent()).toContain('took the picture away');
  });
});

describe('without WebGL', { timeout: 3 * PATIENCE }, () => {
  const browser = browserForTests({ webgl: false });

  it('the page says so, and shows rail, findings and the drawing', async () => {
    const { page, complaints } = await openPage(
      browser(),
      exportedPage(starterPath('travelling-demonstrator')),
    );
    await settled(page);
    expect(await page.locator('.no-scene').textContent()).toContain('WebGL');
    await showsTheSection(page);
    expect(await page.locator('.rail [role=option]').count()).toBeGreaterThan(10);
    await page.locator('[data-finding]').first().click();
    expect(await page.locator('.finding.open .details').count()).toBe(1);
    await page.locator('#cut').fill('45');
    await expect.poll(() => page.evaluate(() => globalThis.tubewright.section.value?.angle)).toBe(45);
    await page.evaluate(() => globalThis.tubewright.write('column.tube.length', ['655']));
    await settled(page);
    await expect.poll(() => cutAreas(page).then(({ tube }) => tube)).toBeGreaterThan(2 * 2.9 * 654);
    expect(complaints).toEqual([]);
  });
});
