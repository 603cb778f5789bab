import type { Machine } from '../machine/machine.js';
import { fastener } from '../stock/fasteners.js';
import { STRIP_THICKNESS } from './comb-bar.js';
import { bothSides, DOWN, type Screw, SETTING, socket, UP } from './screw.js';

export type End = 'lower' | 'upper';

const outward = (end: End) => (end === 'upper' ? 1 : -1);

/** The screw that locks a comb's bracket on its seat. */
export function lockScrew({ combs }: Machine, end: End): Screw {
  const m3 = fastener('M3');
  const { seat, screwAt, bracket } = combs[end];
  const head = seat + outward(end) * (bracket.footThickness + m3.washer.thickness + m3.headHeight);
  return {
    what: `${end} comb's locking screw`,
    part: `comb-bracket-${end}`,
    drive: socket('M3'),
    step: SETTING,
    heads: [{ at: [screwAt, 0, head], away: end === 'upper' ? UP : DOWN }],
  };
}

/** Both screws of the bar over a comb. */
export function clampScrews({ combs }: Machine, end: End): Screw[] {
  const { plane, tip, bracket } = combs[end];
  const head = plane + outward(end) * (STRIP_THICKNESS + bracket.barHeight + fastener('M3').headHeight);
  return bothSides((side) => ({
    what: `${end} comb's clamp at y ${side < 0 ? '-' : '+'}`,
    part: `comb-bar-${end}`,
    drive: socket('M3'),
    step: SETTING,
    heads: [
      {
        at: [tip + bracket.barScrewAt, (side * bracket.barScrewSpacing) / 2, head],
        away: end === 'upper' ? UP : DOWN,
      },
    ],
  }));
}
