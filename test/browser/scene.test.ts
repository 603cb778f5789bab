import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { assembly, fitInWords, fitPlaces, type Vec3 } from '../../parts/index.js';
import { CHORD_TOLERANCE } from '../../parts/solid/facets.js';
import { STARTERS, starterMachine, starterText } from '../helpers/machines.js';
import { swap } from '../helpers/program.js';
import {
  browserForTests,
  coloursOf,
  exportedPage,
  onScreen,
  openPage,
  openStarter,
  PATIENCE,
  type SceneHost,
  settled,
  value,
} from './on-page.js';

// The scene in a real browser: what is drawn, and what each control under it does, once by pointer and once by key.

const browser = browserForTests();

const canvasBox = async (page: Page) => (await page.locator('.canvas canvas').boundingBox())!;

/** Everything that stands in the scene, with its place and whether it is shown. */
function pieces(page: Page) {
  return page.evaluate(() =>
    document.querySelector<SceneHost>('.canvas')!.scene.drawnPieces.map(({ piece, faces, placement }) => ({
      id: piece.id,
      placement,
      shown: faces.visible,
      opacity: faces.material.opacity,
      clipped: (faces.material.clippingPlanes ?? []).length > 0,
    })),
  );
}

/** Clicks a slider at a share of its length. */
async function slideTo(page: Page, id: string, share: number): Promise<void> {
  const box = (await page.locator(`#${id}`).boundingBox())!;
  await page.mouse.click(box.x + box.width * share, box.y + box.height / 2);
}

describe.each(STARTERS)('the page of %s', (starter) => {
  it('opens from its file and shows every piece, whole, with nothing to complain of', {
    timeout: PATIENCE,
  }, async () => {
    const { page, complaints } = await openStarter(browser(), starter);
    const wanted = assembly(starterMachine(starter));
    expect((await pieces(page)).map(({ id }) => id).sort()).toEqual(wanted.map(({ id }) => id).sort());
    const { count, most } = await coloursOf(page);
    expect(count).toBeGreaterThan(300);
    expect(most).toBeLessThan(0.97);
    const { tube, terminal, plate } = starterMachine(starter);
    const places = await onScreen(page, [
      [0, 0, terminal.topZ],
      [terminal.diameter.mean / 2, 0, terminal.centreZ],
      [-plate.diameter / 2, 0, 0],
      [plate.diameter / 2, 0, -plate.thickness],
      [0, 0, tube.footZ],
    ]);
    const box = await canvasBox(page);
    for (const { x, y } of places) {
      expect(x).toBeGreaterThan(box.x);
      expect(x).toBeLessThan(box.x + box.width);
      expect(y).toBeGreaterThan(box.y);
      expect(y).toBeLessThan(box.y + box.height);
    }
    expect(complaints).toEqual([]);
  });
});

