import type { Machine } from '../machine/machine.js';
import { crownArc, type SleeveDesign } from '../machine/sleeve.js';
import { circumscribed, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { integrate, revolvedVolume, slotThroughRing } from '../solid/sections.js';
import type { Loop, Vec2 } from '../solid/vector.js';
import { alongY, BOUGHT_STEPS } from './bought-piece.js';
import { intoPockets, intoRim } from './carrier-places.js';
import { CLEAR_AIR, type PrintedPart, roundBounds, type Stated } from './part.js';

type SleeveDimensions = {
  readonly boreRadius: number;
  readonly endRadius: number;
  readonly crown: number;
  readonly length: number;
  readonly notchWidth: number;
  readonly notchDepth: number;
};

/** Straight pieces that the crown's arc is drawn with, from end to end. */
const STEPS = 24;

const middleRadius = (d: Pick<SleeveDimensions, 'endRadius' | 'crown'>) => d.endRadius + d.crown;

/** How many sides bore and outside are drawn with. */
export const sleeveSides = (d: Pick<SleeveDesign, 'endRadius' | 'crown'>): number =>
  sidesFor(middleRadius(d));

/** Radius of the outside over the foot: an arc that rises by the crown over the middle. */
function outsideAt(d: SleeveDimensions, z: number): number {
  if (d.crown === 0) return d.endRadius;
  const arc = crownArc(d.length, d.crown);
  return middleRadius(d) - arc + Math.sqrt(arc ** 2 - (z - d.length / 2) ** 2);
}

function profile(d: SleeveDimensions): Loop {
  const bore = circumscribed(d.boreRadius, sleeveSides(d));
  const outside = Array.from({ length: STEPS + 1 }, (_, i): Vec2 => {
    const z = (d.length * i) / STEPS;
    return [i === 0 || i === STEPS ? d.endRadius : outsideAt(d, z), z];
  });
  return [[bore, 0], ...outside, [bore, d.length]];
}

const tube = (d: SleeveDimensions, k: Kernel) => k.revolve(profile(d), sleeveSides(d));

/** Width of the notch for a dog over the bed: under a gable, since the ring's wall is too round to bridge it. */
function notchAt(d: SleeveDimensions, z: number): number {
  return z <= d.notchDepth ? d.notchWidth : Math.max(0, d.notchWidth - 2 * (z - d.notchDepth));
}

const gableTop = (d: SleeveDimensions) => d.notchDepth + d.notchWidth / 2;

/** Into both ends, for the dogs of the hubs. */
function notches(d: SleeveDimensions, k: Kernel): Solid[] {
  const [far, half] = [middleRadius(d) + 1, d.notchWidth / 2];
  const gable: Loop = [
    [-half, -1],
    [half, -1],
    [half, d.notchDepth],
    [0, gableTop(d)],
    [-half, d.notchDepth],
  ];
  return [
    // Across y and up z, along x.
    k.place(k.extrude([gable], -far, far), { turn: [90, 0, 90], move: [0, 0, 0] }),
    k.extrude([rectangle(-far, -half, far, half)], d.length - d.notchDepth, d.length + 1),
  ];
}

/** Printed sleeve on a bought roller's shell, crowned so that the belt keeps to its middle. Too thin for a code. */
function rollerSleeve(end: 'lower' | 'upper'): PrintedPart<SleeveDimensions> {
  return {
    id: `roller-sleeve-${end}`,
    revision: 1,
    purpose: `gives the ${end} roller the crown that keeps the belt in its middle`,
    copies: 1,
    wanted: ({ rollers }) => rollers[end].sleeve !== undefined,
    step: end === 'lower' ? BOUGHT_STEPS.lowerSleeve : BOUGHT_STEPS.upperSleeve,
    print: { walls: 4, infill: 100, orientation: 'standing' },
    assembly: `Push it onto the ${end} roller’s shell, its notches over those of the shell: the hubs’ dogs go through both. Sand ridges off its face.`,
    fields: {
      boreRadius: { unit: 'mm', meaning: 'bore on the shell, radius' },
      endRadius: { unit: 'mm', meaning: 'outside at its ends, radius' },
      crown: { unit: 'mm', meaning: 'how much its middle’s radius is larger' },
      length: { unit: 'mm', meaning: 'length' },
      notchWidth: { unit: 'mm', meaning: 'notches for the dogs, width' },
      notchDepth: { unit: 'mm', meaning: 'notches, depth' },
    },
    dimensions({ rollers, hubs }: Machine): SleeveDimensions {
      const { sleeve } = rollers[end];
      if (!sleeve) throw new RangeError(`the ${end} roller has no sleeve`);
      return {
        boreRadius: sleeve.fit.drawn / 2,
        endRadius: sleeve.endRadius,
        crown: sleeve.crown,
        length: sleeve.length,
        notchWidth: hubs[end].notch.width,
        notchDepth: hubs[end].notch.depth,
      };
    },
    bare: tube,
    build: (d, k) => k.subtract(tube(d, k), notches(d, k)),
    stated(d): Stated {
      const bareVolume = revolvedVolume(profile(d), sleeveSides(d));
      const through = (z: number) => 2 * slotThroughRing(d.boreRadius, outsideAt(d, z), notchAt(d, z));
      const above = integrate(through, 0, d.notchDepth);
      const gable = integrate(through, d.notchDepth, gableTop(d));
      return {
        genus: 1,
        pieces: 1,
        bounds: roundBounds(middleRadius(d), d.length),
        bareVolume,
        volume: bareVolume - 2 * above - gable,
      };
    },
    place: (machine) => {
      const { length, axisZ } = machine.rollers[end];
      const far = length / 2 + machine.belt.width / 2 + CLEAR_AIR;
      return [
        {
          placement: alongY(-length / 2, axisZ),
          moves: [
            {
              slide: [0, -far, 0],
              turn: 0,
              why: 'from the side into the belt',
              ...(end === 'lower' && { stretches: 'belt' }),
            },
            end === 'upper' ? intoRim(machine) : intoPockets(machine),
          ],
        },
      ];
    },
    fasteners: () => [],
  };
}

export const lowerSleeve = rollerSleeve('lower');
export const upperSleeve = rollerSleeve('upper');
