import {
  ALTITUDE_FACTORS,
  CLEARANCE_SOURCE,
  type FieldCase,
  IMPULSE_CLEARANCES,
  type Pollution,
  STEADY_CLEARANCES,
} from './iec60664-clearances.js';
import { CREEPAGE_SOURCE, CREEPAGES } from './iec60664-creepages.js';
import type { Tracking } from './plastic.js';
import type { Sourced } from './row.js';

export type { FieldCase, Pollution } from './iec60664-clearances.js';
export type MaterialGroup = Tracking['group'];

/** An answer of the standard's tables, or the statement that they have none. */
export interface Looked extends Sourced {
  /** Whether the table answers; beyond its end it does not. */
  readonly inTable: boolean;
  /** The row or the pair of rows used, or the last row there is. */
  readonly row: string;
  readonly note: string;
}

export interface Distance extends Looked {
  /** mm; undefined beyond the table. */
  readonly distance: number | undefined;
}

export interface AltitudeFactor extends Looked {
  /** Multiplies a clearance; undefined beyond the table. */
  readonly factor: number | undefined;
}

type Point = readonly [at: number, value: number];

/**
 * Clearance (mm) for a steady, temporary or recurring peak voltage, Table F.8, up to 2000 m. Between rows it is
 * interpolated linearly, which the standard allows; below the first row the first row holds.
 *
 * @param kilovolts peak or d.c., not negative
 * @throws RangeError for a negative voltage or one that is not a number
 */
export function clearanceSteady(kilovolts: number, fieldCase: FieldCase): Distance {
  const points = STEADY_CLEARANCES.flatMap(({ kilovolts: at, a, b }): Point[] => {
    const value = fieldCase === 'A' ? a : b;
    return value === undefined ? [] : [[at, value]];
  });
  return clearance('Table F.8', fieldCase, points, kilovolts, 'kV peak');
}

/**
 * Clearance (mm) for a transient (impulse) voltage, Table F.2, up to 2000 m; read like `clearanceSteady`. Case B needs
 * an impulse test to be claimed.
 *
 * @param kilovolts impulse, not negative
 * @throws RangeError for a negative voltage or one that is not a number
 */
export function clearanceImpulse(kilovolts: number, fieldCase: FieldCase, pollution: Pollution): Distance {
  const points = IMPULSE_CLEARANCES.map(({ kilovolts: at, a, b }): Point => {
    return [at, (fieldCase === 'A' ? a : b)[pollution - 1]!];
  });
  return clearance('Table F.2', fieldCase, points, kilovolts, 'kV impulse');
}

/**
 * Creepage (mm) for a steady voltage, Table F.5. The next higher row is taken; nothing is interpolated. Below the first
 * row the first row holds.
 *
 * @param volts r.m.s. or d.c., not negative
 * @throws RangeError for a negative voltage or one that is not a number
 */
export function creepage(volts: number, pollution: Pollution, group: MaterialGroup): Distance {
  requireVoltage(volts, 'V');
  const column = group === 'I' ? 0 : group === 'II' ? 1 : 2;
  const rows = CREEPAGES.flatMap((row): Point[] => {
    const value = [row.clean, row.normal[column], row.dirty?.[column]][pollution - 1];
    return value === undefined ? [] : [[row.volts, value]];
  });
  const where = `Table F.5, pollution degree ${pollution}, material group ${group}`;
  const found = rows.find(([at]) => at >= volts);
  if (!found) {
    const end = rows.at(-1)![0];
    return { distance: undefined, ...beyond(where, `${end} V`, `${volts} V`), ...CREEPAGE_SOURCE };
  }
  const restricted = group === 'IIIb' && pollution === 3 && volts > 630;
  const note = restricted
    ? `${where}; the standard is believed to advise against group IIIb above 630 V at this degree (from memory)`
    : where;
  return { distance: found[1], inTable: true, row: `${found[0]} V`, note, ...CREEPAGE_SOURCE };
}

/**
 * What a clearance is multiplied by at an altitude, Table A.2. 1 up to 2000 m; interpolated linearly above, which is a
 * little more than the inverse pressure asks.
 *
 * @param altitude m, -500 and up
 * @throws RangeError below -500 m or for something that is not a number
 */
export function altitudeFactor(altitude: number): AltitudeFactor {
  if (!(altitude >= -500)) throw new RangeError(`not an altitude: ${altitude} m`);
  const points = ALTITUDE_FACTORS.map((row): Point => [row.altitude, row.factor]);
  const found = interpolate(points, altitude);
  if (!found) {
    const past = beyond('Table A.2', `${points.at(-1)![0]} m`, `${altitude} m`);
    return { factor: undefined, ...past, ...CLEARANCE_SOURCE };
  }
  return {
    factor: found.value,
    inTable: true,
    row: `${found.row} m`,
    note: 'Table A.2',
    ...CLEARANCE_SOURCE,
  };
}

function clearance(
  table: string,
  fieldCase: FieldCase,
  points: readonly Point[],
  kilovolts: number,
  unit: string,
): Distance {
  requireVoltage(kilovolts, 'kV');
  const where = `${table}, case ${fieldCase} (${fieldCase === 'A' ? 'inhomogeneous' : 'homogeneous'} field), up to 2000 m`;
  const found = interpolate(points, kilovolts);
  if (!found) {
    const end = `${points.at(-1)![0]} ${unit}`;
    return { distance: undefined, ...beyond(where, end, `${kilovolts} ${unit}`), ...CLEARANCE_SOURCE };
  }
  return {
    distance: found.value,
    inTable: true,
    row: `${found.row} ${unit}`,
    note: where,
    ...CLEARANCE_SOURCE,
  };
}

function beyond(where: string, end: string, asked: string): Pick<Looked, 'inTable' | 'row' | 'note'> {
  return { inTable: false, row: end, note: `${where} ends at ${end}: no published value at ${asked}` };
}

/** The first value below the table, a straight line between rows, undefined beyond the end. */
function interpolate(points: readonly Point[], at: number): { value: number; row: string } | undefined {
  const next = points.findIndex(([end]) => end >= at);
  if (next < 0) return undefined;
  const [high, highValue] = points[next]!;
  if (next === 0 || high === at) return { value: highValue, row: `${high}` };
  const [low, lowValue] = points[next - 1]!;
  return { value: lowValue + ((highValue - lowValue) * (at - low)) / (high - low), row: `${low} to ${high}` };
}

function requireVoltage(voltage: number, unit: string): void {
  if (!(voltage >= 0)) throw new RangeError(`not a voltage: ${voltage} ${unit}`);
}
