import { rectangle } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { prismAlongX } from '../solid/prisms.js';
import { loopArea } from '../solid/sections.js';
import type { Bounds, Loop } from '../solid/vector.js';
import type { Field } from './part.js';

/**
 * The eight-sided bar that the wand's handle is made of. It lies along x on one of its flats: flanks lean by 45 degrees and layers
 * run along it. A mortise is open to a bar's end and takes a plug; a pin goes through both, upright as printed.
 */

/** Steps of the wand on the scale of all steps: when the machine stands. */
export const WAND_STEPS = { grip: 90, guard: 91, plug: 92, segment: 93, pin: 94, head: 95 } as const;

/** A regular octagon by its width across flats, in [y, z], standing on a flat at this height. */
export function octagon(width: number, bottom: number): Loop {
  const half = width / 2;
  const side = half * Math.tan(Math.PI / 8);
  const middle = bottom + half;
  return [
    [-side, bottom],
    [side, bottom],
    [half, middle - side],
    [half, middle + side],
    [side, bottom + width],
    [-side, bottom + width],
    [-half, middle + side],
    [-half, middle - side],
  ];
}

/** A bar's section and what all of its joints have in common. */
export type BarDimensions = {
  readonly width: number;
  readonly length: number;
  readonly mortise: number;
  readonly depth: number;
  readonly pinAt: number;
  readonly pinBreadth: number;
  readonly pinThickness: number;
};

export const BAR_FIELDS: { readonly [K in keyof BarDimensions]: Field } = {
  width: { unit: 'mm', meaning: 'width across flats' },
  length: { unit: 'mm', meaning: 'length' },
  mortise: { unit: 'mm', meaning: 'mortise of the plug, width across flats' },
  depth: { unit: 'mm', meaning: 'mortise, depth' },
  pinAt: { unit: 'mm', meaning: 'hole of the pin, from the end' },
  pinBreadth: { unit: 'mm', meaning: 'hole of the pin, along the bar' },
  pinThickness: { unit: 'mm', meaning: 'hole of the pin, across the bar' },
};

/** The bar without its mortises, from x = 0. */
export function bar({ width, length }: BarDimensions, k: Kernel): Solid {
  return prismAlongX(octagon(width, 0), 0, length, k);
}

export function barVolume({ width, length }: BarDimensions): number {
  return loopArea(octagon(width, 0)) * length;
}

export function barBounds({ width, length }: BarDimensions): Bounds {
  return { min: [0, -width / 2, 0], max: [length, width / 2, width] };
}

/** Section of a pin's hole, its middle at a place along the bar. */
export function pinHole(d: { readonly pinBreadth: number; readonly pinThickness: number }, at: number): Loop {
  const [along, across] = [d.pinBreadth / 2, d.pinThickness / 2];
  return rectangle(at - along, -across, at + along, across);
}

/** What a joint takes out of a bar at one of its ends: the mortise, and the pin's hole through its walls. */
export function jointCutters(d: BarDimensions, end: 'near' | 'far', k: Kernel): Solid[] {
  const hole = octagon(d.mortise, (d.width - d.mortise) / 2);
  const { length, depth, pinAt } = d;
  return [
    end === 'near' ? prismAlongX(hole, -1, depth, k) : prismAlongX(hole, length - depth, length + 1, k),
    k.extrude([pinHole(d, end === 'near' ? pinAt : length - pinAt)], -1, d.width + 1),
  ];
}

/** mm3; the pin's hole lies within the flats of bar and mortise. */
export function jointVolume(d: BarDimensions): number {
  return loopArea(octagon(d.mortise, 0)) * d.depth + d.pinBreadth * d.pinThickness * (d.width - d.mortise);
}

/** Tunnels of a joint: the pin's hole leads from outside into the mortise through either wall. */
export const JOINT_TUNNELS = 2;

/** A line of engraved characters along x on the bed face. */
export function lineOnBed(text: string, [x, y]: readonly [number, number], height: number): Engraving {
  return {
    text,
    height,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    // Mirrored, so drawn on the other side of the axis.
    layout: { kind: 'line', centre: [-x, y], heading: 0 },
    mirrored: true,
  };
}

/** mm, height of a bar's code. */
export const BAR_CODE = 4;
