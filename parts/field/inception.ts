import type { Air } from './air/atmosphere.js';
import { type FieldProfile, inceptionVoltage } from './air/streamer.js';
import type { Place } from './boundary/curve.js';
import { isWithin, traceLine } from './boundary/lines.js';
import type { Conductor, Dielectric } from './boundary/problem.js';
import type { Peak } from './boundary/solution.js';
import type { BoundField } from './machine-field.js';

// SI throughout.

/** What the field does along the line that starts at a place: of the terminal's voltage, and of the belt's charge. */
export interface LineField {
  readonly s: readonly number[];
  readonly places: readonly Place[];
  /** Along the line outwards: 1/m per volt of the terminal, and V/m per C/m on the belt. */
  readonly terminal: readonly number[];
  readonly belt: readonly number[];
}

type Solid = Conductor | Dielectric;

/** Share of the field at the start below which air does not ionise any more when it does there. */
const ENOUGH = 0.2;
/** m, where an avalanche that has not become a streamer never will. */
const FAR_ENOUGH = 0.15;
/** First step as a share of the length over which a conductor's field falls. */
const FIRST_STEP = 0.03;
const STEPS = 60;

/**
 * Follows the field line from a place of greatest field on a conductor until the field is too weak to ionise or the line
 * meets another body.
 * @param curvature smallest radius of curvature of the surface there, m
 */
export function lineFrom(field: BoundField, peak: Peak, curvature: number): LineField {
  const first = FIRST_STEP * curvature;
  const terminal = [peak.field];
  const belt: number[] = [];
  const bodies = field.problem.bodies.filter(
    ({ kind }) => kind === 'conductor' || kind === 'dielectric',
  ) as Solid[];
  const floor = field.problem.floor ?? Number.NEGATIVE_INFINITY;
  const { s, places } = traceLine([peak.r, peak.z], peak.normal, {
    first,
    steps: STEPS,
    field: (r, z) => {
      const e = field.terminal.fieldAt(r, z);
      const b = field.belt.fieldAt(r, z);
      const size = Math.hypot(...e);
      terminal.push(size);
      belt.push((e[0] * b[0] + e[1] * b[1]) / size);
      return e;
    },
    ends: (place, way) =>
      way > FAR_ENOUGH ||
      terminal.at(-1)! < ENOUGH * peak.field ||
      place[1] <= floor ||
      bodies.some(({ profile }) => isWithin(profile, place)),
  });
  // Where another body is closer than a first step the field is even across the gap.
  if (s.length < 2)
    return { s: [0, first], places: [[peak.r, peak.z]], terminal: [peak.field, peak.field], belt: [0, 0] };
  // On the surface as one first step away: it changes little over it.
  return { s, places, terminal, belt: [belt[0] ?? 0, ...belt] };
}

const ROUNDS = 6;

/**
 * Voltage (V) of the terminal at which streamers start along a line, with charge on the belt: the belt's part does not grow
 * with the voltage, so that it is looked for in a few rounds.
 * @param lineCharge C/m on the belt's way, with the sign of the terminal
 */
export function inceptionAlong(
  { s, terminal, belt }: LineField,
  air: Air,
  lnN: number,
  lineCharge: number,
): number {
  let voltage = inceptionVoltage({ s, perVolt: terminal }, air, lnN);
  if (lineCharge === 0) return voltage;
  for (let round = 0; round < ROUNDS; round++) {
    const profile: FieldProfile = {
      s,
      perVolt: terminal.map((perVolt, i) =>
        Math.max(1e-3 * perVolt, Math.abs(perVolt + (lineCharge * belt[i]!) / voltage)),
      ),
    };
    const next = inceptionVoltage(profile, air, lnN);
    if (Math.abs(next - voltage) < 1e-4 * voltage) return next;
    voltage = next;
  }
  return voltage;
}
