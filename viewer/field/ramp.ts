// How the field is coloured: from clear, through the violet of glowing air, to a hatching where air ionises.

/** Shares of the field that ionises air at which lines are drawn. */
export const LEVELS = [0.1, 0.25, 0.5, 1] as const;

/** A share with its colour (a CSS number) and how much of what lies behind it is covered. */
interface Stop {
  readonly share: number;
  readonly colour: number;
  readonly cover: number;
}

/** The field’s colours for one scheme. Lightness changes one way only, so that they are told apart without their hue. */
export interface FieldPalette {
  readonly stops: readonly Stop[];
  /** Of the lines at `LEVELS`. */
  readonly levels: readonly [number, number, number, number];
  /** Above 1: stripes on a ground. */
  readonly beyond: { readonly stripe: number; readonly ground: number };
  readonly fieldLine: number;
}

export const FIELD_PALETTES: Readonly<Record<'light' | 'dark', FieldPalette>> = {
  light: {
    stops: [
      { share: 0, colour: 0xe6dcf0, cover: 0 },
      { share: 0.1, colour: 0xd3c0e6, cover: 0.62 },
      { share: 0.25, colour: 0xab86d3, cover: 0.78 },
      { share: 0.5, colour: 0x7446ad, cover: 0.88 },
      { share: 1, colour: 0x36155f, cover: 0.95 },
    ],
    levels: [0x9a80ba, 0x6c4a9e, 0x2d1152, 0xb35900],
    beyond: { stripe: 0xffc21f, ground: 0x36155f },
    fieldLine: 0x23272e,
  },
  dark: {
    stops: [
      { share: 0, colour: 0x241c3c, cover: 0 },
      { share: 0.1, colour: 0x3c2d6b, cover: 0.68 },
      { share: 0.25, colour: 0x6549ab, cover: 0.8 },
      { share: 0.5, colour: 0xa27de3, cover: 0.9 },
      { share: 1, colour: 0xeee2ff, cover: 0.96 },
    ],
    levels: [0x6f5fa3, 0x9d83da, 0xe0d0ff, 0xffb52e],
    beyond: { stripe: 0xffb52e, ground: 0x3a1463 },
    fieldLine: 0xe9e5db,
  },
};

/** Red, green, blue and cover, 0 to 1. */
export type Painted = readonly [red: number, green: number, blue: number, cover: number];

const channels = (colour: number) => [16, 8, 0].map((shift) => ((colour >> shift) & 255) / 255);

/** The colour of a share from 0 to 1, evenly from stop to stop; above 1 it stays at the last. */
export function rampAt({ stops }: FieldPalette, share: number): Painted {
  const within = Math.min(1, share);
  const above = stops.findIndex((stop) => stop.share >= within);
  const [low, high] = [stops[Math.max(0, above - 1)]!, stops[above]!];
  const part = high.share > low.share ? (within - low.share) / (high.share - low.share) : 0;
  const [from, to] = [channels(low.colour), channels(high.colour)];
  const [red, green, blue] = from.map((value, i) => value + part * (to[i]! - value));
  return [red!, green!, blue!, low.cover + part * (high.cover - low.cover)];
}

/** Colours of `count` shares from 0 to 1, four bytes each. */
export function rampTable(palette: FieldPalette, count: number): Uint8Array {
  return Uint8Array.from(
    Array.from({ length: count }, (_, i) => rampAt(palette, i / (count - 1))).flatMap((painted) =>
      painted.map((value) => Math.round(255 * value)),
    ),
  );
}

/** A share in words: "25 %", with less of it told the larger it is. */
export function shareInWords(share: number): string {
  const percent = 100 * share;
  return `${percent >= 10 ? Math.round(percent) : Number(percent.toPrecision(1))} %`;
}
