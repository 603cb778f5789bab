import { describe, expect, it } from 'vitest';
import { type MeasuredWay, WayFinder } from '../../parts/checks/insulation.js';
import { pollutionOf, wallVolts } from '../../parts/checks/insulation-limit.js';
import { insulation, type Placed, placedPieces } from '../../parts/checks/insulation-scene.js';
import { severityOfWay } from '../../parts/checks/way-severity.js';
import { dischargeOf } from '../../parts/field/discharge.js';
import { nearestOnTerminal } from '../../parts/field/terminal-distance.js';
import { threadDiameter } from '../../parts/machine/drive.js';
import { shaftLoop } from '../../parts/solid/facets.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { AT_ORIGIN, type Vec3 } from '../../parts/solid/vector.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const kernel = await loadKernel();
const demo = starterMachine('travelling-demonstrator');
const LONG = 240_000;

/** One finder for all: what did not change is not prepared again. */
const finder = new WayFinder(kernel);
const pieces = placedPieces(demo, kernel);
const ordinary = await finder.waysAmong(demo, pieces);
const idOf = ({ limit }: MeasuredWay) => limit.id;
const weakest = (ways: readonly MeasuredWay[]) =>
  [...ways].sort((x, y) => x.limit.voltage.likely - y.limit.voltage.likely)[0]!;

/** A rod of metal where a builder might put one. */
function rod(name: string, net: Placed['net'], at: Vec3, turn: Vec3, radius: number, length: number): Placed {
  const mesh = kernel.scope(() => kernel.mesh(kernel.extrude([shaftLoop(radius)], 0, length)));
  return {
    name,
    kind: name,
    title: name,
    key: `${name} ${radius} ${length}`,
    mesh,
    placement: { turn, move: at },
    net,
    printed: false,
    meets: [],
  };
}

describe('what conducts', () => {
  it.each(STARTERS)('is decided for every piece of %s', (name) => {
    const placed = placedPieces(starterMachine(name), kernel);
    expect(new Set(placed.map((piece) => piece.name)).size).toBe(placed.length);
    const insulators = placed.filter(({ net }) => net === undefined);
    // Metal is never printed here, and what is printed never metal.
    for (const { printed, kind } of insulators)
      expect(printed || /^(tube|belt|drive-belt|roller-shell-(lower|upper)|plate)$/.test(kind), kind).toBe(
        true,
      );
    expect(placed.filter(({ net }) => net === 'terminal').map(({ kind }) => kind)).toContain('terminal');
    expect(placed.filter(({ net }) => net === 'ground').map(({ kind }) => kind)).toContain('ground-stud');
  });

  it('belongs to a side: metal that nothing connects to the one it is nearer to', () => {
    const { scene, floating } = insulation(pieces, new Map());
    const sideOf = (name: string) => scene.body(name).net;
    expect(floating).toContain('jack-screw-left');
    expect(sideOf('jack-screw-left')).toBe('terminal');
    for (const { name, kind } of pieces) {
      if (kind === 'lower-carrier-screw') expect(sideOf(name)).toBe('ground');
      if (kind === 'cheek-screw') expect(sideOf(name)).toBe('terminal');
    }
    expect(scene.bodies.every(({ net }) => net === undefined || net === 'terminal' || net === 'ground')).toBe(
      true,
    );
  });

  it('takes prints of conducting filament for conductors, as what they touch', () => {
    const machine = variant('travelling-demonstrator', { print: { conductive: true } });
    const { scene, floating } = insulation(placedPieces(machine, kernel), new Map());
    expect(scene.body('base-collar').net).toBe('ground');
    expect(scene.body('rim-ring').net).toBe('terminal');
    expect(floating).not.toContain('base-collar');
  });

  it(
    'flags prints that conduct where a way ends on one, and finds it shorter than without',
    async () => {
      const machine = variant('travelling-demonstrator', { print: { conductive: true } });
      const ways = await new WayFinder(kernel).ways(machine);
      const flagged = ways.filter(({ conducting }) => conducting.length > 0);
      expect(flagged.length).toBeGreaterThan(0);
      const shortest = (of: readonly MeasuredWay[]) =>
        Math.min(...of.filter(({ medium }) => medium !== 'line').map(({ way }) => way.length));
      expect(shortest(ways)).toBeLessThan(shortest(ordinary));
      expect(ordinary.every(({ conducting }) => conducting.length === 0)).toBe(true);
    },
    LONG,
  );

  it('leaves screws through an insulating plate to themselves', () => {
    const machine = variant('travelling-demonstrator', { base: { plate: { material: 'plywood' } } });
    const placed = placedPieces(machine, kernel);
    expect(placed.find(({ name }) => name === 'plate')?.net).toBeUndefined();
    expect(placed.filter(({ kind }) => kind === 'collar-screw').map(({ net }) => net)).toEqual(
      demo.base.boltAngles.map(() => 'floating'),
    );
  });
});

