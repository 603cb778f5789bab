// Where things go along a scale of heights: pure numbers, no page.

/** A stretch of heights, mm or pixels: low first. */
export interface Stretch {
  readonly low: number;
  readonly high: number;
}

/**
 * Puts stretches into as few lanes as need be, so that those of one lane are at least `gap` apart. Lanes that are filled
 * most come first.
 * @returns the lane of each stretch, from 0, in the order given
 */
export function packLanes(stretches: readonly Stretch[], gap = 0): number[] {
  const order = stretches.map((_, i) => i).sort((a, b) => stretches[a]!.low - stretches[b]!.low);
  const ends: number[] = [];
  const filled: number[] = [];
  const lanes = stretches.map(() => 0);
  for (const i of order) {
    const { low, high } = stretches[i]!;
    const free = ends.findIndex((end) => end + gap <= low);
    const lane = free < 0 ? ends.length : free;
    ends[lane] = high;
    filled[lane] = (filled[lane] ?? 0) + high - low;
    lanes[i] = lane;
  }
  const byFilling = filled.map((_, lane) => lane).sort((a, b) => filled[b]! - filled[a]!);
  return lanes.map((lane) => byFilling.indexOf(lane));
}

/**
 * Moves places apart until neighbours are `room` apart, as little as can be (least squares), keeping their order and all
 * within a stretch. Where there is too little of it, they share what there is evenly.
 * @param wanted in any order
 * @returns places in the order given
 */
export function dodge(wanted: readonly number[], room: number, { low, high }: Stretch): number[] {
  const step = wanted.length > 1 ? Math.min(room, (high - low) / (wanted.length - 1)) : 0;
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]!);
  // With a step taken off for each neighbour below, "apart" becomes "not falling": neighbours that fall share their mean.
  const blocks: { sum: number; count: number }[] = [];
  order.forEach((i, rank) => {
    let block = { sum: wanted[i]! - rank * step, count: 1 };
    for (let last = blocks.at(-1); last && meanOf(last) >= meanOf(block); last = blocks.at(-1)) {
      blocks.pop();
      block = { sum: last.sum + block.sum, count: last.count + block.count };
    }
    blocks.push(block);
  });
  const flat = blocks.flatMap((block) => Array.from({ length: block.count }, () => meanOf(block)));
  const most = high - step * (wanted.length - 1);
  const places = wanted.map(() => 0);
  order.forEach((i, rank) => {
    places[i] = Math.min(Math.max(flat[rank]!, low), Math.max(low, most)) + rank * step;
  });
  return places;
}

const meanOf = ({ sum, count }: { sum: number; count: number }) => sum / count;

/**
 * Which labels there is room for, each beside its own stretch: the longer a stretch, the sooner it is served.
 * @param height of a label, in the unit of the stretches
 * @returns the middle of each label; undefined for one that found no room
 */
export function placeNames(stretches: readonly Stretch[], height: number): (number | undefined)[] {
  const taken: Stretch[] = [];
  const places = stretches.map((): number | undefined => undefined);
  const order = stretches.map((_, i) => i).sort((a, b) => lengthOf(stretches[b]!) - lengthOf(stretches[a]!));
  for (const i of order) {
    const { low, high } = stretches[i]!;
    const middle = (low + high) / 2;
    const reach = Math.max(0, (high - low - height) / 2);
    // Tried from the middle outwards, so that a name stays where its stretch is.
    const steps = Math.floor(reach / (height / 2));
    const tries = Array.from({ length: 2 * steps + 1 }, (_, n) => (n % 2 ? 1 : -1) * Math.ceil(n / 2));
    const fitting = tries
      .map((step) => middle + (step * height) / 2)
      .find((at) => taken.every((other) => at + height / 2 <= other.low || at - height / 2 >= other.high));
    if (fitting === undefined) continue;
    places[i] = fitting;
    taken.push({ low: fitting - height / 2, high: fitting + height / 2 });
  }
  return places;
}

