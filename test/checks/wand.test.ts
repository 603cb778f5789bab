import { describe, expect, it } from 'vitest';
import { octagonMoment } from '../../parts/checks/bending.js';
import { checkMachine } from '../../parts/checks/index.js';
import {
  pullOut,
  snapStrain,
  WAND_FORCE,
  wandBending,
  wandJoint,
  wandLength,
  wandPullOut,
  wandSnap,
  wandStresses,
} from '../../parts/checks/wand.js';
import type { Machine } from '../../parts/machine/machine.js';
import { octagon } from '../../parts/printed/wand-bar.js';
import { starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const { prediction } = checkMachine(A);
const wand = (length: number) => variant('travelling-demonstrator', { wand: { length } });

describe('the wand’s length', () => {
  it('is held against the high end of the prediction', () => {
    const finding = wandLength(A, { prediction });
    expect(finding.required).toBeCloseTo(prediction.voltage.high / 0.3, 6);
    expect(finding.measured).toBe(A.wand.insulated);
  });

  it('too short is found, and the length that is told is enough', () => {
    const short = wandLength(wand(300), { prediction });
    expect(short).toMatchObject({ id: 'wand/length', severity: 'caution', unit: 'mm', sense: 'min' });
    const [trial] = short.tries!;
    expect(trial!.values).toEqual([{ key: 'wand.length', value: expect.any(Number), unit: 'mm' }]);
    const length = trial!.values[0]!.value as number;
    expect(wandLength(wand(length), { prediction }).severity).toBe('ok');
    expect(wandLength(wand(length - 10), { prediction }).severity).toBe('caution');
    expect(short.remedy).toContain(`${wand(length).wand.segment.count} segments`);
  });

  it('is held against the target where that is higher', () => {
    const machine = variant('travelling-demonstrator', {
      target: { voltage: 600_000 },
      wand: { length: undefined },
    });
    const finding = wandLength(machine, { prediction });
    expect(finding.required).toBeCloseTo(2000, 9);
    expect(finding.basis).toContain('target of 600 kV');
    expect(finding.severity).toBe('ok');
  });

  it('is among the findings of a machine', () => {
    const ids = checkMachine(A).findings.map(({ id }) => id);
    expect(ids).toEqual(
      expect.arrayContaining([
        'wand/length',
        'strength/wand-bending',
        'strength/wand-pull-out',
        'strength/wand-snap',
        'print/bed-wand-segment',
      ]),
    );
  });
});

describe('an octagon’s second moment', () => {
  it('is that of its outline', () => {
    // Integral of z^2 over the section, by strips.
    const width = 23;
    const side = width * Math.tan(Math.PI / 8);
    const N = 20_000;
    let sum = 0;
    for (let i = 0; i < N; i++) {
      const z = ((i + 0.5) / N - 0.5) * width;
      const across = Math.min(width, side + 2 * (width / 2 - Math.abs(z)));
      sum += z ** 2 * across * (width / N);
    }
    expect(octagonMoment(width)).toBeCloseTo(sum, 1);
    const [from, to] = [octagon(width, 0)[0]!, octagon(width, 0)[1]!];
    expect(to[0] - from[0]).toBeCloseTo(side, 9);
  });
});

describe('bending', () => {
  it('is the force at the ball times the lever to the grip’s face', () => {
    const machine = wand(650);
    const { segment, head, guard, plug } = machine.wand;
    const lever = segment.count * segment.length + head.length + head.ballAt + guard.thickness;
    const [face] = wandStresses(machine);
    const { length } = octagon(plug, 0);
    expect(length).toBe(8);
    expect(face!.stress).toBeCloseTo((WAND_FORCE.value * lever * (plug / 2)) / octagonMoment(plug), 9);
    // 20 N at 0.65 m: 13 N m on 1330 mm3.
    expect(face!.stress).toBeGreaterThan(9);
    expect(face!.stress).toBeLessThan(11);
  });

  it('across layers half is allowed of what is along them', () => {
    const stresses = wandStresses(A);
    const along = stresses.find(({ where }) => where.includes('along'))!;
    const across = stresses.find(({ where }) => where.includes('across'))!;
    expect(along.allowed).toBe(25);
    expect(across.allowed).toBe(12.5);
  });

  it('is borne by the starters’ wands, and not by one of three metres', () => {
    expect(wandBending(A).severity).toBe('ok');
    expect(wandBending(starterMachine('lecture-hall')).severity).toBe('ok');
    const long = wandBending(wand(3000));
    expect(long.severity).toBe('caution');
    const [, force] = /no more than (\d+) N/.exec(long.remedy)!;
    expect(Number(force)).toBeLessThan(WAND_FORCE.value);
    expect(Number(force)).toBeCloseTo((WAND_FORCE.value * long.required) / long.measured, -1);
  });

  it('names the weakest place', () => {
    const { title, measured, required } = wandBending(A);
    const worst = Math.max(...wandStresses(A).map(({ stress, allowed }) => stress / allowed));
    expect(measured / required).toBeCloseTo(worst, 9);
    expect(title).toContain('plug at its pin');
  });
});

const pinned = (pin: Partial<Machine['wand']['pin']>): Machine => ({
  ...A,
  wand: { ...A.wand, pin: { ...A.wand.pin, ...pin } },
});

describe('pulling', () => {
  it('shears a pin through twice', () => {
    // 2 x 28 mm2 at a quarter of 50 MPa.
    expect(pullOut(A)).toBeCloseTo(700, 9);
    expect(wandPullOut(A).severity).toBe('ok');
    const thin = wandPullOut(pinned({ thickness: 1 }));
    expect(thin.severity).toBe('caution');
    expect(thin.remedy).toContain('72 MPa');
  });
});

describe('a pin that snaps in', () => {
  it('strains its legs by 1.5 h y / L^2', () => {
    expect(snapStrain(A)).toBeCloseTo((100 * 1.5 * 2.8 * 0.7) / 24.1 ** 2, 2);
    expect(wandSnap(A)).toMatchObject({ severity: 'ok' });
    expect(wandSnap(A).required).toBeCloseTo(1.8, 9);
  });

  it('may have barbs too high for its material', () => {
    expect(wandSnap(pinned({ barb: 3 })).severity).toBe('danger');
    expect(wandSnap(variant('travelling-demonstrator', { print: { material: 'pla' } })).required).toBeCloseTo(
      1.2,
      9,
    );
  });
});

describe('a plug in its mortise', () => {
  const printed = (calibration: { hole?: number; outside?: number; scatter?: number }) =>
    wandJoint(variant('travelling-demonstrator', { print: { calibration } }));

  it('has the same play whatever the printer does', () => {
    for (const finding of [wandJoint(A), printed({ hole: -0.4, outside: 0.3 })]) {
      expect(finding).toMatchObject({ id: 'fit/wand-joint', severity: 'ok' });
      expect(finding.measured - finding.required).toBeCloseTo(0.25, 2);
    }
  });

  it('may not enter where prints scatter by more than half of it', () => {
    expect(printed({ scatter: 0.12 }).severity).toBe('ok');
    const finding = printed({ scatter: 0.2 });
    expect(finding.severity).toBe('caution');
    expect(finding.remedy).toContain('0.12 mm');
    expect(finding.tries).toHaveLength(1);
  });
});