describe('ways on the demonstrator', () => {
  it('are told once for what repeats around the axis, with its count', () => {
    const screws = ordinary.find((way) => idOf(way) === 'air/terminal-to-collar-screw')!;
    expect(screws.way.alike).toBe(demo.base.boltAngles.length);
    expect(screws.limit.title).toContain(`(${demo.base.boltAngles.length} alike)`);
    expect(new Set(ordinary.map(idOf)).size).toBe(ordinary.length);
  });

  it('lead through free air as far as the terminal’s outline is from the stud, found without any solid', () => {
    const found = ordinary.find((way) => idOf(way) === 'air/terminal-to-ground-stud')!;
    const { base } = demo;
    const radius = base.boltRadius + threadDiameter(base.stud.size) / 2;
    const straight = nearestOnTerminal(demo, [radius, base.stud.top]).distance;
    expect(found.way.length / straight).toBeGreaterThan(0.99);
    expect(found.way.length / straight).toBeLessThan(1.01);
  });

  it('along surfaces are at least as long as the tube is free, and at most that with every piece at its ends', () => {
    const surface = ordinary.filter(({ medium }) => medium === 'surface');
    expect(surface.length).toBeGreaterThan(1);
    const free = demo.tube.rimZ - demo.grip.mount.headTop;
    for (const { way, limit } of surface) {
      expect(way.length, limit.id).toBeGreaterThan(free);
      expect(way.length, limit.id).toBeLessThan(free + 250);
      expect(limit.surfaces.join(), limit.id).toMatch(/tube’s (outside|bore)/);
      const legs = way.legs.reduce((sum, { length }) => sum + length, 0);
      expect(legs).toBeCloseTo(way.length, 6);
    }
  });

  it('have limits that are the lengths of their stretches times the gradients that these hold', () => {
    for (const { way, limit, medium, carried } of ordinary) {
      if (medium === 'line' || medium === 'wall') continue;
      const of = (...kinds: string[]) =>
        way.legs.filter(({ kind }) => kinds.includes(kind)).reduce((sum, { length }) => sum + length, 0);
      expect(of('surface') + of('air', 'gap'), limit.id).toBeCloseTo(way.length, 6);
      // 4.5 kV/cm likely over clean surfaces; a surface way's few mm of gaps change little.
      if (medium === 'surface') expect(carried / (450 * way.length), limit.id).toBeCloseTo(1, 1);
      expect(limit.voltage.likely, limit.id).toBeGreaterThanOrEqual(carried * (1 - 1e-9));
    }
  });

  it('hold more than the machine is meant to discharge at', () => {
    for (const { limit } of ordinary) expect(severityOfWay(limit, dischargeOf(demo)), limit.id).toBe('ok');
  });
});

