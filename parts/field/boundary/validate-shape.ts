import { endOf, type Segment, startOf } from './curve.js';
import { meetings, runsThrough } from './meeting.js';
import { apart, areaWithin, extremesOf, isClosed, outlineOf, SAME, told } from './places.js';
import { type Body, ProblemError } from './problem.js';

/**
 * Refuses a profile that is no outline of a body: with a gap, across the axis or the floor, open, inside out, or through
 * itself.
 * @param size of the whole problem, m
 * @throws ProblemError
 */
export function validateShape(body: Body, size: number, floor: number | undefined): void {
  if (body.kind === 'ring-charge') {
    if (floor !== undefined && body.at[1] <= floor + SAME * size)
      throw new ProblemError(body.name, `it is not above the floor: ${told(body.at)}`);
    return;
  }
  const { name, profile } = body;
  for (const [i, segment] of profile.entries()) {
    const next = profile[i + 1];
    if (next && apart(endOf(segment), startOf(next)) > SAME * size)
      throw new ProblemError(name, `its profile has a gap at ${told(endOf(segment))}`);
  }
  const extremes = profile.flatMap(extremesOf);
  const across = extremes.find(([r]) => r < -SAME * size);
  if (across) throw new ProblemError(name, `its profile crosses the axis: ${told(across)}`);
  if (floor !== undefined) {
    const under = extremes.find(([, z]) => z < floor - SAME * size);
    if (under) throw new ProblemError(name, `it reaches below the floor: ${told(under)}`);
    refuseOnFloor(
      body,
      profile,
      extremes.find(([, z]) => z <= floor + SAME * size),
    );
  }
  if (body.kind === 'conductor' || body.kind === 'dielectric') refuseOpen(name, profile, size, floor);
  refuseSelfCrossing(name, profile, size);
}

/** What stands on the grounded floor has its potential. */
function refuseOnFloor(
  body: Body,
  profile: readonly Segment[],
  at: ReturnType<typeof startOf> | undefined,
): void {
  if (at === undefined || profile.length === 0) return;
  if (body.kind !== 'conductor' && body.kind !== 'sheet') return;
  if (body.potential === 0) return;
  const wanted = typeof body.potential === 'number' ? `${body.potential} V` : 'a potential of its own';
  throw new ProblemError(
    body.name,
    `it touches the grounded floor at ${told(at)}, so that it cannot have ${wanted}`,
  );
}

function refuseOpen(
  name: string,
  profile: readonly Segment[],
  size: number,
  floor: number | undefined,
): void {
  if (!isClosed(profile, size)) {
    const loose = [startOf(profile[0]!), endOf(profile.at(-1)!)].find(
      ([r, z]) => r > SAME * size && !(floor !== undefined && Math.abs(z - floor) <= SAME * size),
    );
    if (loose)
      throw new ProblemError(name, `its profile ends in the open, at ${told(loose)}, and encloses nothing`);
  }
  if (!(areaWithin(outlineOf(profile, floor, size)) > 0))
    throw new ProblemError(
      name,
      'its profile runs the wrong way round (inside out): the body must lie on its left',
    );
}

function refuseSelfCrossing(name: string, profile: readonly Segment[], size: number): void {
  const near = SAME * size;
  for (const [i, segment] of profile.entries()) {
    for (const other of profile.slice(i + 1)) {
      const at = meetings(segment, other, near).find((each) => runsThrough(segment, other, each, near));
      if (at) throw new ProblemError(name, `its profile crosses itself at ${told(at.place)}`);
    }
  }
}
