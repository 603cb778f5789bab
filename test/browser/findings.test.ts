import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {
  CAUTIONS,
  checkMachine,
  columnPotential,
  DISCHARGE,
  findingNumbers,
  metalware,
  number,
  QUANTITIES,
  readMachineFile,
  resolveMachine,
  type Trial,
  withValue,
} from '../../parts/index.js';
import { starterMachine, starterText } from '../helpers/machines.js';
import { browserForTests, openStarter, PATIENCE, type SceneHost, settled, textOf, value } from './on-page.js';

// Findings, rail, forecast and cautions: that they tell what the library says, and lead to one another.

const browser = browserForTests();
const TEXT = starterText('inch-built');
const checked = (text: string) => {
  const read = readMachineFile(text, 'inch-built.yaml');
  if (!read.ok) throw new Error(read.problems.map((each) => each.found).join());
  const machine = resolveMachine(read.values, read.assumed);
  return { machine, ...checkMachine(machine) };
};

/** Where a point of the machine is in the picture, from -1 to 1. */
const inPicture = (page: Page, point: readonly number[]) =>
  page.evaluate((at) => {
    const { camera } = document.querySelector<SceneHost>('.canvas')!.scene.stage;
    const { x, y } = camera.position.clone().set(at[0]!, at[1]!, at[2]!).project(camera);
    return [x, y];
  }, point);
const opacities = (page: Page) =>
  page.evaluate(() =>
    Object.fromEntries(
      document
        .querySelector<SceneHost>('.canvas')!
        .scene.drawnPieces.map(({ piece, faces }) => [piece.id, faces.material.opacity]),
    ),
  );

