import { dischargeOf } from '../field/discharge.js';
import type { Machine } from '../machine/machine.js';
import { altitudeFactor, clearanceSteady, creepage } from '../stock/iec60664.js';
import { attempt, lengthText, withTubeLength } from './change.js';
import { type Finding, isLower, marginOf, type Remedy, type Severity, told } from './finding.js';
import type { MeasuredWay } from './insulation.js';
import { pollutionOf } from './insulation-limit.js';
import { RATIO, severityOfWay } from './way-severity.js';

/** Finds the ways of a machine with other values. */
export type Again = (machine: Machine) => Promise<readonly MeasuredWay[]>;

/** A measured way against the voltage (V) of the intended discharge. */
export async function insulationFinding(
  machine: Machine,
  measured: MeasuredWay,
  discharge: number,
  again: Again,
): Promise<Finding> {
  const { limit, carried, floating, conducting } = measured;
  const severity = severityOfWay(limit, discharge);
  const { low, likely, high } = limit.voltage;
  const kilovolts = (value: number) => (value / 1000).toFixed(0);
  const [holds, asked] = [likely / 1000, (RATIO.ok * discharge) / 1000];
  const length = (limit.length * RATIO.ok * discharge) / carried;
  const remedy = severity === 'ok' ? '' : await remedyOf(machine, measured, discharge, severity, again);
  const loose =
    floating.length > 0
      ? `; nothing connects ${floating.join(' and ')}: taken at its worst, as bonded to the side it is nearer to`
      : '';
  const prints =
    conducting.length > 0
      ? `; ${conducting.join(' and ')}: a print that conducts, an electrode and no insulator`
      : '';
  return {
    id: limit.id,
    severity,
    title: `${capital(limit.title)}, ${limit.length.toFixed(0)} mm: likely limit against ${RATIO.ok} times the discharge voltage of ${kilovolts(discharge)} kV`,
    measured: holds,
    required: asked,
    unit: 'kV',
    sense: 'min',
    margin: marginOf(holds, asked, 'min'),
    basis: `limit voltage ${kilovolts(low)}, ${kilovolts(likely)}, ${kilovolts(high)} kV (low, likely, high); by gradients alone ${length.toFixed(0)} mm are asked; ${limit.basis}${loose}${prints}${standardRow(machine, measured, discharge)}`,
    status: limit.status,
    ...told(severity, () => remedy),
    at: { path: limit.path, surfaces: limit.surfaces },
  };
}

/** What the standard’s tables say: information, since no supply of power feeds the terminal. */
function standardRow(machine: Machine, { medium }: MeasuredWay, discharge: number): string {
  if (medium === 'wall' || medium === 'line') return '';
  const found =
    medium === 'surface'
      ? creepage(discharge, pollutionOf(machine), 'IIIa')
      : clearanceSteady(discharge / 1000, 'A');
  const { factor, note } = altitudeFactor(machine.site.altitude);
  const times = medium === 'air' && factor !== undefined && factor > 1 ? ` times ${factor} (${note})` : '';
  const says = found.distance === undefined ? found.note : `${found.note}: ${found.distance} mm${times}`;
  return `. For information only, since it binds what a supply feeds: IEC 60664-1 ${says}`;
}

/** Longer by a little than what is asked, since what else changes is not foreseen. */
const MARGIN = 1.01;

/** A longer tube, measured again; or less voltage. */
async function remedyOf(
  machine: Machine,
  { limit }: MeasuredWay,
  discharge: number,
  severity: Severity,
  again: Again,
): Promise<Remedy> {
  const { low, likely } = limit.voltage;
  const calm = Math.floor(Math.min(likely / RATIO.ok, low / RATIO.least) / 1000);
  const target = `take at most ${calm} kV as target`;
  const targetTries = attempt(machine, `a target of ${calm} kV`, { 'target.voltage': calm * 1000 }, (tried) =>
    isLower(severityOfWay(limit, dischargeOf(tried)), severity),
  );
  const longer = await longerTube(machine, limit.id, discharge, severity, again);
  return {
    text: longer ? `${longer.text}; or ${target}` : target,
    tries: [...(longer?.tries ?? []), ...targetTries],
  };
}

/** Lengths (mm, whole) that were tried for a machine, with what was found: ways of one machine ask for the same ones. */
const TRIED = new WeakMap<Machine, Map<number, readonly MeasuredWay[]>>();

async function longerTube(
  machine: Machine,
  id: string,
  discharge: number,
  severity: Severity,
  again: Again,
): Promise<Remedy | undefined> {
  const tried = TRIED.get(machine) ?? new Map<number, readonly MeasuredWay[]>();
  TRIED.set(machine, tried);
  const now = machine.tube.length;
  const waysAt = async (length: number): Promise<readonly MeasuredWay[]> => {
    const known = tried.get(length);
    if (known) return known;
    const found = await again(withTubeLength(machine, length));
    tried.set(length, found);
    return found;
  };
  const all = await waysAt(now);
  const wanted = Math.max(...all.map(({ limit }) => missing(limit, discharge)));
  const length = Math.ceil(now + MARGIN * wanted);
  const found = (await waysAt(length)).find(({ limit }) => limit.id === id);
  const there = dischargeOf(withTubeLength(machine, length));
  const better = !found || isLower(severityOfWay(found.limit, there), severity);
  if (!better) return undefined;
  const tries = attempt(
    machine,
    `a tube of ${lengthText(machine, length)}`,
    { 'column.tube.length': length },
    () => true,
  );
  if (tries.length === 0) return undefined;
  const result = found
    ? `measured again it is ${found.limit.length.toFixed(0)} mm and holds ${(found.limit.voltage.likely / 1000).toFixed(0)} kV`
    : 'measured again it is none of the shortest any more';
  return {
    text: `a tube of ${lengthText(machine, length)} instead of ${lengthText(machine, now)}: ${result}`,
    tries,
  };
}

/** mm by which a way is too short. */
function missing({ length, voltage }: MeasuredWay['limit'], discharge: number): number {
  const factor = Math.max((RATIO.ok * discharge) / voltage.likely, (RATIO.least * discharge) / voltage.low);
  return Math.max(0, factor - 1) * length;
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
