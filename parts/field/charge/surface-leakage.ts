import type { Machine } from '../../machine/machine.js';
import type { TubeKey } from '../../stock/plastics.js';
import {
  DRY_UP_TO,
  FOUL_SURFACE_DECADES,
  SURFACE_SPREAD_DECADES,
  surfaceResistivityOf,
} from '../../stock/surface-resistivity.js';
import { measuredOr, type Range, scaled } from '../range.js';
import { mustBePositive } from './door.js';

// SI throughout.

/**
 * Surface resistivity (ohm per square) of a tube: dry up to 50 % of humidity, a decade less for so many per cent above,
 * two decades less with dust or damp; a decade to either side.
 * @param humidity relative, %, 0 to 100
 */
export function surfaceResistivity(
  material: TubeKey,
  { humidity, cleanliness }: Pick<Machine['site'], 'humidity' | 'cleanliness'>,
): Range {
  if (!(humidity >= 0 && humidity <= 100)) throw new RangeError(`no relative humidity: ${humidity} %`);
  const { dry, perDecade } = surfaceResistivityOf(material);
  const moist = Math.max(0, humidity - DRY_UP_TO.value) / perDecade.value;
  const foul = cleanliness === 'clean' ? 0 : FOUL_SURFACE_DECADES.value;
  const likely = dry.value * 10 ** -(moist + foul);
  const decade = 10 ** SURFACE_SPREAD_DECADES.value;
  return { low: likely / decade, likely, high: likely * decade };
}

/**
 * Resistance (ohm) of a tube's two surfaces side by side, R = rho L/(pi (Do + Di)).
 * @param resistivity ohm per square
 * @param length m
 * @param outer diameter, m
 * @param inner diameter, m
 */
export function tubeLeakResistance(
  resistivity: number,
  length: number,
  outer: number,
  inner: number,
): number {
  mustBePositive(resistivity, 'a surface resistivity');
  mustBePositive(length, 'a tube’s length');
  mustBePositive(outer, 'a tube’s outside diameter');
  mustBePositive(inner, 'a tube’s bore');
  return (resistivity * length) / (Math.PI * (outer + inner));
}

/** Length (m) of column surface between the lip's plane and the top of the mount; never less than the tube's wall. */
export function leakLength({ terminal, grip, tube }: Machine): number {
  return Math.max(terminal.lipZ - grip.mount.headTop, tube.wall.mean) / 1000;
}

/** Resistance (ohm) of the column's surfaces, outside and bore, from terminal to mount. */
export function columnLeakResistance(machine: Machine): Range {
  const { tube, site, assume } = machine;
  const perSquare = measuredOr(surfaceResistivity(tube.material, site), assume.surfaceResistivity);
  const squares = tubeLeakResistance(
    1,
    leakLength(machine),
    tube.outer.mean / 1000,
    tube.inner.likely / 1000,
  );
  return scaled(perSquare, squares);
}
