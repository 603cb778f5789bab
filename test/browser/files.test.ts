import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { readMachineFile, withWritten } from '../../parts/index.js';
import { fieldId } from '../../viewer/session/fields.js';
import { fragmentOf } from '../../viewer/session/link.js';
import { starterPath, starterText } from '../helpers/machines.js';
import { bytesOf, machineFile, tubewright as program, temporaryFolder } from '../helpers/program.js';
import {
  browserForTests,
  exportedPage,
  openPage,
  openStarter,
  PATIENCE,
  type SceneHost,
  served,
  settled,
  textOf,
} from './on-page.js';

// What comes out of the page, and how page and disk get along.

const browser = browserForTests();
const TEXT = starterText('travelling-demonstrator');
const LENGTH = 'column.tube.length';
const FEET = 'base.feet';

const write = (page: Page, key: string, item: string) =>
  page.evaluate(([name, value]) => globalThis.tubewright.write(name!, [value!]), [key, item]);
const stateOf = (page: Page) => page.locator('#file-state').textContent();

async function downloaded(page: Page, act: () => Promise<void>): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent('download'), act()]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

describe('out of the page', { timeout: 3 * PATIENCE }, () => {
  it('come the files that make writes, one or all, and the machine file with its edits', async () => {
    const { page, complaints } = await openStarter(browser(), 'travelling-demonstrator');
    const folder = temporaryFolder();
    const file = machineFile(folder, 'travelling-demonstrator', (text) => withWritten(text, LENGTH, ['655']));
    expect(program(['make', '--no-ways', file])).toMatchObject({ status: 0 });
    const made = bytesOf(join(folder, 'machine'));

    await write(page, LENGTH, '655');
    await settled(page);
    await page.locator('#tab-print').click();
    const one = await downloaded(page, () => page.locator('#stl-tube-mount').click());
    expect(one.name).toBe('tube-mount.stl');
    expect(one.bytes.toString('base64')).toBe(made['tube-mount.stl']);
    const two = await downloaded(page, () => page.locator('#stl-rim-ring').press('Enter'));
    expect(two.bytes.toString('base64')).toBe(made['rim-ring.stl']);
    for (const act of [
      () => page.locator('#stl-all').click(),
      () => page.locator('#stl-all').press('Enter'),
    ]) {
      const zip = await downloaded(page, act);
      expect(zip.name).toMatch(/\.zip$/);
      const files = unzipSync(new Uint8Array(zip.bytes));
      const stl = Object.entries(made).filter(([name]) => name.endsWith('.stl'));
      expect(Object.keys(files).sort()).toEqual(stl.map(([name]) => name).sort());
      for (const [name, bytes] of stl) expect(Buffer.from(files[name]!).toString('base64'), name).toBe(bytes);
    }
    const machine = await downloaded(page, () => page.locator('#download').click());
    expect(machine.name).toBe('travelling-demonstrator.yaml');
    expect(machine.bytes.toString('utf8')).toBe(readFileSync(file, 'utf8'));
    const again = await downloaded(page, () => page.locator('#download').press('Enter'));
    expect(again.bytes.equals(machine.bytes)).toBe(true);
    expect(complaints).toEqual([]);
  });

  it('comes a link that carries the values to another page', async () => {
    const { page } = await openStarter(browser(), 'travelling-demonstrator');
    await write(page, LENGTH, '655');
    await page.locator('#link').click();
    const link = await page.locator('#link-text').inputValue();
    await page.locator('#link').press('Enter');
    expect(await page.locator('#link-text').count()).toBe(0);
    const there = await openPage(browser(), link);
    await settled(there.page);
    expect(await textOf(there.page)).toBe(withWritten(TEXT, LENGTH, ['655']));
    // They are edits over the page's own file: one step back leads to it.
    await there.page.keyboard.press('Control+z');
    expect(await textOf(there.page)).toBe(TEXT);
    expect(there.complaints).toEqual([]);

    const own = exportedPage(starterPath('travelling-demonstrator'));
    const broken = await openPage(browser(), `${own}${fragmentOf(TEXT).slice(0, 300)}`);
    await expect.poll(() => broken.page.locator('.status').textContent()).toContain('can’t be read');
    await settled(broken.page);
    expect(await textOf(broken.page)).toBe(TEXT);
  });
});

