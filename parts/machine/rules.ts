import {
  BELT_CROWN,
  BELT_ROOM_MARGIN,
  BELT_WANDER,
  FRICTION_HIGH,
  FRICTION_LOW,
  PLATE_BEYOND_TUBE,
} from './allowances.js';
import { beltRoom } from './belt-path.js';
import type { MachineValues } from './declarations.js';
import { DRIVE_RULES } from './drive-rules.js';
import { leastRod } from './lip-ring.js';
import {
  axleFitsBearing,
  bearingAsNamed,
  flatShallowerThanAxleRadius,
  shellTakesAxle,
  shellTakesBearing,
  shellTakesNut,
  shellWallTakesDogs,
} from './roller-rules.js';
import { atLeast, atMost, below, type Check, type End, mm, type RuleMiss } from './rule-words.js';
import { runningSurface } from './sleeve.js';
import { short } from './units.js';

const smallestBore = ({ column: { tube } }: MachineValues) => tube.outer.low - 2 * tube.wall.high;

/** The wall leaves a bore, even at the thickest reading. */
export function wallLeavesBore(values: MachineValues): RuleMiss | undefined {
  const { outer, wall } = values.column.tube;
  return below(
    ['column.tube.wall', 'column.tube.outer'],
    'walls of together',
    2 * wall.high,
    'the outside diameter',
    outer.low,
  );
}

/** Both runs of the belt, with its wander and crown, pass the tube at its narrowest. */
export function beltPassesTube(values: MachineValues): RuleMiss | undefined {
  const { belt, rollers, assume } = values;
  const { scatter } = values.print.calibration;
  const bore = smallestBore(values);
  if (bore <= 0) return undefined;
  const needed = beltRoom({
    width: belt.width,
    thickness: belt.thickness,
    wander: assume.belt_wander ?? BELT_WANDER.value,
    crown: assume.belt_crown ?? BELT_CROWN.value,
    bulge: 0,
    rollerDiameter: Math.max(
      runningSurface(rollers.lower, scatter).high,
      runningSurface(rollers.upper, scatter).high,
    ),
  });
  const available = bore - BELT_ROOM_MARGIN.value;
  if (needed <= available) return undefined;
  const measured = `the tube’s inner diameter of ${mm(bore)} less ${mm(BELT_ROOM_MARGIN.value)}`;
  return {
    keys: [
      'belt.width',
      'column.tube.outer',
      'column.tube.wall',
      'rollers.lower.outer',
      'rollers.upper.outer',
    ],
    found: `a belt that needs ${mm(needed)} of room`,
    expected: `at most ${mm(available)}, ${measured} (${mm(needed - available)} too much)`,
  };
}

export function openingSmallerThanTerminal({ terminal }: MachineValues): RuleMiss | undefined {
  const keys = ['terminal.opening.diameter', 'terminal.diameter'];
  return below(
    keys,
    'an opening of',
    terminal.opening.diameter.high,
    'the terminal’s diameter',
    terminal.diameter.low,
  );
}

/** The bead around the opening lies within the terminal. */
export function lipFitsOpening({ terminal }: MachineValues): RuleMiss | undefined {
  const { opening, diameter } = terminal;
  if (opening.diameter.high >= diameter.low) return undefined;
  const keys = ['terminal.opening.lip', 'terminal.opening.diameter', 'terminal.diameter'];
  const across = opening.diameter.high + 4 * opening.lip;
  return below(keys, 'opening and bead of together', across, 'the terminal’s diameter', diameter.low);
}

export function terminalShellThinnerThanRadius({ terminal }: MachineValues): RuleMiss | undefined {
  const keys = ['terminal.shell', 'terminal.diameter'];
  return below(keys, 'sheet of', terminal.shell, 'the terminal’s radius', terminal.diameter.low / 2);
}

/** A ring's rod is thick enough for clips that hold it beside the sheet, and the terminal is wide enough for both. */
export function ringTakesClips({ terminal }: MachineValues): RuleMiss | undefined {
  const { opening, shell, diameter, height } = terminal;
  if (opening.edge !== 'ring' || opening.diameter.mean >= diameter.mean) return undefined;
  const keys = ['terminal.opening.lip', 'terminal.shell', 'terminal.opening.edge'];
  const least = leastRod(opening.diameter.mean / 2, shell, diameter.mean / 2, height?.mean);
  const found = `a ring of ${mm(2 * opening.lip)} rod`;
  if (least === undefined)
    return { keys, found, expected: 'a smaller opening: no rod has clips beside a sheet of this thickness' };
  return atLeast(keys, 'a ring of rod', 2 * opening.lip, 'what its clips hold beside the sheet,', 2 * least);
}

/** That there is air enough between them is a check of its own. */
export function tubePassesOpening({ column, terminal }: MachineValues): RuleMiss | undefined {
  const keys = ['terminal.opening.diameter', 'column.tube.outer'];
  return below(
    keys,
    'a tube of',
    column.tube.outer.high,
    'the opening’s diameter',
    terminal.opening.diameter.low,
  );
}

