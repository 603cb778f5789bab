import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { drawnHole, holeOffset } from '../../parts/machine/fits.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { resolveMachine } from '../../parts/machine/resolve.js';
import { couponOrder } from '../../parts/printed/catalog.js';
import { proveStl } from '../../parts/sheets/proof.js';
import { starterMachine, starterText } from '../helpers/machines.js';
import { bytesOf, contentsOf, machineFile, SLOW, temporaryFolder, tubewright } from '../helpers/program.js';
import { against } from '../helpers/schemas.js';

const LIST = 'fit-coupon-measurements.yaml';
const order = couponOrder(starterMachine('travelling-demonstrator'));

/** A list filled in as a printer would have it: printed minus drawn by what is measured, mm. */
function filled(list: string, off: Record<string, (drawn: number) => number>): string {
  let kind = '';
  return list
    .split('\n')
    .map((line) => {
      kind = /^(\w+):/.exec(line)?.[1] ?? kind;
      const drawn = /\[\] # drawn ([\d.]+)/.exec(line)?.[1];
      const value = off[kind];
      if (!drawn || !value) return line;
      const printed = Number(drawn) + value(Number(drawn));
      return line.replace('[]', `[${(printed - 0.01).toFixed(3)}, ${(printed + 0.01).toFixed(3)}]`);
    })
    .join('\n');
}

const PRINTER = {
  holes: (d: number) => -0.24 - 0.006 * d,
  outsides: (d: number) => 0.12 - 0.005 * d,
  slot: () => -0.26,
  wall: () => 0.11,
};

function workplace() {
  const folder = temporaryFolder();
  const file = machineFile(folder);
  const out = join(folder, 'out');
  const { status } = tubewright(['coupon', file, '--out', out]);
  expect(status).toBe(0);
  const list = join(folder, 'readings.yaml');
  const fill = (change: (text: string) => string = (text) => text) =>
    writeFileSync(list, change(filled(readFileSync(join(out, LIST), 'utf8'), PRINTER)));
  fill();
  return { folder, file, out, list, fill };
}

describe('coupon', { timeout: SLOW }, () => {
  it('writes the coupon, proven, and an empty list beside it, in under an hour of printing', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const { status, stdout, stderr } = tubewright(['coupon', file, '--json']);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const said = JSON.parse(stdout);
    expect(against('coupon', said)).toEqual([]);
    expect(said.code).toBe(order.code);
    expect(said.estimate.minutes.high).toBeLessThan(60);
    expect(readdirSync(join(folder, 'machine')).sort()).toEqual([LIST, 'fit-coupon.stl']);
    const bytes = new Uint8Array(readFileSync(join(folder, 'machine', 'fit-coupon.stl')));
    expect(proveStl(bytes, order.stated).complaints).toEqual([]);
    expect(readFileSync(join(folder, 'machine', LIST), 'utf8')).toContain(`coupon: ${order.code}`);
  });

  it('leaves room for make in the same folder, and make leaves it alone', () => {
    const { file, out } = workplace();
    const before = contentsOf(out);
    expect(tubewright(['make', '--no-ways', file, '--out', out, '--only', 'comb-bar-upper']).status).toBe(0);
    expect(contentsOf(out)).toMatchObject(before);
    expect(tubewright(['identify', order.code, file, '--out', out]).stdout).toContain('is a fit-coupon');
  });

  it('writes over an empty list, and never over one with readings, nor over what it cannot read', () => {
    const { file, out, list } = workplace();
    expect(tubewright(['coupon', file, '--out', out]).status).toBe(0);
    for (const text of [readFileSync(list, 'utf8'), 'holes: [']) {
      writeFileSync(join(out, LIST), text);
      const before = bytesOf(out);
      const { status, stderr } = tubewright(['coupon', file, '--out', out]);
      expect(status).toBe(3);
      expect(stderr).toContain('is not written over');
      expect(bytesOf(out)).toEqual(before);
    }
  });

  it('says what it refuses: a bed too small, another’s folder, options that do not go together', () => {
    const folder = temporaryFolder();
    const small = machineFile(folder, 'travelling-demonstrator', (text) =>
      text.replace('bed: { x: 220, y: 220, z: 250 }', 'bed: { x: 80, y: 80, z: 250 }'),
    );
    const bed = tubewright(['coupon', small]);
    expect([bed.status, bed.stderr]).toEqual([2, expect.stringContaining('does not fit the printer')]);
    const file = machineFile(folder);
    const strange = join(folder, 'strange');
    mkdirSync(strange);
    writeFileSync(join(strange, 'a.txt'), 'x');
    expect(tubewright(['coupon', file, '--out', strange]).status).toBe(3);
    expect(tubewright(['coupon', file, '--tell']).status).toBe(2);
    expect(tubewright(['coupon', file, '--measured', file, '--out', 'x']).status).toBe(2);
    expect(tubewright(['coupon', file, '--measured', join(folder, 'none.yaml')]).status).toBe(2);
    expect(existsSync(join(folder, 'machine'))).toBe(false);
  });
});

