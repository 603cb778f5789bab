import { type CouponSizes, couponSizes } from '../machine/coupon.js';
import type { Machine } from '../machine/machine.js';
import { holeLoop, polygonFactor, rectangle, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, slotThroughRing } from '../solid/sections.js';
import type { Bounds, Loop, Vec2 } from '../solid/vector.js';
import { codeFor, engraver, type PrintedPart, type Stated } from './part.js';

type CouponDimensions = {
  readonly holes: readonly number[];
  readonly outsides: readonly number[];
  readonly slot: number;
  readonly wall: number;
  readonly height: number;
  readonly barHeight: number;
};

/** mm: 6 mm and more of an outside stand free above the bars for the caliper's jaws. */
const HEIGHT = 9;
const BAR_HEIGHT = 2;
/** mm between neighbours: a jaw goes in, and a label stands on the bar. */
const GAP = 10;
const BAR_WIDTH = 9;
/** mm the block's walls are long, for the flat of a jaw. */
const BLOCK_LENGTH = 14;
/** mm; rows are filled up to it, so that small printers take it too. */
const ROW = 80;
const LABEL_HEIGHT = 4.5;
const CODE_HEIGHT = 2.5;
const CODE_LINE = 1.4 * CODE_HEIGHT;

/** A ring or the block, where it stands. */
interface Stand {
  readonly label: string;
  readonly at: Vec2;
  /** Half of what it takes along x and along y. */
  readonly half: Vec2;
  readonly ring?: { readonly hole: number; readonly outside: number };
}

/** Bar from one stand to its neighbour, and where it leaves each. */
interface Bar {
  readonly from: Stand;
  readonly to: Stand;
  readonly axis: 0 | 1;
}

const LABELS = 'ABCDEFG';

/** Largest first, in rows along x; the first of each row stands over the first of all. */
function layout(d: CouponDimensions): { stands: Stand[]; bars: Bar[] } {
  const block = { label: LABELS[d.holes.length]!, half: [d.slot / 2 + d.wall, BLOCK_LENGTH / 2] as const };
  const rings = d.outsides.map((outside, i) => ({
    label: LABELS[i]!,
    half: [outside / 2, outside / 2] as const,
    ring: { hole: d.holes[i]!, outside },
  }));
  const waiting = [...rings.reverse(), block];
  const rows: (typeof waiting)[] = [];
  for (const each of waiting) {
    const row = rows.at(-1);
    const taken = row ? row.reduce((sum, one) => sum + 2 * one.half[0] + GAP, 0) : Number.POSITIVE_INFINITY;
    if (row && taken + 2 * each.half[0] <= ROW) row.push(each);
    else rows.push([each]);
  }
  const stands: Stand[] = [];
  const bars: Bar[] = [];
  let [y, above] = [0, 0];
  let first: Stand | undefined;
  for (const row of rows) {
    const deepest = Math.max(...row.map(({ half }) => half[1]));
    y += first ? above + GAP + deepest : 0;
    above = deepest;
    let [x, before]: [number, Stand | undefined] = [0, undefined];
    for (const each of row) {
      x += before ? before.half[0] + GAP + each.half[0] : 0;
      const stand: Stand = { ...each, at: [x, y] };
      stands.push(stand);
      if (before) bars.push({ from: before, to: stand, axis: 0 });
      else if (first) bars.push({ from: first, to: stand, axis: 1 });
      if (!before) first = stand;
      before = stand;
    }
  }
  return { stands, bars };
}

/** A bar's outline, from the middle of one stand to that of the next. */
function barLoop({ from, to, axis }: Bar): Loop {
  const half = BAR_WIDTH / 2;
  return axis === 0
    ? rectangle(from.at[0], from.at[1] - half, to.at[0], from.at[1] + half)
    : rectangle(from.at[0] - half, from.at[1], from.at[0] + half, to.at[1]);
}

/** A flag in front of a stand that carries its label; the first of a later row has the bar there. */
function flagLoop(stand: Stand): Loop {
  const [x, y] = stand.at;
  return rectangle(x - BAR_WIDTH / 2, y - stand.half[1] - FLAG, x + BAR_WIDTH / 2, y);
}
const FLAG = 8;

/** Area (mm2) of a strip of the bars' width that lies inside a stand, from its middle to its edge. */
function inside(stand: Stand, axis: 0 | 1): number {
  return stand.ring ? slotThroughRing(0, stand.ring.outside / 2, BAR_WIDTH) : stand.half[axis] * BAR_WIDTH;
}

const flagged = ({ stands, bars }: ReturnType<typeof layout>) =>
  stands.filter((stand) => !bars.some(({ to, axis }) => axis === 1 && to === stand));

function marks(d: CouponDimensions): { labels: Engraving[]; code: Engraving[] } {
  const { stands, bars } = layout(d);
  const line = { stroke: MARK_STROKE, depth: MARK_DEPTH };
  const labels = stands.map(
    ({ label, at, half }): Engraving => ({
      ...line,
      text: label,
      height: LABEL_HEIGHT,
      layout: { kind: 'line', centre: [at[0], at[1] - half[1] - FLAG / 2], heading: 0 },
      mirrored: false,
    }),
  );
  const code = codeFor(fitCoupon, d);
  const { from, to } = bars[0]!;
  const middle = (from.at[0] + from.half[0] + to.at[0] - to.half[0]) / 2;
  const lines = [code.slice(0, 4), code.slice(4)].map(
    (text, i): Engraving => ({
      ...line,
      text,
      height: CODE_HEIGHT,
      layout: { kind: 'line', centre: [-middle, from.at[1] + (0.5 - i) * CODE_LINE], heading: 0 },
      mirrored: true,
    }),
  );
  return { labels, code: lines };
}

