import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { formatProblem, readMachineFile, withWritten } from '../../parts/index.js';
import { fieldId } from '../../viewer/session/fields.js';
import { starterMachine, starterText } from '../helpers/machines.js';
import { browserForTests, openStarter, PATIENCE, type SceneHost, settled, textOf } from './on-page.js';

// Values edited in place: what is built, what is said, what the text becomes.

const browser = browserForTests();
const TEXT = starterText('travelling-demonstrator');
const OUTER = 'column.tube.outer';

/** Pieces that the last build made, without codes and dimensions. */
const rebuilt = (page: Page) =>
  page.evaluate(() =>
    (globalThis.tubewright.lastBuild.value?.keys ?? [])
      .map((key) => (key.startsWith('[') ? (JSON.parse(key)[0] as string) : key.split(' ')[0]!))
      .sort(),
  );
/** Largest radius of the tube as it is drawn, mm. */
const tubeRadius = (page: Page) =>
  page.evaluate(() => {
    const { drawnPieces } = document.querySelector<SceneHost>('.canvas')!.scene;
    const { positions } = drawnPieces.find(({ piece }) => piece.id === 'tube')!.geometry.dressed.mesh;
    let radius = 0;
    for (let i = 0; i < positions.length; i += 3) {
      radius = Math.max(radius, Math.hypot(positions[i]!, positions[i + 1]!));
    }
    return radius;
  });
const drawnTube = (page: Page) =>
  page.evaluate(() => {
    const { drawnPieces } = document.querySelector<SceneHost>('.canvas')!.scene;
    const { faces } = drawnPieces.find(({ piece }) => piece.id === 'tube')!;
    return { opacity: faces.material.opacity, z: faces.matrix.elements[14]! };
  });
const field = (key: string, number?: number) => `#${fieldId(key, number)}`;

async function openStock(page: Page): Promise<void> {
  await page.locator('#tab-stock').click();
  await page.locator(field(OUTER, 1)).waitFor();
}
/** Waits until the working text is this one and its machine is drawn. */
async function becomes(page: Page, text: string): Promise<void> {
  await expect.poll(() => textOf(page), { timeout: 10_000 }).toBe(text);
  await settled(page);
}

