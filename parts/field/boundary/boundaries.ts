import { between, closestT, endOf, lengthOf, type Place, placeOn, type Segment, startOf } from './curve.js';
import { apart, isClosed, SAME, sizeOf, turnBetween } from './places.js';
import { type Body, type Problem, ProblemError } from './problem.js';

/** A piece of surface on which charge is looked for, with what lies on either side of it. */
export interface Boundary {
  readonly segment: Segment;
  /** The body whose condition holds here; a dielectric against another one belongs to either. */
  readonly body: Body;
  readonly kind: 'conductor' | 'sheet' | 'graded' | 'dielectric';
  /** Relative permittivity to the left of the segment (within the body; 1 where there is none) and to its right. */
  readonly inside: number;
  readonly outside: number;
  /** Free edges of a sheet: charge grows there as one over the root of the distance. */
  readonly freeStart: boolean;
  readonly freeEnd: boolean;
  /** Ends where the surface turns or its surroundings change: charge may have no bound there. */
  readonly cornerStart: boolean;
  readonly cornerEnd: boolean;
}

/** rad: a smaller turn between two segments is taken for rounding. */
const SMOOTH = 1e-6;

type Surface = Exclude<Body, { kind: 'ring-charge' | 'surface-charge' }>;
interface Piece {
  readonly segment: Segment;
  readonly body: Surface;
}

/**
 * The surfaces of a problem. Pieces along which two bodies touch become one; what lies on the axis or on the floor is left
 * out: the floor stands for it.
 * @throws ProblemError where conductors touch
 */
export function boundariesOf({ bodies, floor }: Problem): Boundary[] {
  const size = sizeOf(bodies);
  const surfaces = bodies.filter(
    (body): body is Surface => body.kind !== 'ring-charge' && body.kind !== 'surface-charge',
  );
  const whole = surfaces.flatMap((body) => body.profile.map((segment): Piece => ({ segment, body })));
  const pieces = whole
    .flatMap((piece) => split(piece, whole, size))
    .filter((piece) => !liesOnAxis(piece, size) && !liesOnFloor(piece, floor, size));
  const merged = merge(pieces, size);
  return merged.map((piece) => ({
    ...piece,
    ...endsOf(piece, merged, floor, size),
  }));
}

/** The axis closes a profile; it is no surface. */
function liesOnAxis({ segment }: Piece, size: number): boolean {
  return segment.kind === 'line' && segment.from[0] <= SAME * size && segment.to[0] <= SAME * size;
}

function liesOnFloor({ segment, body }: Piece, floor: number | undefined, size: number): boolean {
  if (floor === undefined || segment.kind !== 'line') return false;
  if (![segment.from, segment.to].every(([, z]) => Math.abs(z - floor) <= SAME * size)) return false;
  if ((body.kind === 'conductor' || body.kind === 'sheet') && body.potential !== 0)
    throw new ProblemError(
      body.name,
      'it lies on the grounded floor, so that it can have no potential of its own',
    );
  return true;
}

/** Whether two segments lie on one line or one ellipse. */
function sameCarrier(a: Segment, b: Segment, size: number): boolean {
  if (a.kind === 'line' && b.kind === 'line') {
    const [dr, dz] = [a.to[0] - a.from[0], a.to[1] - a.from[1]];
    const off = ([r, z]: Place) => Math.abs(dr * (z - a.from[1]) - dz * (r - a.from[0])) / Math.hypot(dr, dz);
    return off(b.from) <= SAME * size && off(b.to) <= SAME * size;
  }
  if (a.kind === 'arc' && b.kind === 'arc')
    return apart(a.centre, b.centre) <= SAME * size && apart(a.radii, b.radii) <= SAME * size;
  return false;
}

function split(piece: Piece, all: readonly Piece[], size: number): Piece[] {
  const { segment, body } = piece;
  const length = lengthOf(segment);
  const cuts = all
    .filter((other) => other.body !== body && sameCarrier(segment, other.segment, size))
    .flatMap((other) => [startOf(other.segment), endOf(other.segment)])
    .flatMap(([r, z]) => {
      const t = closestT(segment, r, z);
      const on = apart(placeOn(segment, t), [r, z]) <= SAME * size;
      return on && t * length > SAME * size && (1 - t) * length > SAME * size ? [t] : [];
    })
    .sort((a, b) => a - b)
    .filter((t, i, sorted) => i === 0 || (t - sorted[i - 1]!) * length > SAME * size);
  if (cuts.length === 0) return [piece];
  const stops = [0, ...cuts, 1];
  return stops.slice(1).map((to, i) => ({ segment: between(segment, stops[i]!, to), body }));
}

