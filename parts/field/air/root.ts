/** Share of the root's size to which it is found. */
const PRECISION = 1e-12;
const MOST_STEPS = 200;

/**
 * Where a non-decreasing function passes from below 0 to 0 or above, between two places. False position with bisection
 * between, so that a jump across 0 is found too: then it is the jump's place.
 *
 * @param low a place where the function is below 0
 * @param high a place beyond `low` where it is not below 0
 * @returns the nearest place found at which the function is not below 0
 * @throws RangeError when the ends are not so
 */
export function rootBetween(of: (place: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  let [fa, fb] = [of(a), of(b)];
  if (!(a < b && fa < 0 && fb >= 0)) {
    throw new RangeError(`no root between ${low} and ${high}: the function is ${fa} and ${fb} there`);
  }
  for (let step = 0; step < MOST_STEPS && b - a > PRECISION * Math.max(Math.abs(a), Math.abs(b)); step++) {
    const guess = a + ((b - a) * fa) / (fa - fb);
    const middle = (a + b) / 2;
    const place = step % 3 !== 2 && guess > a && guess < b ? guess : middle;
    if (place === a || place === b) break;
    const value = of(place);
    if (value < 0) {
      [a, fa] = [place, value];
    } else {
      [b, fb] = [place, value];
      if (value === 0) break;
    }
  }
  return b;
}
