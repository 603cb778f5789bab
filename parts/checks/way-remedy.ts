import { coronaWay } from '../field/corona-ways.js';
import { dischargeOf } from '../field/discharge.js';
import { gradientPart } from '../field/gradient-part.js';
import type { PlaceName } from '../field/machine-field.js';
import type { LimitWay } from '../field/way.js';
import { limitWay } from '../field/ways.js';
import type { Machine } from '../machine/machine.js';
import { attempt, type Changes, lengthText, nearestThatHolds, withTubeLength, withValues } from './change.js';
import { isLower, type Remedy, type Severity, type Trial } from './finding.js';
import { RATIO, severityOfWay } from './way-severity.js';

/** mm, the longest tube a remedy may ask for: what still stands in a room. */
const LONGEST_TUBE = 3000;

/**
 * Smallest tube length (mm, whole mm) at which a way is no worse than `worst` at this discharge voltage, by the gradients
 * that its length sets: what streamers need to start can only raise its limit further.
 */
export function tubeLengthFor(
  machine: Machine,
  id: string,
  discharge: number,
  worst: Severity,
): number | undefined {
  return nearestThatHolds(machine.tube.length, LONGEST_TUBE, 1, (length) => {
    const way = gradientPart(withTubeLength(machine, length), id);
    return way !== undefined && !isLower(worst, severityOfWay(way, discharge));
  });
}

/** A tube so much longer, and so much more, is taken for the discharge that any longer tube leads to. */
const MUCH_LONGER = 2;
const LITTLE_MORE = 1.02;

/**
 * Voltage (V) that longer tubes are judged by: the target; without one the terminal’s own discharge, which a longer column
 * puts off too.
 */
function dischargeWithLonger(machine: Machine, discharge: number): number {
  if (machine.targetVoltage !== undefined) return discharge;
  const length = Math.min(LONGEST_TUBE, MUCH_LONGER * machine.tube.length);
  return LITTLE_MORE * Math.max(discharge, dischargeOf(withTubeLength(machine, length)));
}

/** By what lengths give alone, which is never more than what the field gives. */
function severityByLength(machine: Machine, id: string, discharge: number): Severity {
  const way = gradientPart(machine, id);
  return way ? severityOfWay(way, discharge) : 'ok';
}

/** Severity of a way of a tried machine, at its own discharge voltage. */
function severityAnew(machine: Machine, id: string): Severity {
  // What lengths give is never more than what the field gives, and costs no solution.
  const way = gradientPart(machine, id) ?? limitWay(machine, id);
  return way ? severityOfWay(way, dischargeOf(machine)) : 'ok';
}

/** Tried by working the machine out again with another tube, bead or insertion; what they cannot mend, a lower target can. */
export function wayRemedy(machine: Machine, way: LimitWay, discharge: number): Remedy {
  if (way.id === 'way/belt-leakage') return { text: 'another belt: this one conducts', tries: [] };
  const severity = severityOfWay(way, discharge);
  const mended = mend(machine, way, discharge, severity);
  const calm = Math.floor(Math.min(way.voltage.likely / RATIO.ok, way.voltage.low / RATIO.least) / 1000);
  const target = `take at most ${calm} kV as target`;
  return {
    text: mended.text ? `${mended.text} or ${target}` : target,
    tries: [
      ...mended.tries,
      ...attempt(machine, `a target of ${calm} kV`, { 'target.voltage': calm * 1000 }, (tried) =>
        isLower(severityAnew(tried, way.id), severity),
      ),
    ],
  };
}

function mend(machine: Machine, way: LimitWay, discharge: number, severity: Severity): Remedy {
  switch (way.id) {
    case 'way/terminal-lip':
      return largerBead(machine, way, discharge, severity);
    case 'way/upper-comb':
      return deeper(machine, way, 'upperComb', discharge, severity);
    case 'way/upper-metal':
      return deeper(machine, way, 'upperMetal', discharge, severity);
    case 'way/lower-comb':
    case 'way/base-edge':
      return { text: '', tries: [] };
    default:
      return tubeRemedy(machine, way.id, dischargeWithLonger(machine, discharge), severity);
  }
}