describe('the findings', { timeout: 3 * PATIENCE }, () => {
  it('are those of the library, lead to their place and let go', async () => {
    const { page, complaints } = await openStarter(browser(), 'inch-built');
    const { findings } = checked(TEXT);
    const ids = await page
      .locator('[data-finding]')
      .evaluateAll((all) => all.map((each) => (each as HTMLElement).dataset.finding));
    expect(ids).toEqual(findings.map(({ id }) => id));

    const grave = findings.find(({ id }) => id === 'way/column-outer')!;
    expect(grave.severity).toBe('danger');
    await page.locator('[data-finding="way/column-outer"]').click();
    const { measured, bound, unit, spare } = findingNumbers(grave);
    const told = await page.locator('.finding.open .details').textContent();
    for (const words of [`${measured} ${unit}`, `${bound} ${unit}`, spare, grave.basis, grave.remedy]) {
      expect(told).toContain(words);
    }
    const { path } = grave.at as { path: readonly (readonly number[])[] };
    for (const point of path) {
      for (const share of await inPicture(page, point)) expect(Math.abs(share)).toBeLessThan(1);
    }
    const clear = await opacities(page);
    expect(clear.belt).toBeLessThan(0.15);
    expect(clear['tube-mount']).toBe(1);
    await page.locator('[data-finding="way/column-outer"]').press('Enter');
    expect(await value(page, 'finding')).toBeUndefined();
    expect((await opacities(page)).belt).toBe(1);

    // Arrows go from one to the next.
    await page.locator('[data-finding]').first().focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    expect(await value(page, 'finding')).toBe(findings[1]!.id);

    // A pin in the picture is the finding too.
    await page.locator('.canvas canvas').press('Escape');
    await page.locator('.canvas canvas').press('Home');
    await page.locator('.labels .pin.danger').dispatchEvent('pointerdown');
    expect(await value(page, 'finding')).toBe('way/column-outer');
    expect(complaints).toEqual([]);
  });

  it('have remedies that can be tried: the text changes as the library would, the danger goes', async () => {
    const { page } = await openStarter(browser(), 'inch-built');
    const { findings } = checked(TEXT);
    const tries: readonly Trial[] = findings.find(({ id }) => id === 'way/column-outer')!.tries!;
    const put = (trial: Trial) =>
      trial.values.reduce((text, each) => withValue(text, each.key, each.value), TEXT);
    await page.locator('[data-finding="way/column-outer"]').click();
    await page.getByRole('button', { name: `try it: ${tries[0]!.what}` }).click();
    expect(await textOf(page)).toBe(put(tries[0]!));
    await settled(page);
    const now = checked(put(tries[0]!)).findings.find(({ id }) => id === 'way/column-outer');
    expect(now?.severity).not.toBe('danger');
    await expect.poll(() => page.locator('.status').textContent()).toContain('danger');
    expect(await page.locator('.finding.danger').count()).toBe(0);
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await textOf(page)).toBe(TEXT);
    const last = tries.at(-1)!;
    await page.getByRole('button', { name: `try it: ${last.what}` }).press('Enter');
    expect(await textOf(page)).toBe(put(last));
    await settled(page);
    // Focus is where the reader was.
    expect(await page.evaluate(() => document.activeElement?.closest('.findings') !== null)).toBe(true);
  });

  it('stand beside the ways they are about: each with its limits, the weakest first', async () => {
    const { page, complaints } = await openStarter(browser(), 'inch-built');
    const { prediction, findings } = checked(TEXT);
    await page.locator('.ways summary').click();
    const listed = await page.locator('.ways [data-way]').evaluateAll((all) =>
      all.map((each) => ({
        id: (each as HTMLElement).dataset.way!,
        words: each.textContent!.replace(/\s+/g, ' '),
        outline: each.querySelector('.severity-mark path')?.getAttribute('d'),
      })),
    );
    expect(listed.map(({ id }) => id).sort()).toEqual(prediction.limits.map(({ id }) => id).sort());
    const likely = listed.map(({ id }) => prediction.limits.find((each) => each.id === id)!.voltage.likely);
    expect(likely).toEqual([...likely].sort((a, b) => a - b));
    const outlines = new Map<string, Set<string | null | undefined>>();
    for (const { id, words, outline } of listed) {
      const { way, voltage } = prediction.limits.find((each) => each.id === id)!;
      expect(words).toContain(way);
      for (const each of [voltage.low, voltage.likely, voltage.high])
        expect(words, id).toContain(number(each));
      const finding = findings.find((each) => each.id === id);
      if (!finding) continue;
      expect(words.startsWith(`${finding.severity} `), words).toBe(true);
      outlines.set(finding.severity, (outlines.get(finding.severity) ?? new Set()).add(outline));
    }
    // One outline for each severity, and they differ.
    const own = [...outlines.values()];
    expect(own.length).toBeGreaterThan(1);
    expect(own.every(({ size }) => size === 1)).toBe(true);
    expect(new Set(own.flatMap((each) => [...each])).size).toBe(own.length);

    // Bars share one scale: the dotted line stands at the same place in each, and at the voltage aimed for.
    const bars = await page.locator('.ways .way-bar').evaluateAll((all) =>
      all.map((bar) => {
        const x = (name: string) => {
          const path = bar.querySelector(`path.${name}`)?.getAttribute('d');
          return path === undefined ? undefined : Number(/^M([\d.]+)/.exec(path!)![1]);
        };
        return {
          wide: bar.getBoundingClientRect().width,
          aimed: x('aimed')!,
          likely: x('likely'),
          low: x('range')!,
        };
      }),
    );
    expect(new Set(bars.map(({ wide }) => Math.round(wide))).size).toBe(1);
    for (const [i, bar] of bars.entries()) {
      const { voltage } = prediction.limits.find(({ id }) => id === listed[i]!.id)!;
      expect(bar.aimed).toBe(bars[0]!.aimed);
      if (bar.likely === undefined) continue;
      expect(bar.likely / bar.aimed).toBeCloseTo(voltage.likely / prediction.discharge, 4);
      expect(bar.low / bar.aimed).toBeCloseTo(voltage.low / prediction.discharge, 4);
    }

    const first = listed.find(({ id }) => findings.some((each) => each.id === id))!.id;
    const row = page.locator(`.ways [data-way="${first}"] button`);
    await row.click();
    expect(await value(page, 'finding')).toBe(first);
    expect(await row.getAttribute('aria-pressed')).toBe('true');
    expect(await page.locator(`.finding.open [data-finding="${first}"]`).count()).toBe(1);
    await row.press('Enter');
    expect(await value(page, 'finding')).toBeUndefined();
    expect(complaints).toEqual([]);
  });

  it(
    'are joined by ways that are measured on the solids, drawn over the machine and told by their surfaces',
    async () => {
      const { page, complaints } = await openStarter(browser(), 'inch-built');
      const ids = () => page.evaluate(() => tubewright.machine.value!.findings.map(({ id }) => id));
      const before = await ids();
      await page.getByRole('button', { name: 'measure ways on the solids' }).click();
      await page.waitForFunction(() => tubewright.ways.done, undefined, { timeout: 3 * PATIENCE });
      const after = await ids();
      const added = after.filter((id) => !before.includes(id));
      expect(added).toContain('surface/terminal-to-plate');
      expect(after).toHaveLength(before.length + added.length);
      await page.evaluate(() => tubewright.chooseFinding('surface/terminal-to-plate'));
      const open = page.locator('.finding.open');
      await open.waitFor();
      expect(await open.textContent()).toMatch(/runs along.*tube’s bore.*base plate/);
      // Drawn in the scene, and pinned to the rail.
      await settled(page);
      // The screws that ways end at are there now; clear are those that the chosen way comes to.
      const clearScrews = () =>
        page.evaluate(() => {
          const { drawnMetal } = document.querySelector<SceneHost>('.canvas')!.scene;
          const clear = drawnMetal.filter(({ faces }) => faces.material.opacity === 1);
          return { all: drawnMetal.length, clear: clear.map(({ piece }) => piece.of) };
        });
      const screws = metalware(starterMachine('inch-built'));
      await page.evaluate(() => tubewright.chooseFinding('surface/terminal-to-collar-screw'));
      await settled(page);
      const { all, clear } = await clearScrews();
      expect(all).toBe(screws.length);
      expect(clear).toContain('collar-screw');
      expect(clear.length).toBeLessThan(all / 4);
      await page.evaluate(() => tubewright.setApart(1));
      await expect.poll(async () => (await clearScrews()).all).toBe(0);
      await page.evaluate(() => tubewright.setApart(0));
      await expect.poll(async () => (await clearScrews()).all).toBe(screws.length);
      expect(await page.locator('.pin.chosen').count()).toBeGreaterThan(0);
      expect(await page.evaluate(() => tubewright.shown.value!.findings.length)).toBe(after.length);
      expect(complaints).toEqual([]);
    },
    5 * PATIENCE,
  );

  it('stand beside a forecast, and the cautions are never far', async () => {
    const { page } = await openStarter(browser(), 'inch-built');
    const { prediction } = checked(TEXT);
    const forecast = (await page.locator('.sheet').textContent())!;
    for (const [key, name] of QUANTITIES) {
      const { low, likely, high } = prediction[key];
      expect(forecast, name).toContain(name);
      for (const each of [low, likely, high]) expect(forecast, name).toContain(number(each));
    }
    expect(forecast).toContain(prediction.limiting);
    expect(prediction.voltage.likely).toBeLessThan(prediction.discharge);
    expect(forecast).toContain(`more than the likely ${number(prediction.voltage.likely)} kV`);
    for (const [width, height] of [
      [1440, 900],
      [390, 844],
    ] as const) {
      await page.setViewportSize({ width, height });
      const line = page.getByText('These machines shock and can hurt.');
      const box = (await line.boundingBox())!;
      expect(box.y + box.height).toBeLessThanOrEqual(height);
    }
    await page.getByRole('button', { name: 'cautions', exact: true }).press('Enter');
    const cautions = (await page.locator('#page-cautions').textContent())!;
    for (const words of [...CAUTIONS, ...DISCHARGE]) expect(cautions).toContain(words);
    expect(cautions).toContain(number(prediction.energy.likely));
    // Tabs by arrows and by pointer.
    await page.locator('#tab-cautions').focus();
    await page.keyboard.press('Home');
    expect(await page.locator('#tab-findings').getAttribute('aria-selected')).toBe('true');
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('#page-stock').isVisible()).toBe(true);
    await page.locator('#tab-print').click();
    expect(await page.locator('#page-print').isVisible()).toBe(true);
    expect(await page.locator('#page-stock').isVisible()).toBe(false);
  });
});