describe('a value edited in place', { timeout: 3 * PATIENCE }, () => {
  it('rebuilds only what it touches, marks it to be printed again, and is undone', async () => {
    const { page, complaints } = await openStarter(browser(), 'travelling-demonstrator');
    await openStock(page);
    const items = ['79.6', '80.3', '79.8', '80.2'];
    const fatter = withWritten(TEXT, OUTER, ['80.4', ...items.slice(1)]);
    await page.locator(field(OUTER, 1)).fill('80.4');
    await becomes(page, fatter);
    expect(await rebuilt(page)).toEqual(['rim-ring', 'tube', 'tube-mount']);
    const machine = starterMachine('travelling-demonstrator', () => fatter);
    expect(await tubeRadius(page)).toBeCloseTo(machine.tube.outer.mean / 2, 3);
    // It is drawn as it was: seen through, and in its place when the machine is apart.
    expect(await drawnTube(page)).toMatchObject({ opacity: 0.2, z: machine.tube.footZ });
    // Every other line of the file is as it was.
    const [before, after] = [TEXT, fatter].map((text) => text.split('\n'));
    expect(after!.filter((line, i) => line !== before![i])).toHaveLength(1);

    await page.locator('#tab-print').press('Enter');
    const again = page.locator('.print-list [data-part]').filter({ hasText: 'print again' });
    expect(await again.evaluateAll((all) => all.map((each) => (each as HTMLElement).dataset.part))).toEqual([
      'tube-mount',
      'rim-ring',
      'tube-end-guide',
    ]);
    expect(await again.first().textContent()).toMatch(/pilot bore, radius [\d.]+ → [\d.]+ mm/);

    await page.locator('#apart').fill('1');
    const { z: out } = await drawnTube(page);
    expect(out).toBeGreaterThan(60);
    await page.locator('#undo').click();
    await becomes(page, TEXT);
    expect((await drawnTube(page)).z).toBeCloseTo(out, 0);
    await page.locator('#apart').fill('0');
    expect(await tubeRadius(page)).toBeCloseTo(
      starterMachine('travelling-demonstrator').tube.outer.mean / 2,
      3,
    );
    await page.locator('#redo').press('Enter');
    await becomes(page, fatter);
    await page.keyboard.press('Control+z');
    await becomes(page, TEXT);
    await page.keyboard.press('Control+Shift+Z');
    await becomes(page, fatter);
    await page.locator('#back-to-file').click();
    await becomes(page, TEXT);
    expect(complaints).toEqual([]);
  });

  it('takes several readings: typed, added, removed, shifted and nudged', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    await openStock(page);
    const id = fieldId(OUTER);
    await page.locator(`#more-${id}`).click();
    await becomes(page, withWritten(TEXT, OUTER, ['79.7', '80.4', '79.9', '80.3']));
    await page.locator(`#less-${id}`).press('Enter');
    await becomes(page, TEXT);
    await page.locator(`#add-${id}`).press('Enter');
    await page.keyboard.type('80.0');
    await becomes(page, withWritten(TEXT, OUTER, ['79.6', '80.3', '79.8', '80.2', '80.0']));
    await page.locator(`#remove-${id}-1`).click();
    await becomes(page, withWritten(TEXT, OUTER, ['80.3', '79.8', '80.2', '80.0']));
    await page.locator(field(OUTER, 1)).press('ArrowUp');
    await becomes(page, withWritten(TEXT, OUTER, ['80.4', '79.8', '80.2', '80.0']));
    expect(await page.locator(`#summary-${id}`).textContent()).toBe('mean 80.1, spread 0.6 mm');
    // Strokes in one field are one step back.
    const length = field('column.tube.length');
    await page.locator(length).press('End');
    await page.locator(length).pressSequentially('.55', { delay: 30 });
    await becomes(page, withWritten(await textOf(page), 'column.tube.length', ['640.55']));
    await page.locator(length).blur();
    await page.keyboard.press('Control+z');
    await becomes(page, withWritten(TEXT, OUTER, ['80.4', '79.8', '80.2', '80.0']));
  });

  it('says what the command line says of a wrong one, keeps the last good machine, and recovers', async () => {
    const { page, complaints } = await openStarter(browser(), 'travelling-demonstrator');
    await openStock(page);
    const input = page.locator(field('column.tube.length'));
    await input.focus();
    await input.press('End');
    await page.keyboard.type('O mm');
    const wrong = withWritten(TEXT, 'column.tube.length', ['640O mm']);
    await expect.poll(() => textOf(page)).toBe(wrong);
    const read = readMachineFile(wrong, 'travelling-demonstrator.yaml');
    const problems = read.ok ? [] : read.problems;
    expect(problems).toHaveLength(1);
    const words = formatProblem(problems[0]!).replace(/^[^ ]+ /, '');
    await expect.poll(() => page.locator('.problems').textContent()).toContain(words);
    expect(await page.locator('.problems').textContent()).toContain(`line ${problems[0]!.line}`);
    expect(await input.getAttribute('aria-invalid')).toBe('true');
    // What was typed stands there, and the caret behind it.
    expect(await input.inputValue()).toBe('640O mm');
    expect(await input.evaluate((each) => each === document.activeElement)).toBe(true);
    expect(await page.evaluate(() => globalThis.tubewright.shown.value!.name)).toBe(
      'Travelling demonstrator',
    );
    expect((await rebuilt(page)).length).toBeGreaterThan(10);

    await page.keyboard.press('Home');
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Delete');
    await becomes(page, withWritten(TEXT, 'column.tube.length', ['640 mm']));
    expect(await page.locator('.problems').textContent()).toBe('');
    // Two values that do not go together.
    await page.locator(field('belt.width')).fill('90');
    await expect.poll(() => page.locator('.problems').textContent()).toContain('found');
    await page.locator(field('belt.width')).fill('45');
    await becomes(page, withWritten(TEXT, 'column.tube.length', ['640 mm']));
    expect(complaints).toEqual([]);
  });

  it('states, chooses and leaves out, by pointer and by key', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    await openStock(page);
    const style = 'combs.lower.style';
    await page.locator(field(style)).selectOption('needles');
    await becomes(page, withWritten(TEXT, style, ['needles']));
    await page.locator(field(style)).focus();
    await page.keyboard.press('ArrowUp');
    await becomes(page, TEXT);
    const bearing = 'rollers.upper.bearing';
    await page.locator(field(bearing)).fill('696 2RS');
    await expect.poll(() => textOf(page)).toBe(withWritten(TEXT, bearing, ['696 2RS']));
    await page.locator(`#back-${fieldId(bearing)}`).press('Enter');
    await becomes(page, TEXT);
    // A default that is assumed is stated, and left out again.
    const crown = 'rollers.upper.crown';
    await page.locator(`#state-${fieldId(crown)}`).click();
    await becomes(page, withWritten(TEXT, crown, ['0']));
    await page.locator(`#leave-${fieldId(crown)}`).press('Enter');
    await becomes(page, TEXT);
    const leaveLip = page.locator(`#leave-${fieldId('terminal.opening.lip')}`);
    await leaveLip.click();
    await becomes(page, withWritten(TEXT, 'terminal.opening.lip', undefined));
    await page.keyboard.press('Control+z');
    await becomes(page, TEXT);
  });

  it('in inches stays in inches', async () => {
    const { page } = await openStarter(browser(), 'inch-built');
    await openStock(page);
    const inches = starterText('inch-built');
    expect(await page.locator(field(OUTER, 3)).inputValue()).toBe('3 1/2 in');
    await page.locator(field(OUTER, 1)).press('ArrowUp');
    await becomes(page, withWritten(inches, OUTER, ['3.497', '3.508', '3 1/2 in', '3.497']));
    expect(await page.locator(`#summary-${fieldId(OUTER)}`).textContent()).toMatch(
      /^mean 3\.50\d*, spread .* in$/,
    );
  });

  it('is built while the page answers, and says so when it takes its time', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    await openStock(page);
    // Everything is built anew for another printer; three times, so that it takes long enough on any machine.
    const seen = await page.evaluate(async () => {
      const { tubewright: store } = globalThis;
      const said = new Set<string>();
      let frames = 0;
      let longest = 0;
      let last = performance.now();
      let on = true;
      const tick = () => {
        const now = performance.now();
        longest = Math.max(longest, now - last);
        last = now;
        frames++;
        if (store.progress.value) said.add(document.querySelector('[role=status].status')!.textContent);
        if (on) setTimeout(tick, 5);
      };
      tick();
      const began = performance.now();
      store.write('print.calibration.hole', ['-0.25']);
      while (store.busy.value) await new Promise((resolve) => setTimeout(resolve, 5));
      on = false;
      return { said: [...said], frames, took: performance.now() - began, longest };
    });
    expect(seen.frames).toBeGreaterThan(10);
    expect(seen.took).toBeGreaterThan(330);
    expect(
      seen.said.some((line) => /^building [a-z-]+ \d+\/\d+/.test(line)),
      seen.said.join('; '),
    ).toBe(true);
    // Longer than a frame, since what came is drawn in software; far less than the build.
    expect(seen.longest).toBeLessThan(seen.took);
  });
});
