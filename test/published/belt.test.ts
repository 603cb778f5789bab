import { expect, it } from 'vitest';
import { slipRatio } from '../../parts/checks/mechanics.js';
import { beltSpeed, freeLength, openBelt } from '../../parts/machine/belt-path.js';

const radians = (degrees: number) => (degrees * Math.PI) / 180;
const degrees = (angle: number) => (angle * 180) / Math.PI;

// Exercise page on belt drives, verified: pulleys 1600 and 500 mm, 12 m apart, answer 27.32 m.
it('gives the length of an open belt as an exercise page does', () => {
  expect(openBelt(1600, 500, 12_000).loopLength / 1000).toBeCloseTo(27.32, 2);
});

// Calculator page, verified: diameters 10 and 5 in, 20 in apart, answer 63.87 in.
it('gives the length of an open belt as a calculator page does', () => {
  expect(openBelt(10, 5, 20).loopLength).toBeCloseTo(63.87, 2);
});

// Computed from the textbook formula (Khurmi, Theory of Machines, ch. 11).
it('gives length and wrap of small pulleys', () => {
  expect(openBelt(50, 50, 400).loopLength).toBeCloseTo(957.0796, 4);
  const uneven = openBelt(50, 25, 400);
  expect(uneven.loopLength).toBeCloseTo(918.2004, 4);
  expect(uneven.wraps.map(degrees)[0]).toBeCloseTo(183.582, 3);
  expect(uneven.wraps.map(degrees)[1]).toBeCloseTo(176.418, 3);
});

it('refuses rollers that overlap', () => {
  expect(() => openBelt(50, 50, 50)).toThrow(RangeError);
});

it('stretches the cut length to the loop', () => {
  expect(freeLength(1508, 8) * 1.08).toBeCloseTo(1508, 9);
});

// Khurmi, Theory of Machines, example 11.1, verified: 150 rpm, 750 on 450 mm, then 900 on 150 mm: 1500 rpm without slip.
it('steps speeds up through two drives', () => {
  const first = (150 * 750) / 450;
  const circumference = Math.PI * 0.15;
  expect(beltSpeed(first, 900, 150, 150)).toBeCloseTo((1500 / 60) * circumference, 9);
});

// Question bank, verified: friction 0.3, one turn 6.6. Encyclopaedia's table cell, verified: friction 0.6, five turns 153 552 935.
it('gives the capstan ratios that are printed', () => {
  expect(slipRatio(0.3, radians(360))).toBeCloseTo(6.6, 1);
  expect(slipRatio(0.6, radians(1800))).toBeCloseTo(153_552_935, -1);
});

// Exercise page, verified: 120 degrees, friction 0.3, 400 N on the tight side: ratio 1.874, 213.4 N on the slack side;
// pulley 1.5 m at 250 rpm: 3.66 kW.
it('works a belt exercise', () => {
  const slack = 400 / slipRatio(0.3, radians(120));
  expect(slipRatio(0.3, radians(120))).toBeCloseTo(1.874, 3);
  expect(slack).toBeCloseTo(213.4, 1);
  expect(((400 - slack) * Math.PI * 1.5 * 250) / 60 / 1000).toBeCloseTo(3.66, 2);
});
