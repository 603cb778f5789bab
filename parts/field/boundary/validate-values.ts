import { chords, lengthOf } from './curve.js';
import { told } from './places.js';
import { type Body, type Floating, type Problem, ProblemError } from './problem.js';

/**
 * Refuses numbers that are none or out of range, one body after another.
 * @throws ProblemError
 */
export function validateValues({ bodies, floor, uniformField }: Problem): void {
  const whole = 'the problem';
  if (bodies.length === 0) throw new ProblemError(whole, 'no bodies');
  if (floor !== undefined && !Number.isFinite(floor))
    throw new ProblemError(whole, `the floor lies at ${floor} m`);
  if (uniformField !== undefined && !Number.isFinite(uniformField))
    throw new ProblemError(whole, `the applied field is ${uniformField} V/m`);
  const names = new Set<string>();
  for (const body of bodies) {
    if (names.has(body.name)) throw new ProblemError(body.name, 'two bodies of this name');
    names.add(body.name);
    validateBody(body);
  }
}

function validateBody(body: Body): void {
  const refuse = (what: string): never => {
    throw new ProblemError(body.name, what);
  };
  if (body.kind === 'ring-charge') {
    const { at, charge } = body;
    if (!(at[0] >= 0 && at.every(Number.isFinite)))
      refuse(`its place is r ${at[0]} m, z ${at[1]} m; r is at least 0`);
    if (!Number.isFinite(charge)) refuse(`its charge is ${charge} C`);
    return;
  }
  validateProfile(body);
  switch (body.kind) {
    case 'dielectric':
      if (!(body.permittivity >= 1 && Number.isFinite(body.permittivity)))
        refuse(`a relative permittivity of ${body.permittivity}; it is at least 1`);
      return;
    case 'conductor':
    case 'sheet':
      validatePotential(body.name, body.potential);
      return;
    case 'graded':
    case 'surface-charge': {
      const [of, unit] = body.kind === 'graded' ? [body.potential, 'V'] : [body.density, 'C/m2'];
      for (const place of body.profile.flatMap(chords)) {
        const value = of(place);
        if (!Number.isFinite(value)) refuse(`it is given ${value} ${unit} at ${told(place)}`);
      }
    }
  }
}

function validatePotential(name: string, potential: number | Floating): void {
  if (typeof potential === 'number') {
    if (!Number.isFinite(potential)) throw new ProblemError(name, `its potential is ${potential} V`);
    return;
  }
  const { net, charge = 0 } = potential;
  if (!Number.isFinite(charge))
    throw new ProblemError(name, `its net ${net} is given a charge of ${charge} C`);
}

/** rad: what a whole turn may be over by rounding. */
const ROUNDING = 1e-9;

function validateProfile({ name, profile }: Exclude<Body, { kind: 'ring-charge' }>): void {
  const refuse = (what: string): never => {
    throw new ProblemError(name, what);
  };
  if (profile.length === 0) refuse('its profile is empty');
  for (const segment of profile) {
    if (segment.kind === 'arc') {
      const { radii, start, end } = segment;
      for (const radius of radii)
        if (!(radius > 0 && Number.isFinite(radius)))
          refuse(`an arc of radius ${radius} m; a radius must be above 0`);
      if (Math.abs(end - start) > 2 * Math.PI + ROUNDING)
        refuse(`an arc of ${end - start} rad; a whole turn is the most`);
    }
    const places = chords(segment);
    if (!places.flat().every(Number.isFinite)) refuse('a coordinate is not a number');
    if (!(lengthOf(segment) > 0)) refuse(`a piece of no length at ${told(places[0]!)}`);
  }
}
