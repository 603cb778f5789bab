/** Shore A range in which the relation holds. */
const LEAST = 20;
const MOST = 80;

/**
 * Young's modulus (MPa) of a rubber from its Shore A hardness, by Gent's relation (Gent 1958): a blunt indenter on a
 * half-space. Verified against three independent copies of the formula. Ruess's relation gives
 * 1.0 to 1.9 times as much between 30 and 80 Shore A, so read the result as the low side of a range.
 *
 * @param shoreA 20 to 80
 * @throws RangeError outside that range
 */
export function youngsFromShore(shoreA: number): number {
  if (!(shoreA >= LEAST && shoreA <= MOST)) {
    throw new RangeError(`Gent's relation holds from ${LEAST} to ${MOST} Shore A, not for ${shoreA}`);
  }
  return (0.0981 * (56 + 7.62336 * shoreA)) / (0.137505 * (254 - 2.54 * shoreA));
}
