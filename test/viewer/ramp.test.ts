import { describe, expect, it } from 'vitest';
import {
  FIELD_PALETTES,
  LEVELS,
  type Painted,
  rampAt,
  rampTable,
  shareInWords,
} from '../../viewer/field/ramp.js';
import { PALETTES } from '../../viewer/scene/look.js';

/** What is seen of a painted colour over paper: relative luminance as WCAG defines it. */
function luminance([red, green, blue, cover]: Painted, paper: number): number {
  const [r, g, b] = [red, green, blue].map((value, i) => {
    const under = ((paper >> (16 - 8 * i)) & 255) / 255;
    const seen = under + cover * (value - under);
    return seen <= 0.04045 ? seen / 12.92 : ((seen + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

describe.each(['light', 'dark'] as const)('the %s ramp', (scheme) => {
  const palette = FIELD_PALETTES[scheme];
  const { paper } = PALETTES[scheme];
  const seen = (share: number) => luminance(rampAt(palette, share), paper);

  it('begins clear and grows apart from the paper all the way, so that it is read without hues', () => {
    expect(rampAt(palette, 0)[3]).toBe(0);
    const sign = scheme === 'light' ? -1 : 1;
    const steps = Array.from({ length: 101 }, (_, i) => seen(i / 100));
    for (let i = 1; i < steps.length; i++) expect(sign * (steps[i]! - steps[i - 1]!)).toBeGreaterThan(0);
  });

  it('keeps what lies between two levels apart from what lies between the next', () => {
    const middles = [0, ...LEVELS].map((level, i, all) => (level + (all[i + 1] ?? 1)) / 2);
    for (let i = 1; i < middles.length; i++) {
      const [a, b] = [seen(middles[i - 1]!), seen(middles[i]!)].sort((x, y) => x - y);
      expect((b! + 0.05) / (a! + 0.05)).toBeGreaterThan(1.2);
    }
  });

  it('hatches what is beyond in two colours that are told apart', () => {
    const [stripe, ground] = [palette.beyond.stripe, palette.beyond.ground].map((colour) =>
      luminance([(colour >> 16) / 255, ((colour >> 8) & 255) / 255, (colour & 255) / 255, 1], paper),
    );
    expect((stripe! + 0.05) / (ground! + 0.05)).toBeGreaterThan(4.5);
  });

  it('stands still beyond its end, and meets its stops', () => {
    expect(rampAt(palette, 3)).toEqual(rampAt(palette, 1));
    for (const { share, cover } of palette.stops) expect(rampAt(palette, share)[3]).toBeCloseTo(cover, 9);
    const table = rampTable(palette, 5);
    expect(table).toHaveLength(20);
    expect([...table.slice(8, 12)]).toEqual(rampAt(palette, 0.5).map((value) => Math.round(255 * value)));
  });
});

it.each([
  [0.1, '10 %'],
  [0.5625, '56 %'],
  [1.374, '137 %'],
  [0.034, '3 %'],
  [0, '0 %'],
])('a share of %f is told as %s', (share, words) => {
  expect(shareInWords(share)).toBe(words);
});
