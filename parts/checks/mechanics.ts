/** Textbook mechanics. Lengths in mm, forces in N, stresses and moduli in MPa, angles in radians; torques in N mm. */

/**
 * Hoop stress (MPa) in a thick-walled cylinder at a radius, tension positive: A + B/r^2 (Lame; textbooks and lecture
 * notes, verified).
 */
export function thickWallHoop(
  wall: { readonly inner: number; readonly outer: number; readonly inside: number; readonly outside: number },
  radius: number,
): number {
  const { inner, outer, inside, outside } = wall;
  const area = outer ** 2 - inner ** 2;
  const even = (inside * inner ** 2 - outside * outer ** 2) / area;
  const graded = ((inside - outside) * inner ** 2 * outer ** 2) / area;
  return even + graded / radius ** 2;
}

/**
 * Bending stress (MPa) in the wall of an oval tube that is held round: between 0.375 and 1.07 times E t d/R^2, d the
 * difference of its greatest and least diameter, by how the load is spread around it (0.375 d for pressures that follow
 * the oval, 1.07 for two opposite lines). Computed from the bending of a ring.
 */
export function roundingStress(tube: {
  readonly modulus: number;
  readonly wall: number;
  readonly radius: number;
  readonly spread: number;
}): {
  readonly low: number;
  readonly high: number;
} {
  const scale = (tube.modulus * tube.wall * tube.spread) / tube.radius ** 2;
  return { low: 0.375 * scale, high: 1.07 * scale };
}

/**
 * Distance (mm) of the extreme fibre from the neutral axis of a finger cut from a tube, bent in or out: a sector of a
 * ring is no flat strip, and its edges lie further in than half its thickness.
 * @param inner radius of the finger's inner face
 * @param count fingers around the ring, at least 2
 * @param slot width of the slots between them
 */
export function fingerFibre(finger: {
  readonly inner: number;
  readonly thickness: number;
  readonly count: number;
  readonly slot: number;
}): number {
  const { inner, thickness, count, slot } = finger;
  const outer = inner + thickness;
  const half = Math.PI / count - slot / (inner + outer);
  if (!(half > 0)) throw new RangeError(`${count} slots of ${slot} mm leave no finger`);
  const centroid =
    ((2 / 3) * Math.sin(half) * (outer ** 3 - inner ** 3)) / (half * (outer ** 2 - inner ** 2));
  return Math.max(outer - centroid, centroid - inner * Math.cos(half));
}

/**
 * Greatest strain (as a fraction) in a cantilever whose end is pushed aside: M c/(E I) with the load at the middle of a
 * stiff head; without a head 3 y c/L^2.
 * @param stem free length, @param head from the stem's end to the load, @param fibre distance of the extreme fibre
 */
export function cantileverStrain(deflection: number, stem: number, head: number, fibre: number): number {
  const arm = stem + head;
  return (deflection * fibre * arm) / (stem ** 3 / 3 + stem ** 2 * head + stem * head ** 2);
}

/** Ratio of the tensions at which a belt slips, e^(friction x angle) (capstan; verified). */
export function slipRatio(friction: number, angle: number): number {
  return Math.exp(friction * angle);
}

/** A lock ring: a nut with a cone that closes fingers. */
export interface LockRing {
  /** Mean radius of the thread, and of the cone where it slides on the fingers, mm. */
  readonly thread: number;
  readonly cone: number;
  /** Advance in one turn, mm. */
  readonly lead: number;
  /** Half angle of the cone, and angle of the thread's flank against the plane across the axis, radians. */
  readonly coneAngle: number;
  readonly flank: number;
}

/** Angle of the thread's helix (radians); it stays where it is while this is less than the friction angle. */
export function leadAngle(ring: LockRing): number {
  return Math.atan(ring.lead / (2 * Math.PI * ring.thread));
}

/**
 * Torque (N mm) on the ring for each N of radial force on the fingers: what the cone rubs as it turns, and the thread that
 * pushes it down (screw formula with the flank's friction; Shigley, Mechanical Engineering Design, from memory). The cone
 * slides around, hardly along, so that its axial force is that of the wedge without friction.
 */
export function closingTorque(ring: LockRing, friction: number): number {
  const rubbing = (friction * ring.cone) / Math.cos(ring.coneAngle);
  const axial = Math.tan(ring.coneAngle);
  return (
    rubbing + axial * ring.thread * Math.tan(leadAngle(ring) + Math.atan(friction / Math.cos(ring.flank)))
  );
}

/** Torque (N mm) for each N of radial force to pull the cone off again, where friction holds it on at rest. */
export function openingTorque(ring: LockRing, friction: number): number {
  const rubbing = (friction * ring.cone) / Math.cos(ring.coneAngle);
  const stuck = Math.max(0, Math.tan(Math.atan(friction) - ring.coneAngle));
  return (
    rubbing + stuck * ring.thread * Math.tan(leadAngle(ring) + Math.atan(friction / Math.cos(ring.flank)))
  );
}

/** Statistical sum of independent tolerances of the same kind: the root of the sum of their squares. */
export function rootOfSquares(tolerances: readonly number[]): number {
  return Math.hypot(...tolerances);
}