describe('a bad edit is caught by name', () => {
  const { terminal, tube } = demo;
  const dangerous = (ways: readonly MeasuredWay[]) =>
    ways.filter(({ limit }) => severityOfWay(limit, dischargeOf(demo)) === 'danger');
  it(
    'a grounded screw moved up the column, near the lip',
    async () => {
      const moved = pieces.map((piece) =>
        piece.name === 'collar-screw#1'
          ? {
              ...piece,
              placement: {
                ...piece.placement,
                move: [piece.placement.move[0], piece.placement.move[1], terminal.lipZ - 60] as const,
              },
            }
          : piece,
      );
      const ways = await finder.waysAmong(demo, moved);
      expect(idOf(weakest(ways))).toBe('air/terminal-to-collar-screw');
      expect(dangerous(ways).map(idOf)).toContain('air/terminal-to-collar-screw');
      // Back in its place it is none.
      expect(dangerous(await finder.waysAmong(demo, pieces))).toEqual([]);
    },
    LONG,
  );

  it(
    'a long metal axle through the upper carrier and down the bore',
    async () => {
      const axle = rod('long axle', 'terminal', [0, 20, tube.rimZ - 400], [0, 0, 0], 3, 380);
      const ways = await finder.waysAmong(demo, [...pieces, axle]);
      const caught = dangerous(ways);
      expect(caught.length).toBeGreaterThan(0);
      expect(
        caught.every(
          ({ limit }) => limit.surfaces[0] === 'long axle' || limit.surfaces.includes('long axle'),
        ),
      ).toBe(true);
    },
    LONG,
  );

  it(
    'metal of the terminal below its lip’s plane',
    async () => {
      const ring = rod('bare ring', 'terminal', [0, 0, 0], [0, 0, 0], 1, 2);
      const { outer } = tube;
      const mesh = kernel.scope(() =>
        kernel.mesh(
          kernel.subtract(kernel.extrude([shaftLoop(outer.mean / 2 + 12)], 0, 2), [
            kernel.extrude([shaftLoop(outer.mean / 2 + 8)], -1, 3),
          ]),
        ),
      );
      const low = {
        ...ring,
        key: 'bare ring',
        mesh,
        placement: { ...AT_ORIGIN, move: [0, 0, terminal.lipZ - 120] as const },
      };
      const ways = await finder.waysAmong(demo, [...pieces, low]);
      const air = ways.find((way) => idOf(way) === 'air/terminal-to-collar-screw')!;
      const before = ordinary.find((way) => idOf(way) === 'air/terminal-to-collar-screw')!;
      expect(air.limit.surfaces[0]).toBe('bare ring');
      expect(before.way.length - air.way.length).toBeGreaterThan(90);
    },
    LONG,
  );

  it(
    'a missing flange: one that is of a piece with the tube lengthens its outside, one slipped on does not',
    async () => {
      const column = pieces.find(({ kind }) => kind === 'tube')!;
      const [wide, half] = [40, tube.length / 2];
      const disc = (inner: number) =>
        kernel.subtract(kernel.extrude([shaftLoop(tube.outer.mean / 2 + wide)], half, half + 3), [
          kernel.extrude([shaftLoop(inner)], half - 1, half + 4),
        ]);
      const whole = kernel.scope(() => {
        const shaft = kernel.subtract(kernel.extrude([shaftLoop(tube.outer.mean / 2)], 0, tube.length), [
          kernel.extrude([shaftLoop(tube.inner.likely / 2)], -1, tube.length + 1),
        ]);
        return kernel.mesh(kernel.union([shaft, disc(tube.inner.likely / 2 + 1)]));
      });
      const others = pieces.filter(({ kind }) => kind !== 'tube');
      const flanged = await finder.waysAmong(demo, [...others, { ...column, key: 'flanged', mesh: whole }]);
      const slipped = await finder.waysAmong(demo, [
        ...pieces,
        {
          ...column,
          name: 'slipped on',
          kind: 'slipped on',
          key: 'slipped on',
          mesh: kernel.scope(() => kernel.mesh(disc(tube.outer.mean / 2 + 0.1))),
        },
      ]);
      const outside = (found: readonly MeasuredWay[]) =>
        Math.min(
          ...found
            .filter(({ medium, limit }) => medium === 'surface' && limit.surfaces.includes('tube’s outside'))
            .map(({ way }) => way.length),
        );
      // A joint without glue is a way, even at zero gap.
      expect(outside(slipped)).toBeCloseTo(outside(ordinary), 0);
      // Of a piece it is 80 mm more outside; what is found then is shorter than that only if it runs in the bore.
      expect(Math.min(outside(flanged), outside(ordinary) + 2 * wide)).toBeGreaterThan(
        outside(ordinary) + 1.9 * wide,
      );
    },
    LONG,
  );
});

describe('what walls hold', () => {
  const printed = pieces.find(({ kind }) => kind === 'tube-mount');
  it('is five times as much across a print’s layers as along them, up to 5 mm, and as air beyond (common practice)', () => {
    const of = (length: number, along: Vec3) => wallVolts(demo, printed, length, along);
    expect(of(2, [0, 0, 1])).toBeCloseTo(10_000, 6);
    expect(of(2, [1, 0, 0])).toBeCloseTo(2_000, 6);
    expect(of(7, [1, 0, 0])).toBeCloseTo(5_000 + 2 * 450, 6);
    for (let length = 0.5; length < 12; length += 0.5)
      expect(of(length + 0.5, [1, 0, 0])).toBeGreaterThan(of(length, [1, 0, 0]));
  });
  it('is not told of what no strength is in stock for', () => {
    expect(
      wallVolts(
        demo,
        pieces.find(({ kind }) => kind === 'belt'),
        1,
        [1, 0, 0],
      ),
    ).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('a machine that is too short', () => {
  it(
    'is told what mends it, measured again: the longer tube clears what it is told for',
    async () => {
      const short = starterMachine('inch-built');
      const own = new WayFinder(kernel);
      const findings = await own.findings(short);
      const bad = findings.filter(({ severity, id }) => severity !== 'ok' && !id.startsWith('supply/'));
      expect(bad.length).toBeGreaterThan(2);
      const tube = bad
        .flatMap(({ tries = [] }) => tries)
        .find(({ values }) => values[0]!.key === 'column.tube.length')!;
      const length = tube.values[0]!.value as number;
      const longer = variant('inch-built', { column: { tube: { length } } });
      const after = await own.ways(longer);
      for (const { limit } of after) expect(severityOfWay(limit, dischargeOf(longer)), limit.id).toBe('ok');
    },
    LONG,
  );

  it('counts dust and damp as pollution degree 3', () => {
    expect(pollutionOf(demo)).toBe(2);
    expect(pollutionOf(variant('travelling-demonstrator', { site: { cleanliness: 'dusty' } }))).toBe(3);
  });
});
