import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {
  assembly,
  checkMachine,
  columnPotential,
  findingNumbers,
  type Machine,
  openWorkshop,
  placementMatrix,
} from '../../parts/index.js';
import { starterMachine } from '../helpers/machines.js';
import { browserForTests, onScreen, openStarter, PATIENCE, type SceneHost } from './on-page.js';

// The height rail as it is drawn: bars and lines read against the numbers of its own scale.

const browser = browserForTests();

/** Heights (mm) from which to which every piece reaches, by id, from solids that are built here. */
async function heightsOf(machine: Machine): Promise<Map<string, readonly [number, number]>> {
  const { kernel } = await openWorkshop();
  return new Map(
    assembly(machine).map((piece): [string, readonly [number, number]] => {
      const { positions } = kernel.scope(() => kernel.mesh(piece.build(kernel)));
      const [x, y, z, up] = placementMatrix(piece.placement).slice(8) as [number, number, number, number];
      let [low, high] = [Infinity, -Infinity];
      for (let i = 0; i < positions.length; i += 3) {
        const height = x * positions[i]! + y * positions[i + 1]! + z * positions[i + 2]! + up;
        [low, high] = [Math.min(low, height), Math.max(high, height)];
      }
      return [piece.id, [low, high]];
    }),
  );
}

/** How a height (mm) follows from a place (px) on the rail, by two numbers of its scale. */
async function scaleOf(page: Page, unit: number): Promise<(y: number) => number> {
  const labels = await page
    .locator('.rail .scale-track text')
    .evaluateAll((all) =>
      all.map((each) => ({ value: Number.parseFloat(each.textContent!), y: Number(each.getAttribute('y')) })),
    );
  const numbers = labels.filter(({ value }) => Number.isFinite(value)).sort((a, b) => a.value - b.value);
  const [low, high] = [numbers[0]!, numbers.at(-1)!];
  expect(high.value).toBeGreaterThan(low.value);
  expect(high.y).toBeLessThan(low.y);
  return (y) => unit * (low.value + ((y - low.y) * (high.value - low.value)) / (high.y - low.y));
}

const bars = (page: Page) =>
  page.locator('.rail [data-item^="piece:"]').evaluateAll((all) =>
    all.map((each) => {
      const bar = each.querySelector('.bar')!;
      const [y, height] = ['y', 'height'].map((name) => Number(bar.getAttribute(name)));
      return { id: (each as HTMLElement).dataset.item!.replace('piece:', ''), y: y!, height: height! };
    }),
  );

/** Pixels below which a bar is drawn thicker than its piece is. */
const THIN = 5;

describe.each([
  ['travelling-demonstrator', 'mm', 1],
  ['inch-built', 'in', 25.4],
] as const)('the rail of %s', (starter, unit, length) => {
  it(`shows in ${unit} from where to where each piece reaches, and the potential beside it`, {
    timeout: 2 * PATIENCE,
  }, async () => {
    const machine = starterMachine(starter);
    const heights = await heightsOf(machine);
    const { page, complaints } = await openStarter(browser(), starter, {
      viewport: { width: 1440, height: 900 },
    });
    const heightAt = await scaleOf(page, length);
    expect(await page.locator('.rail .scale-track .zero text').textContent()).toBe(`0 ${unit}`);
    const drawn = await bars(page);
    expect(drawn.length).toBeGreaterThan(15);
    for (const { id, y, height } of drawn) {
      const [low, high] = heights.get(id)!;
      expect(heightAt(y + height / 2), id).toBeCloseTo((low + high) / 2, 1);
      if (height <= THIN) continue;
      expect(heightAt(y), id).toBeCloseTo(high, 1);
      expect(heightAt(y + height), id).toBeCloseTo(low, 1);
    }

    const { points } = columnPotential(machine, checkMachine(machine).prediction.discharge * 1000);
    const line = (await page.locator('.rail .potential').getAttribute('d'))!
      .slice(1)
      .split(' L')
      .map((pair) => pair.split(' ').map(Number) as [number, number]);
    // Its ends go on upright, beyond the column.
    const within = line.slice(1, -1);
    expect(within).toHaveLength(points.length);
    expect(points.length).toBeGreaterThan(20);
    const rise = points.at(-1)!.kilovolts - points[0]!.kilovolts;
    const full = within.at(-1)![0] - within[0]![0];
    for (const [i, { z, kilovolts }] of points.entries()) {
      const [x, y] = within[i]!;
      expect(heightAt(y)).toBeCloseTo(z, 1);
      expect((x - within[0]![0]) / full).toBeCloseTo((kilovolts - points[0]!.kilovolts) / rise, 6);
    }
    expect(line[0]![0]).toBe(within[0]![0]);
    expect(line.at(-1)![0]).toBe(within.at(-1)![0]);
    expect(complaints).toEqual([]);
  });
});

