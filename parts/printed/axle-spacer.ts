import type { Machine } from '../machine/machine.js';
import { circumscribed, polygon, reversed, sidesFor } from '../solid/facets.js';
import { loopArea } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { CARRIER_STEPS, intoPockets } from './carrier-places.js';
import { CLEAR_AIR, type PrintedPart, roundBounds, type Stated } from './part.js';

type SpacerDimensions = {
  readonly boreRadius: number;
  readonly outerRadius: number;
  readonly length: number;
};

const region = (d: SpacerDimensions): readonly [Loop, Loop] => {
  const sides = sidesFor(d.outerRadius);
  return [polygon(d.outerRadius, sides), reversed(polygon(circumscribed(d.boreRadius, sides), sides))];
};

/** Printed sleeve on the lower axle between hub and bearing. Too small for a code. */
export const axleSpacer: PrintedPart<SpacerDimensions> = {
  id: 'axle-spacer',
  revision: 1,
  purpose:
    'keeps a lower hub off its bearing’s outer ring: it touches the inner ring alone and turns with it',
  copies: 2,
  step: CARRIER_STEPS.spacer,
  print: { walls: 3, infill: 100, orientation: 'standing' },
  assembly: 'Slide one onto each end of the lower axle up to its hub, then the bearing.',
  fields: {
    boreRadius: { unit: 'mm', meaning: 'bore, radius' },
    outerRadius: { unit: 'mm', meaning: 'outside, radius' },
    length: { unit: 'mm', meaning: 'length' },
  },
  dimensions: ({ carriers: { lower } }: Machine): SpacerDimensions => ({
    boreRadius: lower.spacer.boreRadius,
    outerRadius: lower.spacer.outerRadius,
    length: lower.spacer.length,
  }),
  bare: (d, k) => k.extrude(region(d), 0, d.length),
  build: (d, k) => k.extrude(region(d), 0, d.length),
  stated(d): Stated {
    const [outside, bore] = region(d);
    const volume = (loopArea(outside) + loopArea(bore)) * d.length;
    return {
      genus: 1,
      pieces: 1,
      bounds: roundBounds(d.outerRadius, d.length),
      bareVolume: volume,
      volume,
    };
  },
  place: (machine) => {
    const { rollers, hubs } = machine;
    const { axle, axisZ, length } = rollers.lower;
    const hubFace = length / 2 + hubs.lower.flangeThickness;
    return ([-1, 1] as const).map((side) => ({
      placement: { turn: [-side * 90, 0, 0], move: [0, side * hubFace, axisZ] },
      moves: [
        {
          slide: [0, -side * ((side < 0 ? -axle.from : axle.to) - hubFace + CLEAR_AIR), 0],
          turn: 0,
          why: 'onto the end of the axle, up to its hub',
        },
        intoPockets(machine),
      ],
    }));
  },
  fasteners: () => [],
};
