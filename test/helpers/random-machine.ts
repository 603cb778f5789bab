import fc from 'fast-check';
import { FIT_CLASSES } from '../../parts/machine/fits.js';
import type { Machine } from '../../parts/machine/machine.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { resolveMachine } from '../../parts/machine/resolve.js';
import { findBearing } from '../../parts/stock/bearings.js';

const BEARINGS = ['625', '626', '696', '608', '688', '698', '6000', '6800', 'R4A shielded', 'MR126'];
const hundredth = (value: number) => Math.round(value * 100) / 100;

/** Numbers in [0, 1] that a machine is laid out from: whatever they are, its pieces go together. */
const dice = fc.record({
  tube: fc.double({ min: 0, max: 1, noNaN: true }),
  oval: fc.double({ min: 0, max: 1, noNaN: true }),
  wall: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.double({ min: 0, max: 1, noNaN: true }),
  roller: fc.double({ min: 0, max: 1, noNaN: true }),
  shell: fc.double({ min: 0, max: 1, noNaN: true }),
  belt: fc.double({ min: 0, max: 1, noNaN: true }),
  gap: fc.double({ min: 0, max: 1, noNaN: true }),
  opening: fc.double({ min: 0, max: 1, noNaN: true }),
  hole: fc.double({ min: -0.25, max: 0.15, noNaN: true }),
  outside: fc.double({ min: -0.1, max: 0.2, noNaN: true }),
  scatter: fc.double({ min: 0, max: 0.2, noNaN: true }),
  plate: fc.double({ min: 0, max: 1, noNaN: true }),
});

const picks = fc.record({
  lowerBearing: fc.constantFrom(...BEARINGS),
  upperBearing: fc.constantFrom(...BEARINGS),
  lowerStyle: fc.constantFrom('mesh', 'needles'),
  upperStyle: fc.constantFrom('mesh', 'needles'),
  layer: fc.constantFrom(0.1, 0.16, 0.2, 0.28),
  pilot: fc.constantFrom(...FIT_CLASSES),
  rim: fc.constantFrom(...FIT_CLASSES),
  shell: fc.constantFrom(...FIT_CLASSES),
  bearing: fc.constantFrom(...FIT_CLASSES),
  axle: fc.constantFrom(...FIT_CLASSES),
  sleeve: fc.constantFrom(...FIT_CLASSES),
  edge: fc.constantFrom('sheet', 'sheet', 'ring'),
  sleeved: fc.constantFrom('none', 'none', 'lower', 'upper'),
});

/** mm; of a machine that has one, where the tube has room for it. */
const SLEEVE = { wall: 1.6, crown: 0.5 };

type Dice = typeof dice extends fc.Arbitrary<infer T> ? T : never;
type Picks = typeof picks extends fc.Arbitrary<infer T> ? T : never;

/** The text of a machine file that any throw of the dice makes. */
export function machineText(d: Dice, p: Picks): string {
  const between = (share: number, low: number, high: number) => hundredth(low + share * (high - low));
  const outer = between(d.tube, 50, 150);
  const oval = between(d.oval, 0, 1.4);
  const wall = between(d.wall, 2, 4.5);
  const inner = outer - oval - 2 * wall - 0.4;
  const roller = (bearing: string) => {
    const { row } = findBearing(bearing)!;
    const bore = hundredth(row.outer + 4.6 + between(d.shell, 0, 3));
    return { bore, axle: row.bore, least: bore + 5.3 };
  };
  const [lower, upper] = [roller(p.lowerBearing), roller(p.upperBearing)];
  const thickness = 1.2;
  const diameter = between(
    d.roller,
    Math.max(lower.least, upper.least),
    Math.max(lower.least, upper.least) + 4,
  );
  // What is left across the bore beside two runs, their wander and a little more.
  const across = (sleeve: number) =>
    Math.sqrt(Math.max(0, (inner - 3) ** 2 - (diameter + 2 * (thickness + sleeve) + 2) ** 2)) - 6;
  const sleeved = p.sleeved !== 'none' && across(SLEEVE.wall + SLEEVE.crown) >= 12 ? p.sleeved : 'none';
  const lifted = sleeved === 'none' ? 0 : SLEEVE.wall + SLEEVE.crown;
  const most = across(lifted);
  const belt = between(d.belt, 12, Math.max(12, most));
  const comb = hundredth(Math.max(8, belt - 6));
  const opening = hundredth(
    Math.max(outer + oval + 14, 2 * (diameter / 2 + lifted + 36)) + between(d.opening, 0, 30),
  );
  const end = (which: 'lower' | 'upper', bearing: string, { bore, axle }: { bore: number; axle: number }) =>
    `  ${which}: { material: ${which === 'lower' ? 'ptfe' : 'nylon'}, outer: [${diameter}, ${hundredth(diameter + 0.1)}], inner: [${bore}, ${hundredth(bore + 0.1)}], length: ${hundredth(belt + 12)}, axle: { kind: ${which === 'lower' ? 'live' : 'dead'}, diameter: ${axle}, flat: 0.5 }, bearing: "${bearing}"${which === sleeved ? `, sleeve: ${SLEEVE.wall}, crown: ${SLEEVE.crown}` : ''} }`;
  const comb1 = (which: 'lower' | 'upper', style: string) =>
    `  ${which}: { style: ${style}, width: ${comb}, gap: ${between(d.gap, 2, 6)} }`;
  return [
    'machine: Thrown by dice',
    `terminal: { shape: sphere, diameter: ${hundredth(opening * 2.4)}, opening: { diameter: ${opening}, edge: ${p.edge}, lip: 5 }, insertion: 40 }`,
    `column: { tube: { material: acrylic-extruded, outer: [${outer}, ${hundredth(outer + oval)}], wall: [${wall}, ${hundredth(wall + 0.15)}], length: ${between(d.length, 300, 1200)} } }`,
    `belt: { material: neoprene, width: ${belt}, thickness: ${thickness}, stretch: 8 }`,
    'rollers:',
    end('lower', p.lowerBearing, lower),
    end('upper', p.upperBearing, upper),
    'drive: { motor: { speed: 4000, power: 30, supply: 12 }, pulleys: { motor: 20, roller: 30 } }',
    'combs:',
    comb1('lower', p.lowerStyle),
    comb1('upper', p.upperStyle),
    `base: { plate: { material: aluminium, diameter: ${hundredth(outer + 210)}, thickness: ${between(d.plate, 3, 8)} }, feet: 120 }`,
    `print: { material: petg, layer: ${p.layer}, calibration: { hole: ${hundredth(d.hole)}, outside: ${hundredth(d.outside)}, scatter: ${hundredth(d.scatter)} } }`,
    `fits: { pilot: ${p.pilot}, rim: ${p.rim}, shell: ${p.shell}, bearing: ${p.bearing}, axle: ${p.axle}, sleeve: ${p.sleeve} }`,
    '',
  ].join('\n');
}

/** Machine files laid out from numbers that are valid: those the rules refuse are left out. */
export function machineFrom(numbers: fc.Arbitrary<Dice>): fc.Arbitrary<{ text: string; machine: Machine }> {
  return fc
    .tuple(numbers, picks)
    .map(([d, p]) => machineText(d, p))
    .map((text) => ({ text, read: readMachineFile(text, 'dice.yaml') }))
    .filter(({ read }) => read.ok)
    .map(({ text, read }) => {
      if (!read.ok) throw new Error('left out above');
      return { text, machine: resolveMachine(read.values, read.assumed) };
    });
}

export const randomMachine = machineFrom(dice);