describe('the rail', { timeout: 3 * PATIENCE }, () => {
  it('marks what the pointer is on in the scene, lights it there, and opens findings by their pins', async () => {
    const { page, complaints } = await openStarter(browser(), 'inch-built', {
      viewport: { width: 1440, height: 900 },
    });
    const machine = starterMachine('inch-built');
    const lit = () =>
      page.evaluate(() =>
        document
          .querySelector<SceneHost>('.canvas')!
          .scene.drawnPieces.filter(({ faces }) => faces.material.emissiveIntensity > 0)
          .map(({ piece }) => piece.id),
      );
    const edge = (id: string) =>
      page
        .locator(`.rail [data-item="piece:${id}"] .bar`)
        .evaluate((bar) => Number.parseFloat(getComputedStyle(bar).strokeWidth));
    const plain = await edge('plate');

    // From the scene: the front of the plate's rim.
    const eye = await page.evaluate(
      () => document.querySelector<SceneHost>('.canvas')!.scene.stage.direction,
    );
    const out = machine.plate.diameter / 2 / Math.hypot(eye.x, eye.y);
    const [at] = await onScreen(page, [[out * eye.x, out * eye.y, -machine.plate.thickness / 2]]);
    await page.mouse.move(at!.x, at!.y);
    await expect.poll(() => edge('plate')).toBeGreaterThan(plain);
    expect(await lit()).toEqual(['plate']);

    // From the rail, by pointer and by key.
    await page.locator('.rail [data-item="piece:tube"] .bar').hover({ position: { x: 3, y: 60 } });
    await expect.poll(lit).toEqual(['tube']);
    expect(await edge('plate')).toBe(plain);
    await page.mouse.move(1400, 450);
    await expect.poll(lit).toEqual([]);
    await page.locator('.canvas canvas').focus();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Shift+Tab');
    const first = await page.evaluate(() => (document.activeElement as HTMLElement).dataset.item);
    expect(first).toBe('piece:terminal-seat-head');
    await expect.poll(lit).toEqual(['terminal-seat-head']);

    // Pins, one pressed and one chosen by key, open in the list with their numbers.
    const { findings } = checkMachine(machine);
    const opened = async (id: string) => {
      const finding = findings.find((each) => each.id === id)!;
      const { measured, bound, unit, spare } = findingNumbers(finding);
      const rows = await page
        .locator('.finding.open dl > div')
        .evaluateAll((all) =>
          Object.fromEntries(
            all.map((row) => [row.querySelector('dt')!.textContent, row.querySelector('dd')!.textContent]),
          ),
        );
      const { 'runs along': surfaces, ...others } = rows;
      expect(surfaces).toBe(finding.at && 'path' in finding.at ? finding.at.surfaces.join(' → ') : undefined);
      expect(others).toEqual({
        measured: `${measured} ${unit}`,
        required: `${bound} ${unit}`,
        margin: spare,
        basis: `${finding.basis} [${finding.status}]`,
        remedy: finding.remedy,
      });
    };
    await page.locator('.rail [data-item="finding:way/column-outer"] .shape').click();
    await opened('way/column-outer');
    await page.keyboard.press('ArrowDown');
    const next = await page.evaluate(() => (document.activeElement as HTMLElement).dataset.item!);
    expect(next).toMatch(/^finding:/);
    expect(next).not.toBe('finding:way/column-outer');
    await page.keyboard.press('Enter');
    await opened(next.replace('finding:', ''));
    await page.keyboard.press('Escape');
    expect(await page.locator('.finding.open').count()).toBe(0);
    expect(await page.evaluate(() => (document.activeElement as HTMLElement).dataset.item)).toBe(next);

    // Escape lets go in the list too, from what opened under the finding, and the focus stays there.
    const listed = page.locator('[data-finding="way/column-outer"]');
    await listed.press('Enter');
    await page.locator('.finding.open button.try').first().press('Escape');
    expect(await page.evaluate(() => globalThis.tubewright.finding.value)).toBeUndefined();
    expect(await listed.evaluate((each) => each === document.activeElement)).toBe(true);
    expect(complaints).toEqual([]);
  });
});
