import { describe, expect, it } from 'vitest';
import { placeLabels } from '../../viewer/drawing/labels.js';
import { extentOf, homeView, moved, type ViewBox, zoomed } from '../../viewer/drawing/view-box.js';
import { frameOf } from '../../viewer/rail/layout.js';
import type { FitView, MachineView, Section } from '../../viewer/worker/messages.js';

const HOME: ViewBox = { x: -400, y: -900, width: 800, height: 1000 };
const extent = { bottom: -94, top: 832, radius: 150 };

/** A machine with fits at given heights, as far as a drawing looks at it. */
function withFits(heights: readonly number[]): { machine: MachineView; section: Section } {
  const fits = heights.map((_, i) => ({
    fit: {
      id: `fit/${i}`,
      title: `Fit number ${i}`,
      class: 'snug',
      clearance: { low: 0, likely: 0.2, high: 0.4 },
    },
  })) as unknown as FitView[];
  return {
    machine: { extent, fits } as unknown as MachineView,
    section: {
      angle: 0,
      faces: [],
      fits: heights.map((z, i) => ({ id: `fit/${i}`, points: [[-40, z] as const, [40, z] as const] })),
    },
  };
}

describe('view', () => {
  it('keeps the point under the pointer where it is', () => {
    const about = [123, -456] as const;
    for (const factor of [0.5, 0.9, 1.7]) {
      const next = zoomed(HOME, factor, about, HOME);
      expect((about[0] - next.x) / next.width).toBeCloseTo((about[0] - HOME.x) / HOME.width, 9);
      expect((about[1] - next.y) / next.height).toBeCloseTo((about[1] - HOME.y) / HOME.height, 9);
      expect(next.width / HOME.width).toBeCloseTo(factor, 9);
    }
  });

  it('ends at both extremes without changing its shape', () => {
    const near = zoomed(HOME, 1e-9, [0, 0], HOME);
    const far = zoomed(HOME, 1e9, [0, 0], HOME);
    expect(near.width).toBeCloseTo(4, 9);
    expect(far.width).toBeCloseTo(6 * HOME.width, 6);
    for (const view of [near, far]) expect(view.height / view.width).toBeCloseTo(HOME.height / HOME.width, 9);
  });

  it('moves by shares of what is seen', () => {
    expect(moved(HOME, 0.1, -0.2)).toEqual({ ...HOME, x: -320, y: -1100 });
  });

  it('has the heights of the rail where there is room, and all of the machine right of the rail anyway', () => {
    const { machine, section } = withFits([]);
    const all = extentOf(machine, section, false);
    for (const [width, height, rail] of [
      [1000, 780, 400],
      [390, 490, 200],
      [700, 400, 188],
    ] as const) {
      const frame = frameOf({ low: extent.bottom, high: extent.top }, height);
      const view = homeView(all, { width, height }, rail, frame.scale, frame.stretch.high);
      const scale = width / view.width;
      expect(height / view.height).toBeCloseTo(scale, 9);
      expect((all.left - view.x) * scale).toBeGreaterThan(rail);
      expect((all.right - view.x) * scale).toBeLessThan(width);
      expect((-all.top - view.y) * scale).toBeGreaterThanOrEqual(-1e-6);
      expect((-all.bottom - view.y) * scale).toBeLessThanOrEqual(height + 1e-6);
      if (width === 1000) expect((0 - view.y) * scale).toBeCloseTo(frame.toY(0), 6);
    }
  });

  it('takes in what lies apart', () => {
    const { machine, section } = withFits([]);
    const away: Section = {
      ...section,
      faces: [
        {
          piece: 'tube',
          loops: [
            [
              [-10, 900],
              [500, 900],
              [500, 1700],
            ],
          ],
        },
      ],
    };
    expect(extentOf(machine, away, true)).toEqual({ left: -150, right: 500, bottom: -94, top: 1700 });
    expect(extentOf(machine, away, false)).toEqual({ left: -150, right: 150, bottom: -94, top: 832 });
  });
});

describe('labels of fits', () => {
  const perPixel = 1.2;
  const view: ViewBox = { x: -700, y: -880, width: 1200, height: 1000 };

  it('do not overlap on either side, keep the order of heights and lie within the picture', () => {
    const heights = [13, 20, 22, 640, 641, 645, 660, 668, 668, 670];
    const { machine, section } = withFits(heights);
    for (const numbers of [false, true]) {
      const labels = placeLabels(machine, section, view, perPixel, 200, numbers);
      expect(labels).toHaveLength(heights.length);
      for (const side of [-1, 1]) {
        const own = labels.filter((label) => label.side === side).sort((a, b) => a.y - b.y);
        expect(own.length).toBe(5);
        own.slice(1).forEach((label, i) => {
          expect(label.y - own[i]!.y).toBeGreaterThanOrEqual(label.height - 1e-9);
          expect(label.point[1]).toBeGreaterThanOrEqual(own[i]!.point[1]);
        });
        for (const { x, y, width, height } of own) {
          const left = side > 0 ? x : x - width;
          expect(left).toBeGreaterThanOrEqual(view.x + 200 * perPixel);
          expect(left + width).toBeLessThanOrEqual(view.x + view.width);
          expect(y - height / 2).toBeGreaterThanOrEqual(view.y);
          expect(y + height / 2).toBeLessThanOrEqual(view.y + view.height);
        }
      }
    }
  });

  it('are numbered from top to bottom', () => {
    const { machine, section } = withFits([13, 645, 300]);
    const labels = placeLabels(machine, section, view, perPixel, 0, true);
    const byNumber = [...labels].sort((a, b) => a.number - b.number);
    expect(byNumber.map(({ id }) => id)).toEqual(['fit/1', 'fit/2', 'fit/0']);
  });

  it('are left out where their fit is not seen, and change sides where there is no room', () => {
    const { machine, section } = withFits([13, 645]);
    const near: ViewBox = { x: 30, y: -60, width: 400, height: 200 };
    expect(placeLabels(machine, section, near, 0.4, 0, false).map(({ id }) => id)).toEqual(['fit/0']);
    // The second from the top would stand on the left, where the picture ends.
    expect(placeLabels(machine, section, near, 0.4, 0, false)[0]!.side).toBe(1);
  });
});