export function insertionWithinTerminal({ column, terminal }: MachineValues): RuleMiss | undefined {
  const { insertion } = terminal;
  const height = terminal.height ?? terminal.diameter;
  return (
    below(
      ['terminal.insertion', 'column.tube.length'],
      'an insertion of',
      insertion,
      'the tube’s length',
      column.tube.length,
    ) ??
    below(
      ['terminal.insertion', 'terminal.diameter'],
      'an insertion of',
      insertion,
      'the terminal’s height',
      height.low,
    )
  );
}

/** How much wider it should be is a check of its own. */
export function beltNarrowerThanRoller(values: MachineValues, end: End): RuleMiss | undefined {
  const keys = ['belt.width', `rollers.${end}.length`];
  return below(
    keys,
    'a belt of',
    values.belt.width,
    `the ${end} roller’s length`,
    values.rollers[end].length,
  );
}

export function combNarrowerThanBelt(values: MachineValues, end: End): RuleMiss | undefined {
  const keys = [`combs.${end}.width`, 'belt.width'];
  return atMost(keys, 'a comb of', values.combs[end].width, 'the belt’s width', values.belt.width);
}

/** The strips without charge leave some of the belt between them. */
export function beltKeepsCharge({ assume, belt }: MachineValues): RuleMiss | undefined {
  if (assume.belt_margin === undefined) return undefined;
  const keys = ['assume.belt_margin', 'belt.width'];
  return below(keys, 'strips of together', 2 * assume.belt_margin, 'the belt’s width', belt.width);
}

function axleKind(values: MachineValues, end: End, kind: 'live' | 'dead', why: string): RuleMiss | undefined {
  const found = values.rollers[end].axle.kind;
  if (found === kind) return undefined;
  return {
    keys: [`rollers.${end}.axle.kind`],
    found: `a ${found} axle in the ${end} roller`,
    expected: `${kind}: ${why}`,
  };
}

export function lowerAxleLive(values: MachineValues): RuleMiss | undefined {
  return axleKind(values, 'lower', 'live', 'the lower roller is driven through its axle');
}

export function upperAxleDead(values: MachineValues): RuleMiss | undefined {
  return axleKind(values, 'upper', 'dead', 'the upper roller idles on an axle held by the belt’s tension');
}

export function plateCoversOpening({ base, column }: MachineValues): RuleMiss | undefined {
  const keys = ['base.plate.diameter', 'column.tube.outer'];
  const needed = column.tube.outer.high + PLATE_BEYOND_TUBE.value;
  return atLeast(keys, 'a plate of', base.plate.diameter, 'the tube with collar and screws,', needed);
}

export function frictionOrdered({ assume }: MachineValues): RuleMiss | undefined {
  const low = assume.friction_low ?? FRICTION_LOW.value;
  const high = assume.friction_high ?? FRICTION_HIGH.value;
  if (low <= high) return undefined;
  const keys =
    assume.friction_low === undefined
      ? ['assume.friction_high']
      : ['assume.friction_low', 'assume.friction_high'];
  return {
    keys,
    found: `a low friction of ${short(low)}`,
    expected: `at most the high one, ${short(high)} (${short(low - high)} too much)`,
  };
}

export function layerThinnerThanNozzle({ print }: MachineValues): RuleMiss | undefined {
  return below(
    ['print.layer', 'print.nozzle'],
    'a layer of',
    print.layer,
    'the nozzle’s diameter',
    print.nozzle,
  );
}

type EndCheck = (values: MachineValues, end: End) => RuleMiss | undefined;

const once = (check: Check) => [{ name: check.name, check }];
const atBothEnds = (check: EndCheck) =>
  (['lower', 'upper'] as const).map((end) => ({
    name: check.name,
    check: (values: MachineValues) => check(values, end),
  }));

/** Every rule between values, under its name; one that concerns a roller or comb stands here once for each end. */
export const RULES: readonly { readonly name: string; readonly check: Check }[] = [
  ...[wallLeavesBore, beltPassesTube].flatMap(once),
  ...[openingSmallerThanTerminal, lipFitsOpening, terminalShellThinnerThanRadius, ringTakesClips].flatMap(
    once,
  ),
  ...[tubePassesOpening, insertionWithinTerminal].flatMap(once),
  ...[
    shellWallTakesDogs,
    shellTakesAxle,
    shellTakesNut,
    flatShallowerThanAxleRadius,
    axleFitsBearing,
    bearingAsNamed,
    shellTakesBearing,
  ].flatMap(atBothEnds),
  ...[beltNarrowerThanRoller, combNarrowerThanBelt].flatMap(atBothEnds),
  ...[beltKeepsCharge, lowerAxleLive, upperAxleDead].flatMap(once),
  ...DRIVE_RULES.flatMap(once),
  ...[plateCoversOpening, frictionOrdered, layerThinnerThanNozzle].flatMap(once),
];
