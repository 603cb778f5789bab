import { expect, it } from 'vitest';
import {
  middleDeflection,
  ratingLife,
  rodMoment,
  slopeAtLoads,
  slopeAtSupports,
} from '../../parts/checks/bending.js';
import { rootOfSquares } from '../../parts/checks/mechanics.js';

// Beam tables: formulas from memory, numbers computed by them; a rod of 8 mm, 200 mm between supports, 50 N, 205 GPa.

const ROD = { span: 200, modulus: 205_000, moment: rodMoment(8) };

it('both loads in the middle give F L^3 / (48 E I)', () => {
  expect(rodMoment(8)).toBeCloseTo(201.06, 2);
  expect(middleDeflection({ ...ROD, load: 25, arm: 100 })).toBeCloseTo(0.2022, 4);
});

it('slopes are those of the bending line, integrated in small steps', () => {
  const bent = { ...ROD, load: 25, arm: 60 };
  // From the middle, where the slope is nothing, outwards.
  const steps = 20_000;
  const moment = (x: number) => bent.load * Math.min(x, bent.arm);
  const slopeAt = (x: number) => {
    const h = (bent.span / 2 - x) / steps;
    let sum = 0;
    for (let i = 0; i < steps; i++) sum += moment(x + (i + 0.5) * h) * h;
    return sum / (bent.modulus * bent.moment);
  };
  expect(slopeAtSupports(bent)).toBeCloseTo(slopeAt(0), 9);
  expect(slopeAtLoads(bent)).toBeCloseTo(slopeAt(bent.arm), 9);
});

it('rating life of NSK’s example 1: 6208, C 29 100 N, 2500 N, 900 rpm, about 29 000 h', () => {
  // NSK rolling bearings general catalogue, p. A34 (verified); the exact value is 29 206 h.
  expect(ratingLife(29_100, 2500, 900)).toBeCloseTo(29_206, -1);
});

it('rating life of a calculator page: C 30 kN, 5 kN, 1500 rpm, 2400 h', () => {
  expect(ratingLife(30, 5, 1500)).toBeCloseTo(2400, 6);
});

it('tolerance stacks by root of squares: an article’s four parts, and ten parts of 0.1', () => {
  // Four parts of 0.10, 0.05, 0.03 and 0.05 (dimensions of a published worked example; sum and root computed).
  expect(rootOfSquares([0.1, 0.05, 0.03, 0.05])).toBeCloseTo(0.1261, 4);
  expect(rootOfSquares(Array.from({ length: 10 }, () => 0.1))).toBeCloseTo(0.3162, 4);
});
