import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { type FieldPicture, number, withWritten } from '../../parts/index.js';
import { contourLines } from '../../viewer/field/contours.js';
import { starterMachine, starterText } from '../helpers/machines.js';
import {
  browserForTests,
  coloursOf,
  onScreen,
  openStarter,
  PATIENCE,
  type SceneHost,
  settled,
  value,
} from './on-page.js';

// The solved field on the page: painted on the cut, told in words, and solved anew after an edit.

const browser = browserForTests();
const STARTER = 'travelling-demonstrator';

/** The picture that the page has got, its arrays as plain numbers. */
const pictureOf = (page: Page) =>
  page.evaluate(() => {
    const picture = globalThis.tubewright.field.picture.value;
    if (!picture) return undefined;
    const { grid, lines } = picture;
    return {
      ...picture,
      grid: { ...grid, share: [...grid.share].map((each) => (Number.isNaN(each) ? null : each)) },
      lines: lines.map((line) => [...line]),
    };
  });
type Picture = NonNullable<Awaited<ReturnType<typeof pictureOf>>>;
const gridOf = ({ grid }: Picture): FieldPicture['grid'] => ({
  ...grid,
  share: Float32Array.from(grid.share, (each) => each ?? Number.NaN),
});

/** The colour on the screen at a place of the scene, 0 to 255. */
async function colourAt(page: Page, { x, y }: { readonly x: number; readonly y: number }): Promise<number[]> {
  const shot = await page.screenshot({
    clip: { x: Math.round(x) - 1, y: Math.round(y) - 1, width: 3, height: 3 },
  });
  return page.evaluate(
    async (bytes) => {
      const bitmap = await createImageBitmap(new Blob([Uint8Array.from(bytes)], { type: 'image/png' }));
      const pen = new OffscreenCanvas(3, 3).getContext('2d')!;
      pen.drawImage(bitmap, 0, 0);
      return [...pen.getImageData(1, 1, 1, 1).data.slice(0, 3)];
    },
    [...shot],
  );
}

const strip = async (page: Page) => (await page.locator('.field-strip').textContent())!.replace(/\s+/g, ' ');

