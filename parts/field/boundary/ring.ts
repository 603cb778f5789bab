// A charged ring around the axis: potential and field, by the arithmetic-geometric mean. Textbook formulas for the ring of
// charge in complete elliptic integrals (Smythe, Static and Dynamic Electricity, from memory).

/** m2, far below the square of any length that counts. */
const LEAST = 1e-34;
const CLOSE_ENOUGH = 1e-8;
/** Share of the ring's size below which the radial field is linear in the distance from the axis, to double precision. */
const ON_AXIS = 1e-4;

/**
 * Potential (V) at (r, z) of a ring at (ringR, ringZ) that carries 1 V/m times eps0 of charge per area on 1 m of
 * meridian: R K / (pi S), which is R / (2 agm(S, D)) with S and D the largest and least distance from the ring.
 */
export function ringPotential(r: number, z: number, ringR: number, ringZ: number): number {
  const h = z - ringZ;
  let a = Math.sqrt((r + ringR) * (r + ringR) + h * h);
  // On the ring itself rounding must not give 0, whose mean with anything is 0.
  let b = Math.sqrt((r - ringR) * (r - ringR) + h * h + LEAST);
  while (a - b > CLOSE_ENOUGH * a) {
    const mean = 0.5 * (a + b);
    b = Math.sqrt(a * b);
    a = mean;
  }
  return ringR / (a + b);
}

/** Field of the last call of `ringField`, V/m. */
export const ringE = { r: 0, z: 0 };

/** Field (V/m) of the ring of `ringPotential`, left in `ringE`. */
export function ringField(r: number, z: number, ringR: number, ringZ: number): void {
  const h = z - ringZ;
  const near2 = (r - ringR) * (r - ringR) + h * h + LEAST;
  const far2 = (r + ringR) * (r + ringR) + h * h;
  let a = Math.sqrt(far2);
  let b = Math.sqrt(near2);
  // E over K is 1 - sum 2^(n-1) c_n^2, here still times S^2.
  let sum = 2 * r * ringR;
  let power = 0.5;
  while (a - b > CLOSE_ENOUGH * a) {
    const c = 0.5 * (a - b);
    power *= 2;
    sum += power * c * c;
    const mean = 0.5 * (a + b);
    b = Math.sqrt(a * b);
    a = mean;
  }
  const ratio = 1 - sum / far2;
  const strength = ringR / (a + b);
  ringE.z = (strength * h * ratio) / near2;
  ringE.r =
    r * r > ON_AXIS * ON_AXIS * far2
      ? (strength / (2 * r)) * (1 - (ratio * (ringR * ringR - r * r + h * h)) / near2)
      : (r * ringR * (2 * h * h - ringR * ringR)) / (4 * (ringR * ringR + h * h) ** 2.5);
}