/** Text empty where no tube helps. */
function tubeRemedy(machine: Machine, id: string, discharge: number, severity: Severity): Remedy {
  const cleared = severity === 'danger' ? tubeLengthFor(machine, id, discharge, 'caution') : undefined;
  const nothingLeft = tubeLengthFor(machine, id, discharge, 'ok');
  const shown = (length: number) => lengthText(machine, length);
  const steps = [
    ...(cleared === undefined
      ? []
      : [`a tube of at least ${shown(cleared)} instead of ${shown(machine.tube.length)} clears the danger;`]),
    ...(nothingLeft === undefined ? [] : [`a tube of ${shown(nothingLeft)} clears the finding altogether;`]),
  ];
  const lengths = [...new Set([cleared, nothingLeft])];
  const tries = lengths.flatMap((length): readonly Trial[] =>
    length === undefined
      ? []
      : attempt(machine, `a tube of ${shown(length)}`, { 'column.tube.length': length }, (tried) =>
          isLower(severityByLength(tried, id, discharge), severity),
        ),
  );
  return { text: steps.join(' '), tries };
}

/** mm, the largest bead that spun terminals are sold with. */
const LARGEST_BEAD = 20;
/** Beads that are tried, as multiples of the bead that is there. */
const BEADS = [1.5, 2, 3, 5];

function largerBead(machine: Machine, way: LimitWay, discharge: number, severity: Severity): Remedy {
  const { lipRadius } = machine.terminal;
  const beads = [
    ...new Set(BEADS.map((times) => Math.min(LARGEST_BEAD, Math.ceil(2 * times * lipRadius) / 2))),
  ];
  return solvedAgain(machine, way, 'lip', discharge, severity, {
    steps: beads.filter((bead) => bead > lipRadius),
    changes: (bead) => ({ 'terminal.opening.lip': bead }),
    what: (bead) => `a bead of ${lengthText(machine, bead)} radius`,
    instead: `${lengthText(machine, lipRadius)}, around the opening`,
    else: 'a bead and lip without dents or seams',
  });
}

/** mm by which the terminal is lowered over what is within it. */
const DEEPER = [10, 20, 40, 80];

function deeper(
  machine: Machine,
  way: LimitWay,
  place: PlaceName,
  discharge: number,
  severity: Severity,
): Remedy {
  const { insertion } = machine.terminal;
  return solvedAgain(machine, way, place, discharge, severity, {
    steps: DEEPER.map((more) => insertion + more),
    changes: (deep) => ({ 'terminal.insertion': deep }),
    what: (deep) => `an insertion of ${lengthText(machine, deep)}`,
    instead: lengthText(machine, insertion),
    else: 'metal above that ends higher or without edges',
  });
}

interface Steps {
  /** Ascending. */
  readonly steps: readonly number[];
  readonly changes: (step: number) => Changes;
  readonly what: (step: number) => string;
  /** What is there now, in words. */
  readonly instead: string;
  /** What is left to do where no step is enough. */
  readonly else: string;
}

/** The first of several changes with which a corona’s onset is well, each solved again; told with what it gains. */
function solvedAgain(
  machine: Machine,
  way: LimitWay,
  place: PlaceName,
  discharge: number,
  severity: Severity,
  { steps, changes, what, instead, else: left }: Steps,
): Remedy {
  const told = ({ voltage: { low, likely } }: LimitWay) =>
    `${(low / 1000).toFixed(0)}, ${(likely / 1000).toFixed(0)}`;
  const raises = (step: number, again: LimitWay) =>
    `${what(step)} instead of ${instead} raises the limit (low, likely) from ${told(way)} to ${told(again)} kV`;
  let helps = '';
  for (const step of steps) {
    if (!mayHold(machine, changes(step))) break;
    const again = coronaWay(withValues(machine, changes(step)), place);
    if (!again || again.voltage.low < way.voltage.low) break;
    if (severityOfWay(again, discharge) === 'ok') {
      const tries = attempt(machine, what(step), changes(step), (tried) =>
        isLower(severityAnew(tried, way.id), severity),
      );
      return { text: `${raises(step, again)};`, tries };
    }
    if (again.voltage.low >= (1 + WORTH_TELLING) * way.voltage.low)
      helps = ` (${raises(step, again)}: not enough by itself)`;
  }
  return { text: `${left}${helps},`, tries: [] };
}

/** A change that raises a limit by less than this share is not worth telling. */
const WORTH_TELLING = 0.02;

/** Whether the machine file may hold a change at all. */
function mayHold(machine: Machine, changes: Changes): boolean {
  return attempt(machine, '', changes, () => true).length > 0;
}