describe('the field', { timeout: 3 * PATIENCE }, () => {
  it('cuts the machine open, paints the cut and says what the colours mean', async () => {
    const { page, complaints } = await openStarter(browser(), STARTER, {
      viewport: { width: 1440, height: 900 },
    });
    expect(await page.locator('.field-strip').count()).toBe(0);
    const before = await coloursOf(page);
    await page.locator('#field').click();
    await settled(page);
    expect(await page.locator('#field').getAttribute('aria-pressed')).toBe('true');
    expect((await value<{ on: boolean }>(page, 'cut')).on).toBe(true);
    await expect
      .poll(() => page.evaluate(() => document.querySelector<SceneHost>('.canvas')!.scene.fieldIsPainted))
      .toBe(true);
    await page.waitForTimeout(300);
    const after = await coloursOf(page);
    // What was one colour of paper is painted from clear to dark.
    expect(after.most).toBeLessThan(before.most - 0.05);

    const picture = (await pictureOf(page))!;
    const machine = await page.evaluate(() => {
      const { prediction, findings } = globalThis.tubewright.shown.value!;
      return { discharge: prediction.discharge, ids: findings.map(({ id }) => id) };
    });
    expect(picture.voltage).toBeCloseTo(1000 * machine.discharge, 6);
    const words = await strip(page);
    expect(words).toContain(`${number(picture.critical / 1e5)} kV/cm`);
    expect(words).toContain(`with the terminal at ${number(machine.discharge)} kV`);
    expect(words).toContain('over 100 %: air ionises there; that is not yet a spark across');
    expect(words).toContain(picture.weakest.title);
    for (const line of picture.idealised) expect(words).toContain(line);
    const marked = page.locator('.labels .weakest');
    expect(await marked.textContent()).toContain(picture.weakest.title);

    // The colour follows the field: nearer to the terminal more, and alike on both sides.
    const { terminal } = starterMachine(STARTER);
    const radius = terminal.diameter.max / 2;
    const at = (factor: number, side: number) => [side * factor * radius, 0, terminal.centreZ] as const;
    const [near, far, mirrored] = await onScreen(page, [at(1.12, -1), at(1.7, -1), at(1.12, 1)]);
    const light = async (place: typeof near) =>
      (await colourAt(page, place!)).reduce((sum, each) => sum + each, 0);
    expect(await light(near)).toBeLessThan((await light(far)) - 30);
    expect(Math.abs((await light(near)) - (await light(mirrored)))).toBeLessThan(40);

    // Closing the cut puts it away.
    await page.locator('#cut-on').uncheck();
    expect(await page.locator('.field-strip').count()).toBe(0);
    expect(await page.locator('.labels .weakest').count()).toBe(0);
    await page.locator('.layers summary').click();
    await page.locator('#layer-field-lines').check();
    await settled(page);
    expect(await page.locator('#layer-field').isChecked()).toBe(true);
    expect((await value<{ on: boolean }>(page, 'cut')).on).toBe(true);
    expect(complaints).toEqual([]);
  });

  it('leads from its weakest place to the finding', async () => {
    const { page } = await openStarter(browser(), STARTER);
    await page.locator('#field').press('Enter');
    await settled(page);
    const { weakest } = (await pictureOf(page))!;
    const isFinding = await page.evaluate(
      (id) => globalThis.tubewright.machine.value!.findings.some((each) => each.id === id),
      weakest.id,
    );
    const button = page.locator('.field-weakest button');
    expect(await button.count()).toBe(isFinding ? 1 : 0);
    // Named at its place, in the picture.
    const [place] = await onScreen(page, [[-weakest.at[0], 0, weakest.at[1]]]);
    const ring = await page.locator('.labels .weakest').boundingBox();
    expect(Math.hypot(ring!.x - place!.x, ring!.y - place!.y)).toBeLessThan(3);
    if (!isFinding) return;
    await button.press('Enter');
    expect(await value(page, 'finding')).toBe(weakest.id);
    await button.click();
    expect(await value(page, 'finding')).toBeUndefined();
    await page.locator('.labels .weakest span').dispatchEvent('pointerdown');
    expect(await value(page, 'finding')).toBe(weakest.id);
  });

  it('is shown for another voltage and for the other bound, solved for each', async () => {
    const { page, complaints } = await openStarter(browser(), STARTER);
    await page.locator('#field').click();
    await settled(page);
    const first = (await pictureOf(page))!;
    await page.locator('#field-voltage').press('PageUp');
    await page.locator('#field-voltage').press('ArrowRight');
    await settled(page);
    const kilovolts = Math.round(first.voltage / 1000) + 11;
    const told = await strip(page);
    expect(told).toContain(`with the terminal at ${number(kilovolts)} kV`);
    const more = (await pictureOf(page))!;
    expect(more.voltage).toBe(1000 * kilovolts);
    const highest = (picture: Picture) => Math.max(...picture.grid.share.map((each) => each ?? 0));
    expect(highest(more)).toBeGreaterThan(highest(first));
    expect(told).toContain(`Highest in the picture: ${Math.round(100 * highest(more))} %`);
    await page.locator('#field-voltage-back').click();
    await settled(page);
    expect(await pictureOf(page)).toEqual(first);
    expect(await strip(page)).toContain(`with the terminal at ${number(first.voltage / 1000)} kV`);

    await page.locator('#field-bound').selectOption('graded');
    await settled(page);
    const graded = (await pictureOf(page))!;
    expect(graded.bound).toBe('graded');
    expect(graded.grid.share).not.toEqual(first.grid.share);
    expect(complaints).toEqual([]);
  });

  it('is solved anew after an edit, and stays through one that is refused', async () => {
    const { page, complaints } = await openStarter(browser(), STARTER);
    await page.locator('#field').click();
    await settled(page);
    const first = (await pictureOf(page))!;
    const text = starterText(STARTER);
    const edit = (next: string) => page.evaluate((edited) => globalThis.tubewright.edit(edited), next);
    await edit(withWritten(text, 'column.tube.length', ['700']));
    await settled(page);
    const longer = (await pictureOf(page))!;
    expect(longer.grid.top - first.grid.top).toBeCloseTo(60, 0);
    const place = page.locator('.field-weakest');
    expect(await place.textContent()).toContain(`${Math.round(longer.weakest.at[1])} mm`);
    await edit(withWritten(text, 'column.tube.length', ['64O']));
    await settled(page);
    expect(await pictureOf(page)).toEqual(longer);
    // Several edits at once end with the field of the last.
    for (const length of ['660', '670', '640']) await edit(withWritten(text, 'column.tube.length', [length]));
    await settled(page);
    expect((await pictureOf(page))!.grid.top).toBeCloseTo(first.grid.top, 3);
    expect(complaints).toEqual([]);
  });

  it('stands in the drawing, with its lines at their levels', async () => {
    const { page, complaints } = await openStarter(browser(), STARTER);
    await page.locator('#drawing').check();
    await page.locator('#field').click();
    await settled(page);
    const picture = (await pictureOf(page))!;
    expect(await page.locator('.field-drawn image').getAttribute('href')).toMatch(/^data:image\/png/);
    for (const level of [0.1, 0.25, 0.5, 1]) {
      const wanted = contourLines(gridOf(picture), level);
      const path = (await page.locator(`.field-drawn [data-level="${level}"]`).getAttribute('d'))!;
      expect(path.split('M').length - 1, `${level}`).toBe(wanted.length);
      const [first] = wanted;
      if (first) expect(path.startsWith(`M${first[0]!.toFixed(2)} ${(-first[1]!).toFixed(2)}L`)).toBe(true);
    }
    expect(await page.locator('.field-lines').count()).toBe(0);
    await page.locator('#field-lines').check();
    expect((await page.locator('.field-lines').getAttribute('d'))!.split('M').length - 1).toBe(
      2 * picture.lines.length,
    );
    const named = await page.locator('.weakest-drawn tspan').allTextContents();
    expect(named.join(' ')).toBe(`weakest ${picture.weakest.title}`);
    // Back in the scene it is on the cut.
    await page.locator('#drawing').uncheck();
    expect((await value<{ on: boolean }>(page, 'cut')).on).toBe(true);
    expect(await page.locator('.field-strip').count()).toBe(1);
    expect(complaints).toEqual([]);
  });
});
