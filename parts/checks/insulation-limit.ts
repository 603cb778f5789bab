import type { Costs } from '../distances/costs.js';
import type { Way } from '../distances/way.js';
import { innerColumn, outerColumn } from '../field/columns.js';
import { coronaWay } from '../field/corona-ways.js';
import { columnGradient } from '../field/gradients.js';
import type { PlaceName } from '../field/machine-field.js';
import { type Unknowns, unknownsOf } from '../field/unknowns.js';
import { type LimitWay, wayOf } from '../field/way.js';
import type { Machine } from '../machine/machine.js';
import type { Vec3 } from '../solid/vector.js';
import { STREAMER_GRADIENT } from '../stock/air.js';
import type { Pollution } from '../stock/iec60664.js';
import { PRINTED_WALL_STRENGTH, plastic } from '../stock/plastics.js';
import type { Placed } from './insulation-scene.js';

/** What a way is shortest or weakest in. */
export type Medium = 'air' | 'surface' | 'wall' | 'line';

/** Clean air and surfaces are degree 2, dusty or damp ones 3: common practice, no source. */
export const pollutionOf = ({ site }: Machine): Pollution => (site.cleanliness === 'clean' ? 2 : 3);

/** mm of a way, by what it runs through. */
export function lengthsOf(way: Way): {
  readonly air: number;
  readonly surface: number;
  readonly wall: number;
} {
  const over = (...kinds: string[]) =>
    way.legs.filter(({ kind }) => kinds.includes(kind)).reduce((sum, { length }) => sum + length, 0);
  return { air: over('air', 'gap'), surface: over('surface'), wall: over('wall') };
}

/** Walls thicker than this (mm) are not looked through: of none is known that it holds more than the air around it. */
export const THICKEST_WALL = 12;
/** Cosine from which on a field runs across a print’s layers, which lie level in its own frame. */
const ACROSS_LAYERS = Math.SQRT1_2;

/** V that ways are weakest in, at likely values. */
export function voltsAlong(machine: Machine, pieces: ReadonlyMap<string, Placed>): Costs {
  const unknowns = unknownsOf(machine);
  const perMm = (gradient: number) => gradient / 1000;
  return {
    surface: perMm(columnGradient(machine).likely),
    gap: perMm(unknowns.positiveGradient.range.likely),
    wall: (body, length, along) => wallVolts(machine, pieces.get(body), length, along),
  };
}

/**
 * V that a wall holds: a print by the design strength for its layers as far as that is stated, like air beyond; bought
 * plastic by its short-time strength. Infinite where the strength is not in stock.
 */
export function wallVolts(machine: Machine, piece: Placed | undefined, length: number, along: Vec3): number {
  if (!piece) return Number.POSITIVE_INFINITY;
  if (piece.printed) {
    const { across, along: within, upTo } = PRINTED_WALL_STRENGTH;
    const strength = Math.abs(along[2]) > ACROSS_LAYERS ? across.value : within.value;
    const counted = Math.min(length, upTo.value);
    return 1000 * (counted * strength + ((length - counted) * STREAMER_GRADIENT.positive.low.value) / 10);
  }
  const strength = strengthOf(machine, piece.kind);
  return strength === undefined ? Number.POSITIVE_INFINITY : 1000 * strength * length;
}

/** kV/mm of a bought piece of plastic; undefined where none is in stock, as of rubber belts. */
function strengthOf({ tube, rollers }: Machine, kind: string): number | undefined {
  if (kind === 'tube') return plastic(tube.material).dielectricStrength?.value;
  if (kind === 'roller-shell-lower') return plastic(rollers.lower.material).dielectricStrength?.value;
  if (kind === 'roller-shell-upper') return plastic(rollers.upper.material).dielectricStrength?.value;
  return undefined;
}

/** Share of the shortest way in the solved field, below which a way ends on metal that this field does not know. */
const SAME_METAL = 0.9;