describe('the rail', { timeout: 3 * PATIENCE }, () => {
  it('names every piece with its heights and is linked with the scene', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    const { tube, terminal } = starterMachine('travelling-demonstrator');
    const option = (name: RegExp) => page.locator('.rail [role=option]').and(page.getByLabel(name));
    const heights = `${tube.footZ} to ${tube.rimZ} mm`;
    const onTube = option(new RegExp(`^tube, ${heights}$`));
    expect(await onTube.count()).toBe(1);
    expect(await option(new RegExp(`^terminal, .*${Math.round(terminal.topZ)} mm$`)).count()).toBe(1);
    // On its bar: its name may stand beside another's.
    const onBar = { position: { x: 3, y: 60 } };
    await onTube.hover(onBar);
    await expect.poll(() => value(page, 'hover')).toBe('tube');
    await onTube.click(onBar);
    expect(await value(page, 'piece')).toBe('tube');
    expect(await onTube.getAttribute('aria-selected')).toBe('true');
    await onTube.press('Escape');
    expect(await value(page, 'piece')).toBeUndefined();

    // By key: up and down by height, to the side to the pins.
    await onTube.focus();
    await page.keyboard.press('End');
    const low = await page.evaluate(() => document.activeElement!.getAttribute('aria-label'));
    await page.keyboard.press('Home');
    const high = await page.evaluate(() => document.activeElement!.getAttribute('aria-label'));
    expect(low).not.toBe(high);
    await page.keyboard.press('Enter');
    expect(await value(page, 'piece')).toEqual(expect.any(String));
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
    const pin = await page.evaluate(() => document.activeElement!.getAttribute('aria-label'));
    expect(pin).toMatch(/^caution: /);
    await page.keyboard.press(' ');
    expect(await value(page, 'finding')).toEqual(expect.any(String));
    expect(await value(page, 'piece')).toBeUndefined();
    // One stop of the tab key.
    expect(await page.locator('.rail [tabindex="0"]').count()).toBe(1);
  });

  it('draws the potential from ground to terminal, and inches for a machine in inches', async () => {
    const { page } = await openStarter(browser(), 'inch-built');
    const { machine, prediction } = checked(TEXT);
    const { basis } = columnPotential(machine, prediction.discharge * 1000);
    expect(prediction.discharge).toBe(260);
    const track = page.locator('.rail .potential-track');
    const words = (await track.locator('text').allTextContents()).join(' ');
    expect(words).toContain('260 kV');
    // More is aimed for than is likely: said at the track, in words and by a line.
    expect(words).toContain(`likely${Math.round(prediction.voltage.likely)} kV`);
    expect(await track.locator('.likely').count()).toBe(1);
    expect(await track.getAttribute('aria-label')).toContain(basis);
    const tube = page.locator('.rail [role=option]').and(page.getByLabel(/^tube, 0\.2 to 24\.2 in$/));
    expect(await tube.count()).toBe(1);
    // The bracket of what is in the picture follows the camera.
    const bracket = () => value<[number, number]>(page, 'heights');
    const whole = await bracket();
    await page.locator('.canvas canvas').press('+');
    await expect
      .poll(async () => (await bracket())[1] - (await bracket())[0])
      .toBeLessThan(whole[1] - whole[0]);
  });
});
