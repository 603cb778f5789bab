import type { Machine } from '../machine/machine.js';
import { atBothRuns } from './charge/belt-resistance.js';
import { innerColumn, outerColumn } from './columns.js';
import { coronaWay } from './corona-ways.js';
import type { PlaceName } from './machine-field.js';
import { printedFoot, tubeWall } from './punctures.js';
import { nearestOnTerminal, type RZ } from './terminal-distance.js';
import { type LimitWay, type PathPoint, wayOf } from './way.js';

const place = ([radius, z]: RZ): PathPoint => [radius, 0, z];

type Way = (machine: Machine) => LimitWay | undefined;
const corona =
  (name: PlaceName): Way =>
  (machine) =>
    coronaWay(machine, name);

/** How each way is worked out; undefined where a machine has no such way. */
const WAYS: Readonly<Record<string, Way>> = {
  'way/terminal-body': corona('body'),
  'way/terminal-lip': corona('lip'),
  'way/upper-comb': corona('upperComb'),
  'way/upper-metal': corona('upperMetal'),
  'way/lower-comb': corona('lowerComb'),
  'way/base-edge': corona('baseEdge'),
  'way/column-outer': columnOutside,
  'way/column-inner': columnInside,
  'way/terminal-to-plate': (machine) => startingAt(machine, 'lip', terminalToPlateEdge(machine)),
  'way/terminal-to-bench': (machine) => startingAt(machine, 'body', terminalToBench(machine)),
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

/** Through air a spark needs streamers that start from the terminal, and a mean gradient that carries them. */
function startingAt(machine: Machine, place: PlaceName, way: LimitWay): LimitWay {
  const corona = coronaWay(machine, place)!;
  return wayOf(machine, {
    ...way,
    at: (values) => Math.max(way.at(values), corona.at(values)),
    basis: `${way.basis}; streamers start from ${(corona.voltage.likely / 1000).toFixed(0)} kV on`,
  });
}

/**
 * Along the outside of the column a flashover needs the same; but there any grain of dust on the plastic starts streamers,
 * so that the gradient alone counts. Where the lip starts them is told.
 */
function columnOutside(machine: Machine): LimitWay {
  const way = outerColumn(machine);
  const { likely } = coronaWay(machine, 'lip')!.voltage;
  const starts = `streamers start at the lip from ${(likely / 1000).toFixed(0)} kV on, at dust on the column sooner`;
  return { ...way, basis: `${way.basis}; ${starts}` };
}

/** Along the bore: the combs are there to be in corona, so that streamers always start. */
export function columnInside(machine: Machine): LimitWay {
  const way = innerColumn(machine);
  return { ...way, basis: `${way.basis}; the comb at its end is in corona at any voltage` };
}

function throughAir(machine: Machine, id: string, title: string, ground: RZ, what: string): LimitWay {
  const { at: from, distance } = nearestOnTerminal(machine, ground);
  return wayOf(machine, {
    id,
    title,
    kind: 'spark',
    at: ({ positiveGradient }) => (positiveGradient * distance) / 1000,
    length: distance,
    path: [place(from), place(ground)],
    surfaces: ['terminal', what],
    basis: `mean gradient of a positive streamer, 4.5 to 5 kV/cm (Francisco, Teunissen, Bagheri, Ebert 2021), times air density and humidity factor, over ${distance.toFixed(0)} mm`,
    status: 'verified',
  });
}

/** By the gradient alone, from the terminal through air to the plate's edge; an insulating plate has its ground electrode under it. */
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

/** By the gradient alone, from the terminal through air past the plate to bench and floor, which count as grounded. */
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
  const { resistance } = machine.belt;
  if (resistance === undefined) return undefined;
  const { rollers } = machine;
  const down = atBothRuns(resistance);
  return wayOf(machine, {
    id: 'way/belt-leakage',
    title: 'belt takes down what it brings up',
    kind: 'corona',
    at: ({ current }) => current * down,
    length: machine.belt.loopLength / 2,
    path: [
      [0, 0, rollers.upper.axisZ],
      [0, 0, rollers.lower.axisZ],
    ],
    surfaces: ['belt'],
    basis: 'Ohm’s law with the measured resistance, both runs side by side, against the charging current',
    status: 'computed',
  });
}