/** Whether the field was solved with the metal that a way leads between: it knows a machine’s design, not what was put elsewhere. */
function isInField(machine: Machine, { length }: Way): boolean {
  return length >= SAME_METAL * Math.min(outerColumn(machine).length, innerColumn(machine).length);
}

/** The part of the terminal's side that a way starts from, by the field that is solved for it. */
function startOf({ terminal }: Machine, way: Way, pieces: ReadonlyMap<string, Placed>): PlaceName {
  const kind = pieces.get(way.from)?.kind;
  if (kind === 'comb-upper') return 'upperComb';
  if (kind !== 'terminal') return 'upperMetal';
  const start = way.legs[0]?.points[0];
  // The bead ends two radii above its lowest point.
  return start && start[2] > terminal.lipZ + 2 * terminal.lipRadius ? 'body' : 'lip';
}

const shown = (perMetre: number) => (perMetre / 1e5).toFixed(2);

/** The limit voltage of a measured way: each stretch by the gradient that it holds. */
export function limitOf(
  machine: Machine,
  way: Way,
  pieces: ReadonlyMap<string, Placed>,
  told: Pick<LimitWay, 'id' | 'title' | 'path' | 'surfaces'>,
  place: PlaceName = startOf(machine, way, pieces),
): LimitWay {
  const { air, surface, wall } = lengthsOf(way);
  const costs = voltsAlong(machine, pieces);
  const ofWalls = way.cost - surface * costs.surface - air * costs.gap;
  const walls = wall > 0 ? ofWalls : 0;
  const { columnGradient: along, positiveGradient: through } = unknownsOf(machine);
  const terms = [
    ...(surface > 0
      ? [`${surface.toFixed(0)} mm over surfaces at ${range(along.range)} kV/cm (common practice, no source)`]
      : []),
    ...(air > 0
      ? [
          `${air.toFixed(1)} mm through air at ${range(through.range)} kV/cm (positive streamers: Francisco, Teunissen, Bagheri, Ebert 2021, with density and humidity)`,
        ]
      : []),
    ...(wall > 0
      ? [
          `${wall.toFixed(1)} mm of wall that holds ${(walls / 1000).toFixed(0)} kV (${wallSource(way, pieces)})`,
        ]
      : []),
  ];
  const carried = ({ columnGradient: g, positiveGradient: p }: Unknowns) =>
    (g * surface + p * air) / 1000 + walls;
  // Over plastic any grain of dust starts streamers; through air alone they have to start from metal.
  const free = surface + wall === 0;
  const starts = free && isInField(machine, way) ? coronaWay(machine, place) : undefined;
  const from = starts
    ? `; streamers start there from ${(starts.voltage.likely / 1000).toFixed(0)} kV on`
    : free
      ? '; shorter than any that the field was solved with, so that the gradient alone counts'
      : '';
  return wayOf(machine, {
    ...told,
    kind: wall > 0 ? 'puncture' : 'spark',
    at: (values) => Math.max(carried(values), starts?.at(values) ?? 0),
    length: way.length,
    basis: `measured on the solids: ${terms.join(', ')}${from}`,
    status: surface > 0 || wall > 0 ? 'common-practice' : 'verified',
  });
}

const range = ({ low, likely, high }: { low: number; likely: number; high: number }) =>
  low === high ? shown(likely) : `${shown(low)}, ${shown(likely)}, ${shown(high)}`;

function wallSource(way: Way, pieces: ReadonlyMap<string, Placed>): string {
  const printed = way.legs.some(({ kind, on }) => kind === 'wall' && pieces.get(on)?.printed);
  const { across, along, upTo } = PRINTED_WALL_STRENGTH;
  return printed
    ? `a print ${across.value} kV/mm across its layers and ${along.value} along them for ${upTo.value} mm, ${along.source}`
    : 'short-time strength of the plastic';
}
