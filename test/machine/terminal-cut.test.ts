import { describe, expect, it } from 'vitest';
import { withValues } from '../../parts/checks/change.js';
import { terminalShape } from '../../parts/field/terminal-shape.js';
import {
  arcTo,
  capNormal,
  capShape,
  cutRadius,
  LEAST_CUT,
  openingEdge,
  radiusAtArc,
  rolledCut,
  sagitta,
} from '../../parts/machine/terminal-cut.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

describe('around the pole of a sphere', () => {
  const sphere = { equatorial: 100, polar: 100 };

  it('sagitta and arc at a chord radius of 30 on one of 100', () => {
    // R - sqrt(R^2 - a^2) and R asin(a/R), worked out by hand.
    expect(sagitta(sphere, 30)).toBeCloseTo(4.6061, 4);
    expect(arcTo(sphere, 30)).toBeCloseTo(30.4693, 4);
    expect(Math.sin(capNormal(sphere, 30))).toBeCloseTo(0.3, 12);
  });

  it('there and back along the arc', () => {
    for (const radius of [0, 12, 30, 77, 99])
      expect(radiusAtArc(sphere, arcTo(sphere, radius))).toBeCloseTo(radius, 6);
    expect(arcTo(sphere, 100)).toBeCloseTo(50 * Math.PI, 6);
  });
});

it('a quarter of an ellipse is as long as its elliptic integral, and its normal stands on it', () => {
  const cap = { equatorial: 200, polar: 100 };
  // a E(e) with e^2 = 3/4: E = 1.2110560 (tables of the complete elliptic integral).
  expect(arcTo(cap, 200)).toBeCloseTo(200 * 1.211056, 3);
  const slope = (sagitta(cap, 120.001) - sagitta(cap, 119.999)) / 0.002;
  expect(Math.tan(capNormal(cap, 120))).toBeCloseTo(slope, 6);
});

describe.each(STARTERS)('%s', (starter) => {
  const machine = withValues(starterMachine(starter), { 'terminal.opening.edge': 'sheet' });

  it('has the cap that its field is solved with, to 3 %', () => {
    const { equatorial, polar } = capShape(machine.terminal);
    const shape = terminalShape(machine);
    expect(equatorial).toBeCloseTo(1000 * shape.equatorial, 6);
    expect(Math.abs(polar / (1000 * shape.polar) - 1)).toBeLessThan(
      machine.terminal.shape === 'sphere' ? 1e-9 : 0.03,
    );
  });

  it('cuts at the free opening where the edge stays raw', () => {
    const raw = withValues(machine, { 'terminal.opening.lip': 0.5 });
    expect(openingEdge(raw.terminal)).toBe('raw');
    expect(cutRadius(raw)).toBe(raw.terminal.openingDiameter.mean / 2);
  });

  it('leaves sheet for a rolled bead: a turn around it, from the cut to where it touches the shell', () => {
    const { terminal } = machine;
    expect(openingEdge(terminal)).toBe('rolled');
    const radius = cutRadius(machine);
    expect(radius).toBeLessThan(terminal.openingDiameter.mean / 2);
    const turn = 2 * Math.PI * (terminal.lipRadius - terminal.shell / 2);
    const cap = capShape(terminal);
    expect(arcTo(cap, radius)).toBeCloseTo(rolledCut(terminal), 6);
    if (terminal.shape !== 'sphere') return;
    // On a sphere the bead's middle, its touching point and the sphere's lie on one line.
    const { mean } = terminal.diameter;
    const rim = terminal.openingDiameter.mean / 2 + terminal.lipRadius;
    const touch = (mean / 2) * Math.asin(rim / (mean / 2 - terminal.lipRadius));
    expect((mean / 2) * Math.asin(radius / (mean / 2))).toBeCloseTo(touch - turn, 4);
  });
});

it('a bead that takes more sheet than there is is put in: the cut reaches out to where it touches', () => {
  const { terminal } = withValues(starterMachine('travelling-demonstrator'), { 'terminal.opening.lip': 14 });
  expect(rolledCut(terminal)).toBeLessThan(LEAST_CUT);
  expect(openingEdge(terminal)).toBe('ring');
  const radius = cutRadius({ terminal });
  expect(radius).toBeGreaterThan(48 + 14);
  expect(radius).toBeLessThan(48 + 2 * 14);
});