type Merged = Omit<Boundary, 'freeStart' | 'freeEnd' | 'cornerStart' | 'cornerEnd'>;

function merge(pieces: readonly Piece[], size: number): Merged[] {
  const taken = new Set<Piece>();
  const merged: Merged[] = [];
  // Conductors first: where a dielectric touches one, the conductor's condition holds.
  const inOrder = [...pieces].sort(
    (a, b) => Number(a.body.kind === 'dielectric') - Number(b.body.kind === 'dielectric'),
  );
  for (const piece of inOrder) {
    if (taken.has(piece)) continue;
    taken.add(piece);
    const touching = inOrder.filter((other) => !taken.has(other) && coincide(piece, other, size));
    for (const other of touching) taken.add(other);
    const one = joined(piece, touching, size);
    if (one) merged.push(one);
  }
  return merged;
}

function coincide(a: Piece, b: Piece, size: number): boolean {
  if (a.body === b.body) return false;
  const near = (p: Place, q: Place) => apart(p, q) <= 10 * SAME * size;
  const [as, ae, bs, be] = [startOf(a.segment), endOf(a.segment), startOf(b.segment), endOf(b.segment)];
  return (
    near(placeOn(a.segment, 0.5), placeOn(b.segment, 0.5)) &&
    ((near(as, be) && near(ae, bs)) || (near(as, bs) && near(ae, be)))
  );
}

function joined({ segment, body }: Piece, touching: readonly Piece[], size: number): Merged | undefined {
  let inside = body.kind === 'dielectric' ? body.permittivity : 1;
  let outside = 1;
  for (const other of touching) {
    if (other.body.kind !== 'dielectric')
      throw new ProblemError(
        body.name,
        `it touches ${other.body.name}: make them one profile, or leave a gap`,
      );
    // Of two that touch, each lies on its own left: runs that go the same way overlap.
    const along =
      apart(startOf(segment), startOf(other.segment)) <= 10 * SAME * size && !isLoop(segment, size);
    if (along && body.kind !== 'sheet' && body.kind !== 'graded')
      throw new ProblemError(body.name, `it overlaps ${other.body.name}`);
    if (along) inside = other.body.permittivity;
    else outside = other.body.permittivity;
  }
  const kind = body.kind;
  if (kind === 'dielectric' && inside === outside) return undefined;
  return { segment, body, kind, inside, outside };
}

const isLoop = (segment: Segment, size: number) => apart(startOf(segment), endOf(segment)) <= SAME * size;

/** What becomes of the charge at the ends of a piece. */
function endsOf(
  piece: Merged,
  all: readonly Merged[],
  floor: number | undefined,
  size: number,
): Pick<Boundary, 'freeStart' | 'freeEnd' | 'cornerStart' | 'cornerEnd'> {
  const { segment } = piece;
  const meeting = (place: Place) =>
    all.filter(
      (other) =>
        other !== piece &&
        [startOf(other.segment), endOf(other.segment)].some((end) => apart(end, place) <= 10 * SAME * size),
    );
  const closes = isClosed([segment], size);
  const end = (place: Place, before: boolean) => {
    const [r, z] = place;
    const others = meeting(place);
    const bound = closes || r <= SAME * size || (floor !== undefined && Math.abs(z - floor) <= SAME * size);
    const open = others.length === 0 && !bound;
    const free = open && (piece.kind === 'sheet' || piece.kind === 'graded');
    if (others.length === 0) return { free, corner: open && !free };
    if (others.length > 1) return { free: false, corner: true };
    const other = others[0]!;
    const follows = apart(before ? endOf(other.segment) : startOf(other.segment), place) <= 10 * SAME * size;
    const turn = follows
      ? Math.abs(before ? turnBetween(other.segment, segment) : turnBetween(segment, other.segment))
      : Math.PI;
    const alike =
      other.inside === piece.inside && other.outside === piece.outside && other.kind === piece.kind;
    return { free: false, corner: turn > SMOOTH || !alike || piece.kind === 'graded' };
  };
  const [start, finish] = [end(startOf(segment), true), end(endOf(segment), false)];
  return { freeStart: start.free, freeEnd: finish.free, cornerStart: start.corner, cornerEnd: finish.corner };
}
