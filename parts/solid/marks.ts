import type { Vec2 } from './vector.js';

/**
 * Engraved characters: where each one goes, and how much they take out of a part. Outlines come from the kernel, which
 * draws them with JSCAD's stroke font; the lengths here are that font's, so that a part can state its volume unbuilt.
 */
export interface Engraving {
  readonly text: string;
  /** Height of a capital, mm. */
  readonly height: number;
  /** Width of the groove, mm. */
  readonly stroke: number;
  readonly depth: number;
  readonly layout:
    | { readonly kind: 'line'; readonly centre: Vec2; readonly heading: number }
    | { readonly kind: 'arc'; readonly radius: number; readonly middle: number };
  /** Seen from below, as on a face that prints on the bed. */
  readonly mirrored: boolean;
}

/** Groove of two nozzle widths and two layers: the least that reads on a print. Common practice. mm */
export const MARK_STROKE = 0.7;
export const MARK_DEPTH = 0.4;
/** Distance from one character to the next over the height of a capital. */
const PITCH = 1.05;

/** Length of strokes over the height of a capital, by character. Source: computed from JSCAD's simplex stroke font. */
const STROKES: Readonly<Record<string, number>> = {
  '0': 2.737,
  '1': 1.309,
  '2': 2.512,
  '3': 2.466,
  '4': 2.534,
  '5': 2.702,
  '6': 3.088,
  '7': 1.774,
  '8': 3.622,
  '9': 3.088,
  A: 2.616,
  B: 3.821,
  C: 2.311,
  D: 2.989,
  E: 2.619,
  F: 2,
  G: 2.692,
  H: 2.667,
  J: 1.601,
  K: 2.657,
  M: 4.14,
  N: 3.202,
  P: 2.649,
  Q: 3.254,
  R: 3.222,
  S: 2.622,
  T: 1.667,
  U: 2.396,
  V: 2.14,
  W: 4.112,
  X: 2.404,
  Y: 1.743,
  Z: 2.535,
};

/** Length of all strokes of a text (mm) at the given height of capitals. */
export function strokeLength(text: string, height: number): number {
  let length = 0;
  for (const character of text) {
    const own = STROKES[character];
    if (own === undefined) throw new RangeError(`no stroke length for the character "${character}"`);
    length += own * height;
  }
  return length;
}

/** Width of the whole line, mm. */
export function lineWidth(text: string, height: number): number {
  return ((text.length - 1) * PITCH + 0.85) * height;
}

/** Volume (mm3) the engraving takes away: stroke length times width, with one round end for each character. */
export function engravedVolume(engraving: Engraving): number {
  const { text, height, stroke, depth } = engraving;
  return depth * (strokeLength(text, height) * stroke + (text.length * Math.PI * stroke ** 2) / 4);
}

/** Where the middle of each character's foot line stands, and which way its line runs (radians). */
export function characterPlaces(engraving: Engraving): { at: Vec2; heading: number }[] {
  const { text, height, layout } = engraving;
  const step = PITCH * height;
  return [...text].map((_, i) => {
    const along = (i - (text.length - 1) / 2) * step;
    if (layout.kind === 'line') {
      const [cos, sin] = [Math.cos(layout.heading), Math.sin(layout.heading)];
      const drop = -height / 2;
      return {
        at: [layout.centre[0] + along * cos - drop * sin, layout.centre[1] + along * sin + drop * cos],
        heading: layout.heading,
      };
    }
    // Along a circle, read from outside its lower edge: feet point to the middle.
    const foot = layout.radius - height / 2;
    const angle = layout.middle - along / layout.radius;
    return { at: [foot * Math.cos(angle), foot * Math.sin(angle)], heading: angle - Math.PI / 2 };
  });
}

/** Reflects a text's places for a face seen from below. */
export function mirror([x, y]: Vec2): Vec2 {
  return [-x, y];
}