const lengthOf = ({ low, high }: Stretch) => high - low;

/** A mark of a scale. */
export interface Tick {
  /** In the unit of the stretch it was asked for. */
  readonly at: number;
  readonly label: string;
  readonly major: boolean;
}

/** Units that a scale of heights can be in; lengths in mm. */
export const SCALE_UNITS = {
  mm: { length: 1, steps: [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000], parts: 5 },
  in: { length: 25.4, steps: [0.25, 0.5, 1, 2, 4, 8, 12, 24], parts: 4 },
} as const;
export type ScaleUnit = keyof typeof SCALE_UNITS;

/** What heights are told in for a machine that was measured in this unit. */
export function scaleUnitOf(units: string): ScaleUnit {
  return units === 'in' || units === 'ft' ? 'in' : 'mm';
}

/** Step of a scale, in its unit: the least of its round steps that leaves `room` (mm) from one to the next. */
export function stepOf(unit: ScaleUnit, room: number): number {
  const { length, steps } = SCALE_UNITS[unit];
  const fitting = steps.find((step) => step * length >= room);
  if (fitting !== undefined) return fitting;
  const longest = steps.at(-1)!;
  return longest * Math.ceil(room / (longest * length));
}

/**
 * Marks of a scale of heights: whole multiples of a round step, zero among them, with finer ones between.
 * @param stretch mm
 * @param room mm that a label needs
 */
export function heightTicks({ low, high }: Stretch, unit: ScaleUnit, room: number): Tick[] {
  const { length, parts } = SCALE_UNITS[unit];
  const step = stepOf(unit, room);
  const fine = step / parts;
  const [first, last] = [Math.ceil(low / (fine * length) - 1e-9), Math.floor(high / (fine * length) + 1e-9)];
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i): Tick => {
    const count = first + i;
    const major = count % parts === 0;
    return { at: count * fine * length, label: major ? String((count / parts) * step) : '', major };
  });
}

/** Round values from 0 up to a greatest one, at most so many steps. */
export function roundValues(greatest: number, most: number): number[] {
  if (!(greatest > 0) || most < 1) return [0];
  const least = greatest / most;
  const power = 10 ** Math.floor(Math.log10(least));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((each) => each >= least * (1 - 1e-9))!;
  return Array.from({ length: Math.floor(greatest / step + 1e-9) + 1 }, (_, i) => i * step);
}

/** How heights (mm) lie on a strip of the page that is `pixels` tall, counted downwards. */
export interface Frame {
  readonly pixels: number;
  /** Pixels a mm. */
  readonly scale: number;
  readonly stretch: Stretch;
  toY(z: number): number;
}

/** Pixels left free above and below. */
export const FRAME_MARGIN = 26;

/** The frame in which a machine from its bench to its top fills a strip. */
export function frameOf(machine: Stretch, pixels: number): Frame {
  const scale = Math.max(1, pixels - 2 * FRAME_MARGIN) / (machine.high - machine.low);
  const free = (pixels - scale * (machine.high - machine.low)) / 2;
  const top = machine.high + free / scale;
  return {
    pixels,
    scale,
    stretch: { low: top - pixels / scale, high: top },
    toY: (z) => (top - z) * scale,
  };
}

/** A height in words: "645 mm" or "25.4 in". */
export function heightInWords(z: number, unit: ScaleUnit): string {
  return `${plainHeight(z, unit)} ${unit}`;
}

/** From one height to another in words: "5 to 645 mm". */
export function stretchInWords({ low, high }: Stretch, unit: ScaleUnit): string {
  const [from, to] = [plainHeight(low, unit), plainHeight(high, unit)];
  return from === to ? `${from} ${unit}` : `${from} to ${to} ${unit}`;
}

function plainHeight(z: number, unit: ScaleUnit): string {
  // Adding zero turns -0 into 0.
  return unit === 'mm' ? String(Math.round(z) + 0) : (Math.round((z / 25.4) * 10) / 10 + 0).toFixed(1);
}
