import { type Fit, fitInWords } from '../../parts/index.js';
import { dodge } from '../rail/layout.js';
import type { MachineView, Section } from '../worker/messages.js';
import type { ViewBox } from './view-box.js';

/** Pixels of a label: two lines of words, or a number in a ring. */
const WORDS = { height: 32, perLetter: 6.1, padding: 8 };
const NUMBER = { height: 22, width: 20 };
/** Pixels between the machine and its labels. */
const AWAY = 34;
const EDGE = 8;
/** Pixels that a leader is long at least. */
const LEADER = 16;
/** Pixels left free above for the title and below for the scale bar. */
const HEAD = 54;
const FOOT = 44;

/** A label beside the drawing, in mm of the drawing; `x`, `y` is the middle of the end that its leader comes to. */
export interface FitLabel {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly clearance: string;
  readonly side: -1 | 1;
  readonly point: readonly [number, number];
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The fits of a machine in the order in which they are numbered: from top to bottom. */
export function numberedFits(
  machine: MachineView,
  section: Section,
): readonly { fit: Fit; number: number }[] {
  const heightOf = (id: string) => section.fits.find((each) => each.id === id)?.points[0]?.[1];
  return machine.fits
    .filter(({ fit }) => heightOf(fit.id) !== undefined)
    .map(({ fit }) => fit)
    .sort((a, b) => heightOf(b.id)! - heightOf(a.id)!)
    .map((fit, i) => ({ fit, number: i + 1 }));
}

/**
 * Labels for the fits that are seen, alternately on either side of the machine, none over another.
 * @param perPixel mm
 * @param rail pixels at the left that are taken
 */
export function placeLabels(
  machine: MachineView,
  section: Section,
  view: ViewBox,
  perPixel: number,
  rail: number,
  numbers: boolean,
): FitLabel[] {
  const isSeen = (x: number, y: number) =>
    x > view.x + rail * perPixel && x < view.x + view.width && y > view.y && y < view.y + view.height;
  const endOf = (side: -1 | 1, width: number) => {
    const beside = machine.extent.radius + AWAY * perPixel;
    return side > 0
      ? Math.min(beside, view.x + view.width - EDGE * perPixel - width)
      : Math.max(-beside, view.x + (rail + EDGE) * perPixel + width);
  };
  const seen = numberedFits(machine, section).flatMap(({ fit, number }, i) => {
    const points = section.fits
      .find(({ id }) => id === fit.id)!
      .points.map(([along, z]) => [along, -z] as const)
      .filter(([x, y]) => isSeen(x, y));
    if (points.length === 0) return [];
    const clearance = fitInWords(fit);
    const letters = Math.max(fit.title.length, clearance.length);
    const width = (numbers ? NUMBER.width : letters * WORDS.perLetter + WORDS.padding) * perPixel;
    const wanted = i % 2 === 0 ? 1 : -1;
    const sides = ([wanted, -wanted] as (-1 | 1)[]).map((side) => {
      const point = points.reduce((best, each) => (each[0] * side > best[0] * side ? each : best));
      return { side, point, x: endOf(side, width) };
    });
    // From near there may be room for a label on one side only.
    const free = sides.find(({ side, point, x }) => (x - point[0]) * side > LEADER * perPixel) ?? sides[0]!;
    return [{ id: fit.id, number, title: fit.title, clearance, width, ...free }];
  });
  const height = (numbers ? NUMBER : WORDS).height * perPixel;
  const within = {
    low: view.y + HEAD * perPixel + height / 2,
    high: view.y + view.height - FOOT * perPixel - height / 2,
  };
  return ([-1, 1] as const).flatMap((side) => {
    const own = seen.filter((each) => each.side === side);
    const places = dodge(
      own.map(({ point }) => point[1]),
      height,
      within,
    );
    return own.map((label, i): FitLabel => ({ ...label, y: places[i]!, height }));
  });
}