function walls(d: CouponDimensions, block: Stand): Loop[] {
  const [x, y] = block.at;
  return [-1, 1].map((side) => {
    const [near, far] = [(side * d.slot) / 2, side * (d.slot / 2 + d.wall)];
    return rectangle(
      x + Math.min(near, far),
      y - BLOCK_LENGTH / 2,
      x + Math.max(near, far),
      y + BLOCK_LENGTH / 2,
    );
  });
}

const blockOf = (stands: readonly Stand[]) => stands.find(({ ring }) => !ring)!;

/** Rings, walls and bars, without holes and marks. */
function body(d: CouponDimensions, k: Kernel): Solid {
  const { stands, bars } = layout(d);
  const block = blockOf(stands);
  const [x, y] = block.at;
  const low = [
    ...bars.map(barLoop),
    ...flagged({ stands, bars }).map(flagLoop),
    rectangle(x - block.half[0], y - block.half[1], x + block.half[0], y + block.half[1]),
  ];
  const tall = [
    ...stands.flatMap(({ ring, at }) => (ring ? [shaftLoop(ring.outside / 2, at)] : [])),
    ...walls(d, block),
  ];
  return k.union([
    k.extrude(k.join([...low, ...tall]), 0, d.barHeight),
    ...tall.map((loop) => k.extrude([loop], 0, d.height)),
  ]);
}

/** mm3 of `body`, in closed form. */
function bodyVolume(d: CouponDimensions): number {
  const { stands, bars } = layout(d);
  const rings = d.outsides.reduce((sum, outside) => sum + discArea(outside / 2) * d.height, 0);
  const block = 2 * d.wall * BLOCK_LENGTH * d.height + d.slot * BLOCK_LENGTH * d.barHeight;
  const strips =
    bars.reduce((sum, bar) => {
      const length = bar.to.at[bar.axis] - bar.from.at[bar.axis];
      return sum + length * BAR_WIDTH - inside(bar.from, bar.axis) - inside(bar.to, bar.axis);
    }, 0) +
    flagged({ stands, bars }).reduce(
      (sum, stand) => sum + (stand.half[1] + FLAG) * BAR_WIDTH - inside(stand, 1),
      0,
    );
  return rings + block + strips * d.barHeight;
}

const discArea = (radius: number) => Math.PI * radius ** 2 * polygonFactor(sidesFor(radius));

function boundsOf(d: CouponDimensions): Bounds {
  const { stands, bars } = layout(d);
  const flags = flagged({ stands, bars });
  const edge = (axis: 0 | 1, side: -1 | 1) =>
    Math.max(
      ...stands.map(
        (stand) =>
          side * stand.at[axis] +
          stand.half[axis] +
          (axis === 1 && side < 0 && flags.includes(stand) ? FLAG : 0),
      ),
    );
  return { min: [-edge(0, -1), -edge(1, -1), 0], max: [edge(0, 1), edge(1, 1), d.height] };
}

/** Printed once to see what the printer does to a diameter: rings to measure inside and outside, a slot and a wall. */
export const fitCoupon: PrintedPart<CouponDimensions> = {
  id: 'fit-coupon',
  revision: 1,
  role: 'tool',
  purpose: 'is measured to see what the printer does to holes and outsides, small ones and large ones',
  copies: 1,
  step: 0,
  print: { walls: 3, infill: 100, orientation: 'bars on the bed, as the parts will be printed' },
  assembly:
    'Print it with the filament, nozzle and settings of the parts, let it cool, and measure it as its list says.',
  fields: {
    holes: { unit: 'mm', meaning: 'holes of the rings, diameters' },
    outsides: { unit: 'mm', meaning: 'outsides of the rings, diameters' },
    slot: { unit: 'mm', meaning: 'slot, width' },
    wall: { unit: 'mm', meaning: 'wall, thickness' },
    height: { unit: 'mm', meaning: 'height of the rings' },
    barHeight: { unit: 'mm', meaning: 'height of the bars between them' },
  },

  dimensions(machine: Machine): CouponDimensions {
    const { rings, block }: CouponSizes = couponSizes(machine);
    return {
      holes: rings.map(({ hole }) => hole),
      outsides: rings.map(({ outside }) => outside),
      slot: block.slot,
      wall: block.wall,
      height: HEIGHT,
      barHeight: BAR_HEIGHT,
    };
  },

  bare: body,

  build(d, k) {
    const { stands } = layout(d);
    const { labels, code } = marks(d);
    return k.subtract(body(d, k), [
      ...stands.flatMap(({ ring, at }) =>
        ring ? [k.extrude([holeLoop(ring.hole / 2, at)], -1, d.height + 1)] : [],
      ),
      ...labels.map((label) => k.extrude(k.characters(label), d.barHeight - label.depth, d.barHeight + 1)),
      ...code.map((line) => engraver(k, line)),
    ]);
  },

  stated(d): Stated {
    const bareVolume = bodyVolume(d);
    const { labels, code } = marks(d);
    const holes = d.holes.reduce((sum, hole) => sum + holeVolume(hole / 2, sidesFor(hole / 2), d.height), 0);
    const cut = [...labels, ...code].reduce((sum, mark) => sum + engravedVolume(mark), 0);
    return {
      genus: d.holes.length,
      pieces: 1,
      bounds: boundsOf(d),
      bareVolume,
      volume: bareVolume - holes - cut,
    };
  },

  place: () => [],
  fasteners: () => [],
};