describe('a page with the program behind it', { timeout: 3 * PATIENCE }, () => {
  it('shows what saving changes, and writes the file with its comments', async () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const { address, stop } = await served(file);
    const { page, complaints } = await openPage(browser(), address);
    await settled(page);
    await expect.poll(() => stateOf(page)).toContain('as on disk');
    await write(page, FEET, '95');
    expect(await stateOf(page)).toContain('edited, 1 value');
    await page.locator('#save').click();
    const lines = await page.locator('#save-dialog .difference li').allTextContents();
    expect(lines.filter((line) => /^[−+] /.test(line))).toEqual([
      expect.stringMatching(/^− base:.*feet: 90/),
      expect.stringMatching(/^\+ base:.*feet: 95/),
    ]);
    await page.locator('#save-not-now').click();
    await expect.poll(() => page.locator('#save-dialog').count()).toBe(0);
    expect(readFileSync(file, 'utf8')).toBe(TEXT);
    await page.locator('#save').press('Enter');
    await page.locator('#save-dialog[open]').waitFor();
    await page.locator('#save-write').press('Enter');
    await expect.poll(() => readFileSync(file, 'utf8')).toBe(withWritten(TEXT, FEET, ['95']));
    await expect.poll(() => stateOf(page)).toContain('written to machine.yaml');
    expect(await stateOf(page)).toContain('as on disk');

    // Parts are marked against a ledger as soon as there is one.
    expect(await page.evaluate(() => globalThis.tubewright.machine.value!.against)).toBe('opened');
    expect(program(['make', '--no-ways', file])).toMatchObject({ status: 0 });
    await expect
      .poll(() => page.evaluate(() => globalThis.tubewright.machine.value!.against), { timeout: 10_000 })
      .toBe('ledger');
    expect(complaints).toEqual([]);
    await stop();
    await expect.poll(() => stateOf(page), { timeout: 10_000 }).toContain('stopped');
  });

  it('follows the file with the camera where it was, through errors, loss and return', async () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const { address } = await served(file);
    const { page } = await openPage(browser(), address);
    await settled(page);
    const view = () =>
      page.evaluate(() => {
        const { position, target } = document.querySelector<SceneHost>('.canvas')!.scene.stage.view;
        return [position, target].flatMap(({ x, y, z }) => [x, y, z]);
      });
    await page.locator('.canvas canvas').press('ArrowRight');
    await page.locator('.canvas canvas').press('+');
    const seen = await view();
    const longer = withWritten(TEXT, LENGTH, ['700']);
    // As editors save: a new file takes the old one's name.
    writeFileSync(`${file}.new`, longer);
    renameSync(`${file}.new`, file);
    await expect.poll(() => textOf(page), { timeout: 10_000 }).toBe(longer);
    await settled(page);
    const top = () => page.evaluate(() => globalThis.tubewright.shown.value!.extent.top);
    const there = await top();
    expect(await view()).toEqual(seen);

    const broken = longer.replace('length: 700', 'length: 7oo');
    writeFileSync(file, broken);
    const read = readMachineFile(broken, 'machine.yaml');
    const line = read.ok ? 0 : read.problems[0]!.line;
    await expect
      .poll(() => page.locator('.problems').textContent(), { timeout: 10_000 })
      .toContain(`line ${line}`);
    expect(await top()).toBe(there);
    writeFileSync(file, 'column: [');
    await expect.poll(() => textOf(page), { timeout: 10_000 }).toBe('column: [');
    await expect.poll(() => page.locator('.problems').textContent()).toContain('YAML');
    expect(await top()).toBe(there);
    rmSync(file);
    await expect.poll(() => stateOf(page), { timeout: 10_000 }).toContain('no such file');
    writeFileSync(file, TEXT);
    await expect.poll(() => textOf(page), { timeout: 10_000 }).toBe(TEXT);
    await settled(page);
    expect(await page.locator('.problems').textContent()).toBe('');
    expect(await top()).toBeLessThan(there);
  });

  it('asks when disk and page both changed, and loses nothing whatever is answered', async () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const { address } = await served(file);
    const mine = withWritten(TEXT, FEET, ['95']);
    const theirs = withWritten(TEXT, LENGTH, ['700']);
    const { page } = await openPage(browser(), address);
    await settled(page);
    const meet = async () => {
      await page.evaluate((text) => globalThis.tubewright.edit(text), mine);
      writeFileSync(file, theirs);
      await page.locator('.clash').waitFor();
      const told = await page.locator('.clash').textContent();
      expect(told).toContain('column.tube.length 640');
      expect(told).toContain('base.feet 90');
      expect(await textOf(page)).toBe(mine);
      await expect.poll(() => page.locator('#save').isDisabled()).toBe(true);
    };
    const back = async () => {
      writeFileSync(file, TEXT);
      await expect
        .poll(() => page.evaluate(() => globalThis.tubewright.disk.value.text), { timeout: 10_000 })
        .toBe(TEXT);
      await page.evaluate((text) => globalThis.tubewright.edit(text), TEXT);
      await expect.poll(() => page.locator('.clash').count()).toBe(0);
    };
    await meet();
    await page.locator('#clash-theirs').click();
    expect(await textOf(page)).toBe(theirs);
    await page.locator('#undo').click();
    expect(await textOf(page)).toBe(mine);
    await back();

    await meet();
    await page.locator('#clash-both').press('Enter');
    expect(await textOf(page)).toBe(withWritten(theirs, FEET, ['95']));
    await back();

    await meet();
    await page.locator('#clash-mine').click();
    expect(await textOf(page)).toBe(mine);
    // What is on disk is only lost when the builder says so, having seen it.
    expect(readFileSync(file, 'utf8')).toBe(theirs);
    await page.locator('#save').click();
    const lines = await page.locator('#save-dialog .difference li').allTextContents();
    expect(lines.filter((line) => /^[−+] /.test(line))).toHaveLength(4);
    await page.keyboard.press('Escape');
    expect(readFileSync(file, 'utf8')).toBe(theirs);
    expect(await page.locator(`#${fieldId(FEET)}`).inputValue()).toBe('95');
  });
});
