import type { FieldProfile } from '../../parts/field/air/streamer.js';

/** A point charge on the axis: charge over 4 pi eps0 (V m), place from the first sphere's centre (m). */
interface Charge {
  readonly size: number;
  readonly place: number;
}

const NEGLIGIBLE = 1e-14;

/** Kelvin's images for one sphere at 1 V and its equal at 0 V: each charge is mirrored in the other sphere until nothing is left. */
function images(radius: number, centres: number): readonly Charge[] {
  const charges: Charge[] = [];
  let size = radius;
  /** From the centre of the sphere that the charge is in, towards the other. */
  let depth = 0;
  let inFirst = true;
  while (Math.abs(size) > NEGLIGIBLE * radius) {
    charges.push({ size, place: inFirst ? depth : centres - depth });
    const distance = centres - depth;
    size *= -radius / distance;
    depth = radius ** 2 / distance;
    inFirst = !inFirst;
  }
  return charges;
}

/**
 * Exact field (V/m) on the axis between two equal spheres, positive from the first to the second.
 * @param radius m
 * @param gap between the surfaces, m
 * @param potentials of the first and second sphere, V: [0.5, -0.5] is the ungrounded pair at 1 V, [1, 0] the one with an earthed sphere
 * @returns field at a distance s (m) from the first sphere's surface towards the second
 */
export function betweenSpheres(
  radius: number,
  gap: number,
  [first, second]: readonly [number, number],
): (s: number) => number {
  const centres = 2 * radius + gap;
  const charges = images(radius, centres).flatMap(({ size, place }) => [
    { size: first * size, place },
    { size: second * size, place: centres - place },
  ]);
  return (s) => {
    const z = radius + s;
    return charges.reduce(
      (sum, { size, place }) => sum + (size * Math.sign(z - place)) / (z - place) ** 2,
      0,
    );
  };
}

const evenly = (length: number, points: number) =>
  Array.from({ length: points }, (_, index) => (length * index) / (points - 1));

/** The field between two equal spheres per volt between them, at points evenly apart. */
export function gapProfile(
  radius: number,
  gap: number,
  points = 41,
  potentials: readonly [number, number] = [0.5, -0.5],
): FieldProfile {
  const field = betweenSpheres(radius, gap, potentials);
  const s = evenly(gap, points);
  return { s, perVolt: s.map((place) => Math.abs(field(place))) };
}

/** The field outside a sphere alone in space, per volt of its potential: R/(R + s)^2. */
export function sphereProfile(radius: number, length = 2 * radius, points = 41): FieldProfile {
  const s = evenly(length, points);
  return { s, perVolt: s.map((place) => radius / (radius + place) ** 2) };
}

/** The same field everywhere between plates. */
export function plateProfile(gap: number, points = 2): FieldProfile {
  const s = evenly(gap, points);
  return { s, perVolt: s.map(() => 1 / gap) };
}
