import { expect, it } from 'vitest';
import { terminalProfile } from '../../parts/printed/bought.js';
import { starterMachine } from '../helpers/machines.js';

const withTerminal = (terminal: string) =>
  starterMachine('travelling-demonstrator', (text) =>
    text.replace(/terminal: \{[^}]*\{[^}]*\}[^}]*\}/, `terminal: ${terminal}`),
  );

// A bead of 5 mm inside a 300 mm sphere with a free opening of 100 mm, lip at z = 410: the sphere’s centre is at 549.16407864,
// the bead’s circle at radius 55 and z = 415. Computed for a converged finite-element model of this shape.
it('puts the centre of a sphere with a bead where the finite-element model had it', () => {
  const { terminal } = withTerminal(
    '{ shape: sphere, diameter: 300, opening: { diameter: 100, lip: 5 }, insertion: 235 }',
  );
  expect(terminal.lipZ).toBeCloseTo(410, 9);
  expect(terminal.centreZ).toBeCloseTo(549.16407864, 6);
  const { bead } = terminalProfile({ terminal });
  const middle = [0, 1].map((axis) => bead.reduce((sum, point) => sum + point[axis]!, 0) / bead.length);
  expect(middle[0]).toBeCloseTo(55, 6);
  expect(middle[1]).toBeCloseTo(415, 6);
});

// Cap of a sphere cut by an opening: h = R - sqrt(R^2 - a^2); R 100, a 30: 4.6061. Geometry.
it('cuts a sphere by the cap of its opening', () => {
  const { terminal } = withTerminal(
    '{ shape: sphere, diameter: 250, opening: { diameter: 100, lip: 0.2 }, insertion: 50 }',
  );
  const cap = (radius: number, opening: number) => radius - Math.sqrt(radius ** 2 - opening ** 2);
  expect(cap(100, 30)).toBeCloseTo(4.6061, 4);
  // A raw edge is a bead of next to nothing: what is left of the sphere is its diameter less the cap.
  expect(terminal.topZ - terminal.lipZ).toBeCloseTo(250 - cap(125, 50), 0);
});

// Radius from chord 2a and sagitta h: R = (a^2 + h^2)/(2 h); a 30, h 4.606080: 100.000. Geometry.
it('draws a sphere whose chords give its radius back', () => {
  const { terminal } = withTerminal(
    '{ shape: sphere, diameter: 250, opening: { diameter: 100, lip: 5 }, insertion: 50 }',
  );
  const { outline } = terminalProfile({ terminal });
  const outer = outline.slice(0, outline.length / 2);
  const above = outer.filter(([, z]) => z > terminal.centreZ + 30 && z < terminal.topZ - 1);
  expect(above.length).toBeGreaterThan(5);
  for (const [a, z] of above) {
    const h = terminal.topZ - z;
    expect((a ** 2 + h ** 2) / (2 * h)).toBeCloseTo(125, 6);
  }
});
