import type { LimitWay } from '../field/way.js';
import type { Machine } from '../machine/machine.js';
import { creepage } from '../stock/iec60664.js';
import type { Check } from './check.js';
import { type Finding, marginOf, told } from './finding.js';
import { wayRemedy } from './way-remedy.js';
import { isGrave, RATIO, severityOfWay } from './way-severity.js';

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
