import { findBearing } from '../stock/bearings.js';
import { AXLE_MISMATCH, BEARING_MISMATCH, HUB_WALL, SHELL_WALL } from './allowances.js';
import type { MachineValues } from './declarations.js';
import { leastLiveShell } from './hub.js';
import { atLeast, below, type End, mm, type RuleMiss } from './rule-words.js';

// Rules between the values of one roller: its shell, its axle and its bearing.

/** The shell's wall carries the dogs that drive it, and leaves room on the hub's face for its code. */
export function shellWallTakesDogs(values: MachineValues, end: End): RuleMiss | undefined {
  const { inner, outer } = values.rollers[end];
  const keys = [`rollers.${end}.inner`, `rollers.${end}.outer`];
  const wall = SHELL_WALL.value;
  return atLeast(keys, 'a shell of', outer.low, `its bore and a wall of ${mm(wall)},`, inner.high + 2 * wall);
}

/** Where the hub turns with its axle, the shell's bore has room for axle and hub. */
export function shellTakesAxle(values: MachineValues, end: End): RuleMiss | undefined {
  const { axle, inner } = values.rollers[end];
  if (axle.kind !== 'live') return undefined;
  const keys = [`rollers.${end}.inner`, `rollers.${end}.axle.diameter`];
  const what = `the axle and ${mm(HUB_WALL.value)} of hub around it,`;
  return atLeast(keys, 'a shell’s bore of', inner.low, what, axle.diameter + 2 * HUB_WALL.value);
}

/** Where the hub is screwed to its axle, its flange has room for the nut. */
export function shellTakesNut(values: MachineValues, end: End): RuleMiss | undefined {
  const { axle, outer } = values.rollers[end];
  if (axle.kind !== 'live') return undefined;
  const keys = [`rollers.${end}.outer`, `rollers.${end}.axle.diameter`];
  const what = 'a hub with the set screw’s nut in it,';
  return atLeast(keys, 'a shell’s outside diameter of', outer.low, what, leastLiveShell(axle.diameter));
}

export function flatShallowerThanAxleRadius(values: MachineValues, end: End): RuleMiss | undefined {
  const { diameter, flat } = values.rollers[end].axle;
  return below(
    [`rollers.${end}.axle.flat`, `rollers.${end}.axle.diameter`],
    'a flat of',
    flat,
    'the axle’s radius',
    diameter / 2,
  );
}

/** Axle and bearing are of one size. */
export function axleFitsBearing(values: MachineValues, end: End): RuleMiss | undefined {
  const { axle, bearing } = values.rollers[end];
  const { bore, designation } = bearingRow(bearing);
  const difference = Math.abs(axle.diameter - bore);
  // A micrometre of tolerance for what decimals of inches lose.
  if (difference <= AXLE_MISMATCH.value + 0.001) return undefined;
  return {
    keys: [`rollers.${end}.axle.diameter`, `rollers.${end}.bearing`],
    found: `an axle of ${mm(axle.diameter)}`,
    expected: `the bore of bearing ${designation}, ${mm(bore)}, within ${mm(AXLE_MISMATCH.value)} (${mm(difference)} apart)`,
  };
}

/** A bearing that measures otherwise than its name says is another bearing, or was measured across its shield. */
export function bearingAsNamed(values: MachineValues, end: End): RuleMiss | undefined {
  const { bearing, bearing_outer: measured } = values.rollers[end];
  if (!measured) return undefined;
  const { outer, designation } = bearingRow(bearing);
  const difference = Math.abs(measured.mean - outer);
  if (difference <= BEARING_MISMATCH.value) return undefined;
  return {
    keys: [`rollers.${end}.bearing_outer`, `rollers.${end}.bearing`],
    found: `an outside diameter of ${mm(measured.mean)}`,
    expected: `that of bearing ${designation}, ${mm(outer)}, within ${mm(BEARING_MISMATCH.value)} (${mm(difference)} apart)`,
  };
}

/** Where the bearing sits in the hub, the shell's bore has room for it and a wall around it. */
export function shellTakesBearing(values: MachineValues, end: End): RuleMiss | undefined {
  const { axle, bearing, inner } = values.rollers[end];
  if (axle.kind !== 'dead') return undefined;
  const { outer, designation } = bearingRow(bearing);
  const what = `bearing ${designation} (outside ${mm(outer)}) and ${mm(HUB_WALL.value)} of hub around it,`;
  const keys = [`rollers.${end}.inner`, `rollers.${end}.bearing`];
  return atLeast(keys, 'a shell’s bore of', inner.low, what, outer + 2 * HUB_WALL.value);
}

function bearingRow(name: string) {
  const match = findBearing(name);
  if (!match) throw new RangeError(`no bearing ${name} in stock`);
  return match.row;
}
