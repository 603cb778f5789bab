import { predict } from '../field/predict.js';
import type { LimitWay } from '../field/way.js';
import { limitWay, terminalLip } from '../field/ways.js';
import type { Machine } from '../machine/machine.js';
import { creepage } from '../stock/iec60664.js';
import { attempt, lengthText, nearestThatHolds, withTubeLength, withValues } from './change.js';
import type { Check } from './check.js';
import { type Finding, isLower, marginOf, type Remedy, type Severity, type Trial, told } from './finding.js';
import { SOFT } from './judge.js';

/** A way's limit over the voltage of the intended discharge: enough, and barely. Common practice, no source. */
export const RATIO = { ok: 1.3, least: 1 } as const;
/** mm, the longest tube a remedy may ask for: what still stands in a room. */
const LONGEST_TUBE = 3000;

/**
 * A way is `ok` when its likely limit is 1.3 times the discharge voltage and its low limit reaches it, `danger` when its
 * likely limit does not reach it. Corona takes current but breaks nothing down, so that it is a `caution` at most; so is a
 * wall of which nothing published tells the strength.
 */
export function severityOfWay(
  way: Pick<LimitWay, 'kind' | 'voltage' | 'status'>,
  discharge: number,
): Severity {
  const { low, likely } = way.voltage;
  if (likely < RATIO.least * discharge) return isGrave(way) ? 'danger' : 'caution';
  return likely < RATIO.ok * discharge || low < RATIO.least * discharge ? 'caution' : 'ok';
}

/** Whether a way breaks down for good where its likely limit falls short. */
const isGrave = ({ kind, status }: Pick<LimitWay, 'kind' | 'status'>) =>
  kind === 'spark' || (kind === 'puncture' && !SOFT.includes(status));

/** The rule of `severityOfWay` in words. */
function ruleOf(way: Pick<LimitWay, 'kind' | 'status'>): string {
  const [least, enough] = [RATIO.least.toFixed(1), RATIO.ok.toFixed(1)];
  const barely = `below ${enough}, or low limit below ${least}`;
  return isGrave(way)
    ? `danger below ${least} times the discharge voltage, caution ${barely}`
    : `caution at most: ${barely} times the discharge voltage`;
}

/** Every way but the intended one, with its limit voltage against the voltage of the intended discharge. */
export const checkWays: Check = (machine, { ways, discharge }) =>
  ways.filter(({ kind }) => kind !== 'terminal').map((way) => wayFinding(machine, way, discharge));

export function wayFinding(machine: Machine, way: LimitWay, discharge: number): Finding {
  const measured = way.voltage.likely / 1000;
  const required = (RATIO.ok * discharge) / 1000;
  const severity = severityOfWay(way, discharge);
  const gradient =
    way.length > 0 && way.surfaces.length > 1
      ? `; ${meanGradient(discharge, way.length)} kV/cm at ${(discharge / 1000).toFixed(0)} kV`
      : '';
  return {
    id: way.id,
    severity,
    title: `${capital(way.title)}: likely limit against ${RATIO.ok} times the discharge voltage of ${(discharge / 1000).toFixed(0)} kV`,
    measured,
    required,
    unit: 'kV',
    sense: 'min',
    margin: marginOf(measured, required, 'min'),
    basis: `limit voltage ${volts(way.voltage.low)}, ${volts(way.voltage.likely)}, ${volts(way.voltage.high)} kV (low, likely, high); ${ruleOf(way)}${gradient}${toPlate(machine, way, discharge)}; ${way.basis}${columnRow(way, discharge)}`,
    status: way.status,
    ...told(severity, () => wayRemedy(machine, way, discharge)),
    at: way.path.length === 1 ? { point: way.path[0]! } : { path: way.path, surfaces: way.surfaces },
  };
}

function toPlate({ terminal }: Machine, way: LimitWay, discharge: number): string {
  if (way.id !== 'way/column-outer') return '';
  return `, ${meanGradient(discharge, terminal.lipZ)} kV/cm counted from lip to plate`;
}

/** What the standard's table says of a column's length: information, since no supply of power feeds the terminal. */
function columnRow(way: LimitWay, discharge: number): string {
  if (!COLUMNS.includes(way.id)) return '';
  const { distance, note } = creepage(discharge, 2, 'IIIa');
  const says = distance === undefined ? note : `${note}: ${distance} mm`;
  return `. For information only, since it binds what a supply feeds: IEC 60664-1 ${says}`;
}

const volts = (value: number) => (value / 1000).toFixed(0);
const meanGradient = (voltage: number, mm: number) => (voltage / 1000 / (mm / 10)).toFixed(2);
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

const COLUMNS: readonly string[] = ['way/column-outer', 'way/column-inner'];

/** Smallest tube length (mm, whole mm) at which a way is no worse than `worst` at this discharge voltage. */
export function tubeLengthFor(
  machine: Machine,
  id: string,
  discharge: number,
  worst: Severity,
): number | undefined {
  return nearestThatHolds(machine.tube.length, LONGEST_TUBE, 1, (length) => {
    const way = limitWay(withTubeLength(machine, length), id);
    return way !== undefined && !isLower(worst, severityOfWay(way, discharge));
  });
}

/** Severity of a way as `checkWays` finds it, at the machine's own discharge voltage. */
function severityAnew(machine: Machine, id: string): Severity {
  const way = limitWay(machine, id);
  return way ? severityOfWay(way, machine.targetVoltage ?? predict(machine).discharge * 1000) : 'ok';
}

/** Tried by working the machine out again with another tube; what a tube cannot mend, a lower target can. */
function wayRemedy(machine: Machine, way: LimitWay, discharge: number): Remedy {
  if (way.id === 'way/belt-leakage') return { text: 'another belt: this one conducts', tries: [] };
  const severity = severityOfWay(way, discharge);
  const mended =
    way.id === 'way/terminal-lip'
      ? beadRemedy(machine, discharge, severity)
      : tubeRemedy(machine, way.id, discharge, severity);
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
          isLower(severityAnew(tried, id), severity),
        ),
  );
  return { text: steps.join(' '), tries };
}

/** mm, the largest bead that spun terminals are sold with. */
const LARGEST_BEAD = 20;

function withBead(machine: Machine, lip: number): Machine {
  return withValues(machine, { 'terminal.opening.lip': lip });
}

function beadRemedy(machine: Machine, discharge: number, severity: Severity): Remedy {
  const bead = nearestThatHolds(machine.terminal.lipRadius, LARGEST_BEAD, 0.5, (lip) => {
    return severityOfWay(terminalLip(withBead(machine, lip)), discharge) === 'ok';
  });
  const largest = lengthText(machine, LARGEST_BEAD);
  if (bead === undefined)
    return {
      text: `a bead and lip without dents or seams (no bead up to ${largest} would do by itself),`,
      tries: [],
    };
  const shown = lengthText(machine, bead);
  return {
    text: `a bead of ${shown} radius around the opening,`,
    tries: attempt(machine, `a bead of ${shown} radius`, { 'terminal.opening.lip': bead }, (tried) =>
      isLower(severityAnew(tried, 'way/terminal-lip'), severity),
    ),
  };
}
