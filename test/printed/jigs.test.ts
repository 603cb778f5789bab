import { describe, expect, it } from 'vitest';
import { withValues } from '../../parts/checks/change.js';
import { type ArmUse, designJigs, GUIDES_APART } from '../../parts/machine/jigs.js';
import type { Machine } from '../../parts/machine/machine.js';
import { onCircle, plateHoles } from '../../parts/machine/plate-holes.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { armOrigin } from '../../parts/printed/drill-jig-arm.js';
import { shaftLoop } from '../../parts/solid/facets.js';
import type { Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import type { Vec2 } from '../../parts/solid/vector.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const kernel = await loadKernel();
const orderOf = (machine: Machine, id: string) => ordersFor(machine).find(({ part }) => part.id === id)!;

describe.each(STARTERS)('tube-end-guide of %s', (starter) => {
  const machine = starterMachine(starter);
  const { tubeEnd } = machine.jigs;
  const { part, dimensions } = orderOf(machine, 'tube-end-guide');
  /** What tube and guide have in common, mm3. */
  const common = (tubeRadius: number) =>
    kernel.scope(() =>
      kernel.volume(
        kernel.intersect(
          part.build(dimensions, kernel),
          kernel.extrude([shaftLoop(tubeRadius)], -10, tubeEnd.length + 10),
        ),
      ),
    );

  it('passes the tube at its largest reading, and not one that is larger than its bore', () => {
    const { calibration } = machine.print;
    const printedSmaller = (-calibration.hole - (calibration.holeScale / 100) * tubeEnd.fit.drawn) / 2;
    expect(common(machine.tube.outer.high / 2 + printedSmaller)).toBeLessThan(0.01);
    expect(common(tubeEnd.fit.drawn / 2 + 0.1)).toBeGreaterThan(10);
  });

  it('closes on the smallest tube before its slit is shut', () => {
    const { low } = machine.tube.outer;
    expect(tubeEnd.slit).toBeGreaterThan(Math.PI * (tubeEnd.fit.asPrinted.high - low));
  });

  it('follows the tube, not what is drilled elsewhere', () => {
    const fatter = withValues(machine, { 'column.tube.outer': machine.tube.outer.mean + 5 });
    expect(orderOf(fatter, 'tube-end-guide').code).not.toBe(orderOf(machine, 'tube-end-guide').code);
    const higher = withValues(machine, { 'base.feet': machine.plate.feet + 5 });
    expect(orderOf(higher, 'tube-end-guide').code).toBe(orderOf(machine, 'tube-end-guide').code);
  });
});

/** mm; how far a guide may stand off the place where the machine wants its hole. */
const OFF = 0.01;

/** How many of the places have a guide that a pin goes through which is just narrower, and none just wider. */
function guidedAt(solid: Solid, places: readonly Vec2[], guide: number): number {
  const met = (radius: number, at: Vec2) =>
    kernel.volume(kernel.intersect(solid, kernel.extrude([shaftLoop(radius, at)], 0.5, 3)));
  return places.filter((at) => met(guide / 2 - OFF, at) < 1e-6 && met(guide / 2 + 5 * OFF, at) > 0.1).length;
}

/** Every hole of the plate around the column. */
function columnHoles({ base }: Machine): Vec2[] {
  return [...base.boltAngles, ...base.skirtBoltAngles, base.stud.angle].map((angle) =>
    onCircle(base.boltRadius, angle),
  );
}

/** The arm on the plate, in one of its uses, its lower face at z = 0. */
function armInUse(machine: Machine, { pins, up }: ArmUse): Solid {
  const { part, dimensions } = orderOf(machine, 'drill-jig-arm');
  const [x, y] = armOrigin(dimensions as Parameters<typeof armOrigin>[0]);
  const own = kernel.place(part.build(dimensions, kernel), { turn: [0, 0, 0], move: [-x, -y, 0] });
  // Turned over about the line through the middle between its pins.
  const over = up ? own : kernel.place(own, { turn: [180, 0, 0], move: [0, 0, machine.jigs.arm.thickness] });
  const middle = pins[0] + ((pins[1] - pins[0] + 360) % 360) / 2;
  return kernel.place(over, { turn: [0, 0, middle - 180], move: [0, 0, 0] });
}

const drilled: [string, (machine: Machine) => Machine][] = [
  ['as it is', (machine) => machine],
  [
    'with a fatter tube and a larger plate',
    (machine) =>
      withValues(machine, {
        'column.tube.outer': machine.tube.outer.mean + 12,
        'base.plate.diameter': machine.plate.diameter + 33,
      }),
  ],
  ['with another motor', (machine) => withValues(machine, { 'drive.motor.body.diameter': 50 })],
];

describe.each(STARTERS)('drill jig of %s', (starter) => {
  it.each(drilled)('has every guide where the plate wants its hole: %s', (_how, change) => {
    const machine = change(starterMachine(starter));
    const { jigs, base } = machine;
    kernel.scope(() => {
      const order = orderOf(machine, 'drill-jig');
      const jig = order.part.build(order.dimensions, kernel);
      const places: Vec2[] = [[0, 0], ...columnHoles(machine)];
      expect(guidedAt(jig, places, jigs.pilot.drawn)).toBe(10);
      // Not only there where a hole would be anywhere.
      expect(
        guidedAt(
          jig,
          columnHoles(machine).map(([x, y]) => [x + 3 * OFF, y]),
          jigs.pilot.drawn,
        ),
      ).toBe(0);
      const within = (radius: number) =>
        kernel.volume(kernel.intersect(jig, kernel.extrude([shaftLoop(radius)], 0.5, 3)));
      /** Share of a narrow ring that is plastic. */
      const share = (inner: number, outer: number) =>
        (within(outer) - within(inner)) / (2.5 * Math.PI * (outer ** 2 - inner ** 2));
      const { openingRadius } = jigs.drill;
      expect(share(openingRadius - 0.5, openingRadius - OFF)).toBeLessThan(0.25);
      expect(share(openingRadius + 0.05, openingRadius + 0.5)).toBeGreaterThan(0.95);
      const { hole, holeScale } = machine.print.calibration;
      const printed = 2 * jigs.drill.openingRadius * (1 + holeScale / 100) + hole;
      expect(printed).toBeCloseTo(2 * base.plate.openingRadius, 2);
    });
  });

  it.each(drilled)(
    'has an arm that reaches bracket and feet from holes that are there: %s',
    (_how, change) => {
      const machine = change(starterMachine(starter));
      const { jigs, base, feet } = machine;
      const { bracketHoles, feetHoles } = plateHoles(machine);
      expect(jigs.arm.uses.map(({ angle }) => angle)).toEqual([undefined, ...feet.angles]);
      kernel.scope(() => {
        for (const use of jigs.arm.uses) {
          for (const angle of use.pins) expect(base.boltAngles).toContain(angle);
          const arm = armInUse(machine, use);
          const pins = use.pins.map((angle) => onCircle(base.boltRadius, angle));
          expect(guidedAt(arm, pins, jigs.pilot.drawn)).toBe(2);
          const wanted =
            use.what === 'bracket' ? bracketHoles : [feetHoles[feet.angles.indexOf(use.angle!)]!];
          expect(guidedAt(arm, wanted, jigs.pilot.drawn)).toBe(wanted.length);
        }
      });
    },
  );
});

it('an arm whose feet would run into the bracket’s guides takes the next pair of bolts', () => {
  const machine = starterMachine('travelling-demonstrator');
  const [x, y] = machine.jigs.arm.feet[0]!;
  const { base, drive, tube, terminal } = machine;
  const { calibration } = machine.print;
  // A bracket whose first hole lies where the foot's guide would be.
  const { motor, bracket } = drive;
  const run = designJigs({
    tube,
    base,
    terminal,
    calibration,
    feet: machine.feet,
    drive: {
      ...drive,
      motor: { ...motor, at: [x + bracket.screwX, motor.at[1], motor.at[2]] },
      bracket: { ...bracket, face: y + bracket.screwsAt[0]! },
    },
  });
  for (const foot of run.arm.feet)
    for (const each of [...run.arm.bracket, ...run.arm.pins])
      expect(Math.hypot(foot[0] - each[0], foot[1] - each[1])).toBeGreaterThanOrEqual(GUIDES_APART);
});
