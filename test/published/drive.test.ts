import { describe, expect, it } from 'vitest';
import { openBelt } from '../../parts/machine/belt-path.js';
import { centresFor } from '../../parts/machine/drive.js';
import { nearestTeeth, outsideDiameter, pitchDiameter } from '../../parts/machine/pulley.js';

describe('toothed pulleys', () => {
  // 20 teeth of 2 mm: note of an open project (verified: 12.22 outside); 60 teeth: shop page (verified: 37.68). Others
  // computed from the textbook's z p / pi and belt makers' pitch line (from memory).
  it.each([
    [20, 2, 12.732, 12.224],
    [60, 2, 38.197, 37.689],
    [16, 2, 10.186, 9.678],
    [36, 2, 22.918, 22.41],
    [20, 3, 19.099, 18.337],
    [20, 5, 31.831, 30.688],
  ])('%i teeth of %f mm measure %f on the pitch line and %f outside', (teeth, pitch, pitchLine, outside) => {
    expect(pitchDiameter(teeth, pitch)).toBeCloseTo(pitchLine, 3);
    expect(outsideDiameter(teeth, pitch)).toBeCloseTo(outside, 3);
    expect(nearestTeeth(pitchLine, pitch)).toBe(teeth);
  });
});

describe('an open belt of known length', () => {
  // Exercise page (verified): D 1.6 m, d 0.5 m, centres 12 m: 27.32 m. Calculator page (verified): 10 and 5 in at 20 in: 63.87.
  it.each([
    [1600, 500, 12_000, 27_320, 5],
    [10, 5, 20, 63.87, 0.006],
  ])('finds the centres of %f and %f again', (first, second, centres, told, near) => {
    const { loopLength } = openBelt(first, second, centres);
    expect(Math.abs(loopLength - told)).toBeLessThan(near);
    expect(centresFor(loopLength, first, second)).toBeCloseTo(centres, 6);
    expect(centresFor(loopLength, second, first)).toBeCloseTo(centres, 6);
  });

  it('is refused where it does not go around', () => {
    expect(() => centresFor(60, 20, 30)).toThrow(RangeError);
  });
});