describe('the first view', { timeout: PATIENCE }, () => {
  it.each([
    ['a small', '640', '120'],
    ['a tall', '640', '1900'],
  ])('shows %s machine as large as there is room', async (_, from, to) => {
    const folder = mkdtempSync(join(tmpdir(), 'tubewright-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    const file = join(folder, 'machine.yaml');
    const text = swap(`length: ${from}`, `length: ${to}`)(starterText('travelling-demonstrator'));
    writeFileSync(file, text);
    const { page, complaints } = await openPage(browser(), exportedPage(file));
    await settled(page);
    const { terminal, plate } = starterMachine('travelling-demonstrator', () => text);
    const [top, bottom] = await onScreen(page, [
      [0, 0, terminal.topZ],
      [0, 0, -plate.thickness - plate.feet],
    ]);
    const box = await canvasBox(page);
    expect(top!.y).toBeGreaterThan(box.y);
    expect(bottom!.y).toBeLessThan(box.y + box.height);
    expect(bottom!.y - top!.y).toBeGreaterThan(0.45 * box.height);
    expect(complaints).toEqual([]);
  });
});

describe('the scene', { timeout: 3 * PATIENCE }, () => {
  it('draws nothing while nothing happens', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    const frames = () =>
      page.evaluate(() => document.querySelector<SceneHost>('.canvas')!.scene.stage.frames);
    const before = await frames();
    await page.waitForTimeout(700);
    expect(await frames()).toBe(before);
    // And the counter counts.
    await page.locator('.canvas canvas').press('ArrowLeft');
    await expect.poll(frames).toBeGreaterThan(before);
  });

  it('comes apart along the moves of its parts, by pointer and by key', async () => {
    const { page, complaints } = await openStarter(browser(), 'travelling-demonstrator');
    const together = await pieces(page);
    await slideTo(page, 'apart', 0.5);
    const share = await value<number>(page, 'apart');
    expect(share).toBeGreaterThan(0.4);
    expect(share).toBeLessThan(0.6);
    const half = await pieces(page);
    const moved = (id: string, now: typeof half) => {
      const [a, b] = [together, now].map((all) => all.find((each) => each.id === id)!.placement.move);
      return a!.map((at, axis) => b![axis]! - at);
    };
    // The terminal is off, straight up; the plate stays; the mount is not off yet.
    const [x, y, z] = moved('terminal', half);
    expect([x, y]).toEqual([0, 0]);
    expect(z).toBeGreaterThan(60);
    expect(moved('plate', half)).toEqual([0, 0, 0]);
    expect(moved('tube-mount', half)).toEqual([0, 0, 0]);
    expect(await page.locator('output[for=apart]').textContent()).toMatch(/\d+\/\d+ .+/);

    await page.locator('#apart').press('End');
    expect(await value(page, 'apart')).toBe(1);
    const apart = await pieces(page);
    expect(moved('tube-mount', apart)[2]).toBeGreaterThan(30);
    expect(moved('base-skirt', apart)[2]).toBeLessThan(-30);
    // All of it is in the picture.
    const top = apart.find(({ id }) => id === 'terminal')!.placement.move[2]! + 200;
    const [where] = await onScreen(page, [[0, 0, top]]);
    expect(where!.y).toBeGreaterThan((await canvasBox(page)).y);
    await page.locator('#apart').press('Home');
    expect(await pieces(page)).toEqual(together);
    expect(complaints).toEqual([]);
  });

  it('is cut open and filled, turns the cut, and tells each fit its clearance', async () => {
    const { page, complaints } = await openStarter(browser(), 'travelling-demonstrator');
    const machine = starterMachine('travelling-demonstrator');
    const section = () =>
      value<{ angle: number; faces: { piece: string; loops: [number, number][][] }[] } | undefined>(
        page,
        'section',
      );
    expect(await section()).toBeUndefined();
    await page.locator('#cut-on').click();
    await expect.poll(async () => (await section())?.angle).toBe(0);
    const area = (loops: [number, number][][]) =>
      loops.reduce(
        (sum, loop) =>
          sum +
          loop.reduce((part, [x, z], i) => {
            const [nx, nz] = loop[(i + 1) % loop.length]!;
            return part + (x * nz - nx * z) / 2;
          }, 0),
        0,
      );
    const { tube, plate } = machine;
    const faces = (await section())!.faces;
    const wall = (tube.outer.mean - tube.inner.likely) / 2;
    const cut = area(faces.find(({ piece }) => piece === 'tube')!.loops);
    // Facets stand off the circle by as much as the chord tolerance, on both sides of both walls.
    expect(Math.abs(cut - 2 * wall * tube.length)).toBeLessThan(4 * CHORD_TOLERANCE * tube.length);
    expect((await pieces(page)).every(({ clipped }) => clipped)).toBe(true);
    const filled = await page.evaluate(() => document.querySelector<SceneHost>('.canvas')!.scene.filledFaces);
    expect(filled).toEqual(expect.arrayContaining(['tube', 'plate', 'tube-mount', 'terminal', 'belt']));
    expect(filled).toEqual(faces.filter(({ loops }) => loops.length > 0).map(({ piece }) => piece));

    const callouts = () => page.locator('.callouts .fit').allTextContents();
    const told = (id: string) => {
      const { fit } = fitPlaces(machine).find((each) => each.fit.id === id)!;
      return `${fit.title}${fitInWords(fit)}`;
    };
    expect((await callouts()).sort()).toEqual(
      [told('fit/pilot-on-tube'), told('fit/rim-ring-in-tube'), told('fit/guides-in-opening')].sort(),
    );

    // By key, to where the rollers are cut along, and on all the way round.
    await page.locator('#cut').focus();
    await page.keyboard.press('PageUp');
    const turned = () => value<{ angle: number }>(page, 'cut').then(({ angle }) => angle);
    await expect.poll(turned).toBe(90);
    for (const angle of [0, 270, 0]) {
      await page.keyboard.press(angle === 0 && (await turned()) === 270 ? 'PageUp' : 'PageDown');
      await expect.poll(turned).toBe(angle);
    }
    await page.keyboard.press('PageUp');
    await page.keyboard.press('ArrowRight');
    await expect.poll(turned).toBe(91);
    const { angle } = await value<{ angle: number }>(page, 'cut');
    await expect.poll(async () => (await section())?.angle).toBe(angle);
    await slideTo(page, 'cut', 90 / 355);
    await expect.poll(async () => Math.abs(((await section())?.angle ?? 0) - 90)).toBeLessThan(6);
    await expect.poll(callouts).toContain(told('fit/bearing-upper-in-hub'));
    // The eye has turned along: it looks at the cut.
    const eye = await page.evaluate(
      () => document.querySelector<SceneHost>('.canvas')!.scene.stage.direction,
    );
    expect(eye.x).toBeGreaterThan(0.8);

    // A callout brings its fit near.
    await page.locator('.callouts .fit').first().press('Enter');
    await expect
      .poll(() => value<[number, number]>(page, 'heights').then(([low, high]) => high - low))
      .toBeLessThan(60);
    await page.locator('#cut-on').press(' ');
    await expect.poll(section).toBeUndefined();
    expect((await pieces(page)).some(({ clipped }) => clipped)).toBe(false);
    expect(await callouts()).toEqual([]);
    expect(plate.diameter).toBe(300);
    expect(complaints).toEqual([]);
  });

  it('shows and hides what is asked for, by pointer and by key', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    const shown = async () => (await pieces(page)).filter((piece) => piece.shown).map(({ id }) => id);
    const all = await shown();
    await page.locator('.layers summary').click();
    await page.locator('#layer-terminal').click();
    expect(await shown()).toEqual(all.filter((id) => id !== 'terminal'));
    await page.locator('#layer-printed').press(' ');
    expect((await shown()).sort()).toEqual(
      assembly(starterMachine('travelling-demonstrator'))
        .filter(({ printed, id }) => !printed && id !== 'terminal')
        .map(({ id }) => id)
        .sort(),
    );
    await page.locator('#layer-printed').press(' ');
    await page.locator('#layer-terminal').click();
    expect(await shown()).toEqual(all);
    // Out of the way again, by key and by going on elsewhere.
    const isOpen = () => page.locator('.layers').evaluate((each) => (each as HTMLDetailsElement).open);
    await page.locator('#layer-terminal').press('Escape');
    expect(await isOpen()).toBe(false);
    await page.locator('.layers summary').press('Enter');
    expect(await isOpen()).toBe(true);
    await page.locator('#apart').focus();
    expect(await isOpen()).toBe(false);
  });

  it('tells the distance between two surfaces, pointed at or turned to', async () => {
    const { page, complaints } = await openStarter(browser(), 'travelling-demonstrator');
    const { tube, plate } = starterMachine('travelling-demonstrator');
    await page.locator('#measure').click();
    const eye = await page.evaluate(
      () => document.querySelector<SceneHost>('.canvas')!.scene.stage.direction,
    );
    const flat = Math.hypot(eye.x, eye.y);
    const facing = (radius: number, z: number): Vec3 => [(radius * eye.x) / flat, (radius * eye.y) / flat, z];
    const press = async (point: Vec3) => {
      const [at] = await onScreen(page, [point]);
      await page.mouse.click(at!.x, at!.y);
    };
    await press(facing(tube.outer.mean / 2, 300));
    await press(facing(plate.diameter / 2, -plate.thickness / 2));
    const picked = () =>
      page.evaluate(() => {
        const { picks, gap } = document.querySelector<SceneHost>('.canvas')!.scene;
        return { pieces: picks.value.map(({ piece }) => piece), gap: gap.value?.distance };
      });
    expect((await picked()).pieces).toEqual(['tube', 'plate']);
    const expected = Math.hypot(plate.diameter / 2 - tube.outer.mean / 2, tube.footZ);
    expect((await picked()).gap).toBeCloseTo(expected, 1);
    await expect.poll(() => page.locator('.measured').textContent()).toContain('mm apart');
    expect(await page.locator('.labels .gap').textContent()).toBe(`${(await picked()).gap!.toFixed(2)} mm`);

    // By key: what is in the middle of the picture, turned for the second.
    await page.locator('.canvas canvas').focus();
    await page.keyboard.press('Escape');
    expect((await picked()).pieces).toEqual([]);
    await page.keyboard.press('Home');
    await page.keyboard.press('Enter');
    expect((await picked()).pieces).toHaveLength(1);
    await page.keyboard.press('PageUp');
    await page.keyboard.press('Enter');
    expect((await picked()).pieces).toHaveLength(2);
    expect((await picked()).gap).toBeGreaterThanOrEqual(0);
    await page.locator('#measure').press('Enter');
    expect((await picked()).pieces).toEqual([]);
    expect(complaints).toEqual([]);
  });

  it('is turned, neared and lifted by keys, and shows all of it again', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    const view = () =>
      page.evaluate(() => {
        const { stage } = document.querySelector<SceneHost>('.canvas')!.scene;
        const { position, target } = stage.view;
        return { eye: stage.direction, distance: position.distanceTo(target), z: target.z };
      });
    const canvas = page.locator('.canvas canvas');
    const first = await view();
    await canvas.press('ArrowRight');
    const turned = await view();
    const angle = (eye: { x: number; y: number }) => Math.atan2(eye.y, eye.x);
    expect(angle(turned.eye) - angle(first.eye)).toBeCloseTo(Math.PI / 24, 3);
    await canvas.press('ArrowUp');
    expect((await view()).eye.z).toBeGreaterThan(turned.eye.z);
    await canvas.press('ArrowDown');
    await canvas.press('+');
    expect((await view()).distance).toBeCloseTo(first.distance * 0.85, 0);
    await canvas.press('-');
    await canvas.press('PageUp');
    expect((await view()).z).toBeGreaterThan(first.z);
    await canvas.press('Home');
    const [top] = await onScreen(page, [[0, 0, starterMachine('travelling-demonstrator').terminal.topZ]]);
    expect(top!.y).toBeGreaterThan((await canvasBox(page)).y);
    await page.getByRole('button', { name: 'show all' }).click();
    await page.mouse.move(400, 300);
    await page.mouse.wheel(0, -300);
    await expect.poll(async () => (await view()).distance).toBeLessThan(first.distance);
    await page.getByRole('button', { name: 'show all' }).press('Enter');
    expect((await view()).distance).toBeGreaterThan(0.8 * first.distance);
  });

  it('knows what the pointer is on, chooses it and lets it go', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    const [tube] = await onScreen(page, [[0, 0, 300]]);
    await page.mouse.move(tube!.x, tube!.y);
    await expect.poll(() => value(page, 'hover')).toBe('tube');
    await page.mouse.click(tube!.x, tube!.y);
    expect(await value(page, 'piece')).toBe('tube');
    const faded = (await pieces(page)).filter(({ opacity }) => opacity < 0.15).map(({ id }) => id);
    expect(faded).toContain('tube-mount');
    expect(faded).not.toContain('tube');
    await page.locator('.canvas canvas').press('Escape');
    expect(await value(page, 'piece')).toBeUndefined();
    expect((await pieces(page)).find(({ id }) => id === 'tube-mount')!.opacity).toBe(1);
    await page.locator('.canvas canvas').press('Home');
    await page.locator('.canvas canvas').press('Enter');
    expect(await value(page, 'piece')).toEqual(expect.any(String));
  });

  it('hands out its picture', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    for (const press of [
      () => page.getByRole('button', { name: 'picture' }).click(),
      () => page.getByRole('button', { name: 'picture' }).press('Enter'),
    ]) {
      const [download] = await Promise.all([page.waitForEvent('download'), press()]);
      expect(download.suggestedFilename()).toBe('travelling-demonstrator.png');
      const bytes = readFileSync(await download.path());
      expect(bytes.subarray(1, 4).toString()).toBe('PNG');
      const box = await canvasBox(page);
      expect(bytes.readUInt32BE(16)).toBe(2 * Math.round(box.width));
      expect(bytes.readUInt32BE(20)).toBe(2 * Math.round(box.height));
    }
  });
});
