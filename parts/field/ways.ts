import type { Machine } from '../machine/machine.js';
import { leakageLimit } from './belt-current.js';
import { innerColumn, outerColumn } from './columns.js';
import { openAirGradient } from './gradients.js';
import { printedFoot, tubeWall } from './punctures.js';
import { scaled } from './range.js';
import { nearestOnTerminal, type RZ } from './terminal-distance.js';
import { bodyLimit, lipLimit } from './terminal-limit.js';
import type { LimitWay, PathPoint } from './way.js';

const place = ([radius, z]: RZ): PathPoint => [radius, 0, z];

/** How each way that the closed forms know is worked out; undefined where a machine has no such way. */
const WAYS: Readonly<Record<string, (machine: Machine) => LimitWay | undefined>> = {
  'way/terminal-body': terminalBody,
  'way/terminal-lip': terminalLip,
  'way/column-outer': outerColumn,
  'way/column-inner': innerColumn,
  'way/terminal-to-plate': terminalToPlateEdge,
  'way/terminal-to-bench': terminalToBench,
  'way/tube-wall': tubeWall,
  // A print that conducts is an electrode, not a wall.
  'way/printed-foot': (machine) => (machine.print.conductive ? undefined : printedFoot(machine)),
  'way/belt-leakage': beltLeakage,
};

/** One way by its id, as for trying what a change does to it. */
export function limitWay(machine: Machine, id: string): LimitWay | undefined {
  return WAYS[id]?.(machine);
}

/** Every way of a machine, each with its limit voltage. */
export function limitWays(machine: Machine): LimitWay[] {
  return Object.values(WAYS).flatMap((way) => way(machine) ?? []);
}

export function terminalBody(machine: Machine): LimitWay {
  const { terminal } = machine;
  return {
    id: 'way/terminal-body',
    title: 'terminal into the air',
    kind: 'terminal',
    voltage: bodyLimit(machine),
    length: 0,
    path: [[0, 0, terminal.topZ]],
    surfaces: ['terminal'],
    basis: 'Peek’s law for a sphere times a surface factor of 0.5, 0.7, 0.9 (common practice)',
    status: 'common-practice',
  };
}

export function terminalLip(machine: Machine): LimitWay {
  const { terminal } = machine;
  return {
    id: 'way/terminal-lip',
    title: 'corona from the terminal’s lip',
    kind: 'corona',
    voltage: lipLimit(machine),
    length: 0,
    path: [[terminal.openingDiameter.mean / 2 + terminal.lipRadius, 0, terminal.lipZ]],
    surfaces: ['lip'],
    basis:
      'Kelvin’s bowl with a round bead on its rim and Peek’s law, times a surface factor; tube, belt and plate left out, their effect taken as a factor of 0.68 to 1.41 on the field',
    status: 'computed',
  };
}

function throughAir(machine: Machine, id: string, title: string, ground: RZ, what: string): LimitWay {
  const { at: from, distance } = nearestOnTerminal(machine, ground);
  return {
    id,
    title,
    kind: 'spark',
    voltage: scaled(openAirGradient, (distance / 1000) * machine.site.relativeDensity),
    length: distance,
    path: [place(from), place(ground)],
    surfaces: ['terminal', what],
    basis: `mean gradient of a positive streamer, 4.5 to 5 kV/cm (Francisco, Teunissen, Bagheri, Ebert 2021), times air density, over ${distance.toFixed(0)} mm`,
    status: 'verified',
  };
}

/** From the terminal through air to the plate's edge; an insulating plate has its ground electrode under it. */
export function terminalToPlateEdge(machine: Machine): LimitWay {
  const { plate } = machine;
  const edge: RZ = [plate.diameter / 2, plate.conductive ? 0 : -plate.thickness];
  return throughAir(
    machine,
    'way/terminal-to-plate',
    'terminal to the edge of the base plate',
    edge,
    'base plate',
  );
}

/** From the terminal through air past the plate to bench and floor, which count as grounded. */
export function terminalToBench(machine: Machine): LimitWay {
  const { plate, terminal } = machine;
  const bench = -(plate.thickness + plate.feet);
  const radius = Math.max(plate.diameter, terminal.diameter.mean) / 2;
  const what = plate.bench > 0 ? 'bench' : 'floor';
  return throughAir(
    machine,
    'way/terminal-to-bench',
    `terminal past the plate to the ${what}`,
    [radius, bench],
    what,
  );
}

export function beltLeakage(machine: Machine): LimitWay | undefined {
  const voltage = leakageLimit(machine);
  if (!voltage) return undefined;
  const { rollers } = machine;
  return {
    id: 'way/belt-leakage',
    title: 'belt takes down what it brings up',
    kind: 'corona',
    voltage,
    length: machine.belt.loopLength / 2,
    path: [
      [0, 0, rollers.upper.axisZ],
      [0, 0, rollers.lower.axisZ],
    ],
    surfaces: ['belt'],
    basis: 'Ohm’s law with the measured resistance, both runs side by side, against the charging current',
    status: 'computed',
  };
}
