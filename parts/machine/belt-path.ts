/** An open flat belt around two parallel rollers. Lengths in mm, angles in radians. */
export interface BeltPath {
  readonly centreDistance: number;
  readonly loopLength: number;
  /** Angle over which the belt lies on the first and on the second roller. */
  readonly wraps: readonly [number, number];
}

/**
 * Length of an open belt, exact: L = 2 C cos a + (pi/2)(D + d) + a (D - d), sin a = (D - d)/(2C).
 * Diameters are those of the belt's neutral layer (roller plus one belt thickness).
 * Source: textbook formula (Khurmi, Theory of Machines, ch. 11), verified against two worked examples.
 * @throws RangeError when the rollers would overlap
 */
export function openBelt(firstDiameter: number, secondDiameter: number, centreDistance: number): BeltPath {
  if (!(centreDistance > (firstDiameter + secondDiameter) / 2)) {
    throw new RangeError(`centres ${centreDistance} mm apart: the rollers overlap`);
  }
  const lean = Math.asin((firstDiameter - secondDiameter) / (2 * centreDistance));
  const loopLength =
    2 * centreDistance * Math.cos(lean) +
    (Math.PI / 2) * (firstDiameter + secondDiameter) +
    lean * (firstDiameter - secondDiameter);
  return { centreDistance, loopLength, wraps: [Math.PI + 2 * lean, Math.PI - 2 * lean] };
}

/** Length to cut, before joining, of a belt fitted with the given stretch (fitted minus free over free, %). */
export function freeLength(loopLength: number, stretchPercent: number): number {
  return loopLength / (1 + stretchPercent / 100);
}

/**
 * Belt speed in m/s.
 * Belt-driven pulleys turn in the ratio of their pitch diameters; the belt runs on the roller at its neutral layer.
 */
export function beltSpeed(
  motorRpm: number,
  motorPulley: number,
  rollerPulley: number,
  runDiameter: number,
): number {
  const rollerRpm = (motorRpm * motorPulley) / rollerPulley;
  return (rollerRpm / 60) * Math.PI * (runDiameter / 1000);
}

/** Room the belt needs across a round bore: the diagonal of belt (with its wander) and both runs (with their bulge), mm. */
export function beltRoom(belt: {
  width: number;
  thickness: number;
  wander: number;
  crown: number;
  bulge: number;
  rollerDiameter: number;
}): number {
  const across = belt.width + 2 * belt.wander;
  const through = belt.rollerDiameter + 2 * belt.thickness + 2 * belt.crown + 2 * belt.bulge;
  return Math.hypot(across, through);
}
