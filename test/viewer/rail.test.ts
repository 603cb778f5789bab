import { describe, expect, it } from 'vitest';
import {
  dodge,
  FRAME_MARGIN,
  frameOf,
  heightInWords,
  heightTicks,
  packLanes,
  placeNames,
  roundValues,
  SCALE_UNITS,
  type Stretch,
  scaleUnitOf,
  stepOf,
  stretchInWords,
} from '../../viewer/rail/layout.js';

/** Numbers from 0 to 1 that are the same in every run. */
function drawing(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const draws = Array.from({ length: 60 }, (_, seed) => {
  const next = drawing(seed + 1);
  const stretches = Array.from({ length: 1 + Math.floor(next() * 30) }, (): Stretch => {
    const low = next() * 900 - 100;
    return { low, high: low + next() ** 3 * 500 };
  });
  return { next, stretches };
});

describe('lanes', () => {
  it('hold stretches that do not meet', () => {
    for (const { stretches } of draws) {
      const lanes = packLanes(stretches, 2);
      stretches.forEach((one, i) => {
        stretches.forEach((other, j) => {
          if (j <= i || lanes[i] !== lanes[j]) return;
          expect(one.high + 2 <= other.low || other.high + 2 <= one.low).toBe(true);
        });
      });
    }
  });

  it('are no more than the stretches that meet at one height', () => {
    for (const { stretches } of draws) {
      const deepest = Math.max(
        ...stretches.map(
          ({ low }) => stretches.filter((each) => each.low <= low && low < each.high + 1e-12).length,
        ),
      );
      expect(Math.max(...packLanes(stretches)) + 1).toBeLessThanOrEqual(Math.max(1, deepest));
    }
  });

  it('come in the order of what fills them', () => {
    const lanes = packLanes([
      { low: 0, high: 10 },
      { low: 5, high: 700 },
      { low: 20, high: 40 },
    ]);
    expect(lanes).toEqual([1, 0, 1]);
  });
});

describe('dodging', () => {
  const within = { low: 0, high: 800 };

  it('keeps order, distance and ends', () => {
    for (const { next } of draws) {
      const wanted = Array.from({ length: 1 + Math.floor(next() * 25) }, () => next() * 900 - 50);
      const places = dodge(wanted, 24, within);
      const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]!);
      const sorted = order.map((i) => places[i]!);
      sorted.forEach((place, rank) => {
        expect(place).toBeGreaterThanOrEqual(within.low - 1e-9);
        expect(place).toBeLessThanOrEqual(within.high + 1e-9);
        if (rank > 0) expect(place - sorted[rank - 1]!).toBeGreaterThanOrEqual(24 - 1e-9);
      });
    }
  });

  it('leaves alone what has room', () => {
    expect(dodge([300, 100, 500], 24, within)).toEqual([300, 100, 500]);
  });

  it('moves a crowd apart around its middle', () => {
    expect(dodge([400, 400, 400], 20, within)).toEqual([380, 400, 420]);
  });

  it('shares evenly what is too little', () => {
    expect(dodge([5, 5, 5], 100, { low: 0, high: 10 })).toEqual([0, 5, 10]);
    expect(dodge([], 10, within)).toEqual([]);
  });
});

describe('names', () => {
  it('lie within their stretch and do not overlap', () => {
    for (const { stretches } of draws) {
      const places = placeNames(stretches, 12);
      const shown = places.flatMap((at, i) => (at === undefined ? [] : [{ at, stretch: stretches[i]! }]));
      expect(shown.length).toBeGreaterThan(0);
      for (const { at, stretch } of shown) {
        const middle = (stretch.low + stretch.high) / 2;
        expect(Math.abs(at - middle)).toBeLessThanOrEqual(
          Math.max(0, (stretch.high - stretch.low - 12) / 2) + 1e-9,
        );
      }
      const sorted = shown.map(({ at }) => at).sort((a, b) => a - b);
      sorted.slice(1).forEach((at, i) => {
        expect(at - sorted[i]!).toBeGreaterThanOrEqual(12 - 1e-9);
      });
    }
  });

  it('give way to the longer stretch', () => {
    expect(
      placeNames(
        [
          { low: 10, high: 14 },
          { low: 0, high: 24 },
        ],
        12,
      ),
    ).toEqual([undefined, 12]);
  });
});

describe('scale', () => {
  it('marks whole multiples of a round step with zero among them, all within', () => {
    for (const unit of ['mm', 'in'] as const) {
      for (const { next } of draws) {
        const low = -next() * 300;
        const high = 50 + next() * 2000;
        const room = 5 + next() * 120;
        const ticks = heightTicks({ low, high }, unit, room);
        const majors = ticks.filter(({ major }) => major);
        expect(majors.some(({ at, label }) => at === 0 && label === '0')).toBe(true);
        for (const { at } of ticks) {
          expect(at).toBeGreaterThanOrEqual(low - 1e-6);
          expect(at).toBeLessThanOrEqual(high + 1e-6);
        }
        majors.slice(1).forEach(({ at, label }, i) => {
          expect(at - majors[i]!.at).toBeGreaterThanOrEqual(room - 1e-9);
          expect(Number(label) * SCALE_UNITS[unit].length).toBeCloseTo(at, 6);
        });
      }
    }
  });

  it('is in the unit that the machine was measured in', () => {
    expect(['mm', 'cm', 'm', 'in', 'ft'].map(scaleUnitOf)).toEqual(['mm', 'mm', 'mm', 'in', 'in']);
    expect(stepOf('mm', 37)).toBe(50);
    expect(stepOf('in', 37)).toBe(2);
    expect(stepOf('mm', 2400)).toBe(3000);
  });

  it('tells heights in words', () => {
    expect(stretchInWords({ low: 5, high: 645 }, 'mm')).toBe('5 to 645 mm');
    expect(stretchInWords({ low: 5.1, high: 4.9 }, 'mm')).toBe('5 mm');
    expect(heightInWords(-0.2, 'mm')).toBe('0 mm');
    expect(heightInWords(50.8, 'in')).toBe('2.0 in');
  });

  it('has round values up to the greatest', () => {
    expect(roundValues(170, 4)).toEqual([0, 50, 100, 150]);
    expect(roundValues(0.9, 4)).toEqual([0, 0.5]);
    expect(roundValues(400, 4)).toEqual([0, 100, 200, 300, 400]);
    expect(roundValues(0, 4)).toEqual([0]);
  });
});

describe('frame', () => {
  it('shows the whole machine between its margins, whatever its height', () => {
    for (const [low, high, pixels] of [
      [-94, 832, 760],
      [-20, 150, 300],
      [-300, 2000, 490],
    ] as const) {
      const frame = frameOf({ low, high }, pixels);
      expect(frame.toY(high)).toBeCloseTo(FRAME_MARGIN, 6);
      expect(frame.toY(low)).toBeCloseTo(pixels - FRAME_MARGIN, 6);
      expect(frame.toY(frame.stretch.high)).toBeCloseTo(0, 6);
      expect(frame.toY(frame.stretch.low)).toBeCloseTo(pixels, 6);
    }
  });
});