describe('coupon --measured', { timeout: SLOW }, () => {
  it('puts the calibration into the machine file and leaves the rest of it as it was', () => {
    const { file, list } = workplace();
    const { status, stdout } = tubewright(['coupon', file, '--measured', list, '--json']);
    expect(status).toBe(0);
    const said = JSON.parse(stdout);
    expect(against('coupon', said)).toEqual([]);
    expect(said.written).toBe(true);
    const text = readFileSync(file, 'utf8');
    const calibration =
      'calibration: { hole: -0.24, outside: 0.12, hole_scale: -0.6, outside_scale: -0.5, scatter: 0.03 }';
    expect(text).toBe(starterText('travelling-demonstrator').replace(/calibration: \{[^}]*\}/, calibration));
    expect(said.parts.find(({ id }: { id: string }) => id === 'tube-mount').verdict).toBe('print again');

    // What this printer makes of the new drawings is what was wanted.
    const read = readMachineFile(text, file);
    if (!read.ok) throw new Error('it should be valid');
    const { grip, print, hubs } = resolveMachine(read.values, read.assumed);
    for (const fit of [grip.pilotFit, hubs.upper.dead!.seatFit]) {
      const wanted = fit.class === 'press' ? fit.bought.likely : fit.bought.high;
      expect(fit.drawn + PRINTER.holes(fit.drawn)).toBeCloseTo(wanted + fit.allowance, 2);
    }
    expect(holeOffset(print.calibration, drawnHole(print.calibration, 20))).toBeCloseTo(
      20 - drawnHole(print.calibration, 20),
      9,
    );
    // The coupon stays the same, and the same list changes nothing the second time.
    const again = JSON.parse(tubewright(['coupon', file, '--measured', list, '--json']).stdout);
    expect(again).toMatchObject({ code: order.code, written: false, values: [] });
  });

  it('tells it and writes nothing with --tell', () => {
    const { file, list } = workplace();
    const { status, stdout } = tubewright(['coupon', file, '--measured', list, '--tell']);
    expect(status).toBe(0);
    expect(stdout).toContain('print.calibration.hole: -0.15 -> -0.24 mm');
    expect(stdout).toContain('not written');
    expect(readFileSync(file, 'utf8')).toBe(starterText('travelling-demonstrator'));
  });

  it.each([
    ['another coupon', (text: string) => text.replace(order.code, 'ZZZZZZZZ'), 'belongs to another coupon'],
    ['a reading far off', (text: string) => text.replace(/(\n {2}D: \[)[\d.]+/, '$117.1'), 'holes.D'],
    ['too few', (text: string) => text.replace(/ {2}[BC]: \[.*\n/g, ''), 'readings of 3 only'],
    ['none at all', (text: string) => text.replace(/\[[^\]]*\]/g, '[]'), 'no readings'],
    ['an unknown key', (text: string) => text.replace('outsides:', 'outsids:'), 'did you mean outsides?'],
    ['no YAML', () => 'holes: [', 'no YAML'],
    ['a machine file', () => starterText('travelling-demonstrator'), 'an unknown key'],
  ])('refuses %s, with its place, and changes nothing', (_, change, reason) => {
    const { file, list, fill } = workplace();
    fill(change);
    const { status, stderr } = tubewright(['coupon', file, '--measured', list]);
    expect(status).toBe(2);
    expect(stderr).toContain(reason);
    expect(stderr).toMatch(/readings\.yaml:\d+:\d+: /);
    expect(readFileSync(file, 'utf8')).toBe(starterText('travelling-demonstrator'));
    const said = tubewright(['coupon', file, '--measured', list, '--json']);
    expect(against('error', JSON.parse(said.stdout))).toEqual([]);
  });
});
