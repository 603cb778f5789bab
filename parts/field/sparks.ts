import type { Machine } from '../machine/machine.js';
import { airOf } from './air/atmosphere.js';
import { DEFAULT_FIT } from './air/ionisation.js';
import { type FieldProfile, inceptionVoltage } from './air/streamer.js';
import { arc, type Segment } from './boundary/curve.js';
import { Electrode } from './boundary/electrode.js';
import { type BoundField, boundField } from './machine-field.js';
import { unknownsOf } from './unknowns.js';

// SI throughout.

/** A grounded ball over the terminal's top at one distance: the field from either side along the axis. */
interface Facing {
  /** m between the surfaces */
  readonly distance: number;
  readonly fromBall: FieldProfile;
  readonly fromTerminal: FieldProfile;
}

/** Distances that are solved for, as shares of half the terminal's width. */
const DISTANCES = [0.12, 0.2, 0.32, 0.5, 0.8, 1.3, 2.1, 3.5, 5.5, 9];
const SAMPLES = 28;
/** rad from the ball's lowest point: how wide its first arc is, and how much wider each next one. */
const LEAST_ARC = 0.2;
const MOST_ARC = 0.8;
const WIDER = 2.2;

const FACING = new WeakMap<BoundField, Map<number, readonly Facing[]>>();

/** The field between a terminal and a grounded ball on its axis, at each of the distances. @param diameter of the ball, m */
function facings(machine: Machine, diameter: number): readonly Facing[] {
  const field = boundField(machine, 'graded');
  const known = FACING.get(field) ?? new Map<number, readonly Facing[]>();
  FACING.set(field, known);
  if (!known.has(diameter)) {
    const half = machine.terminal.diameter.mean / 2000;
    const top = machine.terminal.topZ / 1000;
    known.set(
      diameter,
      DISTANCES.map((share) => facing(field, top, diameter / 2, share * half)),
    );
  }
  return known.get(diameter)!;
}

function facing(field: BoundField, top: number, radius: number, distance: number): Facing {
  const electrode = new Electrode(field.terminal.system, ball(top + distance + radius, radius, distance));
  const charged = electrode.beside(field.terminal, 0);
  // Crowded towards both ends, and none on a surface.
  const s = Array.from(
    { length: SAMPLES },
    (_, i) => (distance * (1 - Math.cos((Math.PI * i) / (SAMPLES - 1)))) / 2,
  );
  const edge = 1e-4 * distance;
  const along = s.map((way) => {
    const z = top + Math.min(distance - edge, Math.max(edge, way));
    return Math.abs(charged.fieldAt(0, z)[1]);
  });
  return {
    distance,
    fromTerminal: { s, perVolt: along },
    fromBall: { s: s.map((way) => distance - way).reverse(), perVolt: [...along].reverse() },
  };
}

function ball(centre: number, radius: number, distance: number): Segment[] {
  const stops = [0];
  let wide = Math.min(MOST_ARC, Math.max(LEAST_ARC, distance / radius));
  while (stops.at(-1)! + 1.4 * wide < Math.PI) {
    stops.push(stops.at(-1)! + wide);
    wide = Math.min(MOST_ARC, wide * WIDER);
  }
  stops.push(Math.PI);
  return stops.slice(1).map((to, i) => arc([0, centre], radius, stops[i]! - Math.PI / 2, to - Math.PI / 2));
}

/** A grounded ball at a distance, as an approach needs it. */
export interface BallAt {
  readonly distance: number;
  /** V, at which corona starts from the ball. */
  readonly onset: number;
  /** V, at which a spark crosses. */
  readonly spark: number;
}

/** What a spark to a ball depends on besides the field. */
export interface SparkTerms {
  /** ln of a critical avalanche. */
  readonly lnN: number;
  /** V/m that streamers from ball and terminal need on average to cross. */
  readonly ballGradient: number;
  readonly terminalGradient: number;
}

/**
 * A ball at each distance. A spark crosses when streamers start at either end and the mean gradient carries those of that
 * end’s sign over the gap.
 * @returns a function, since the field is the same for all terms
 */
export function ballAt(machine: Machine, diameter: number): (terms: SparkTerms) => BallAt[] {
  const air = airOf(machine.site);
  const { low, likely, high } = unknownsOf(machine).lnN.range;
  /** Straight between three sizes of avalanche: the voltage goes slowly with it. */
  const inceptionOf = (profile: FieldProfile) => {
    const [a, b, c] = [low, likely, high].map((lnN) =>
      inceptionVoltage(profile, air, lnN, DEFAULT_FIT, 'from-electrode'),
    ) as [number, number, number];
    return (lnN: number) => {
      if (lnN === likely) return b;
      return lnN < likely
        ? a + ((b - a) * (lnN - low)) / (likely - low)
        : b + ((c - b) * (lnN - likely)) / (high - likely);
    };
  };
  const all = facings(machine, diameter).map(({ distance, fromBall, fromTerminal }) => ({
    distance,
    ballOnset: inceptionOf(fromBall),
    terminalOnset: inceptionOf(fromTerminal),
  }));
  return ({ lnN, ballGradient, terminalGradient }) =>
    all.map(({ distance, ballOnset, terminalOnset }) => {
      const [onset, other] = [ballOnset(lnN), terminalOnset(lnN)];
      return {
        distance,
        onset,
        spark: Math.min(
          Math.max(onset, ballGradient * distance),
          Math.max(other, terminalGradient * distance),
        ),
      };
    });
}
