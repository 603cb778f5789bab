import type { Boundary } from './boundaries.js';
import { lengthOf } from './curve.js';
import type { Panel } from './panel.js';
import type { Body } from './problem.js';
import type { Solution } from './solution.js';
import type { System } from './system.js';

/**
 * What is wrong at a corner is felt only there: its panels count less the shorter they are, and not at all once they are
 * this share of their segment. Much shorter panels would also bring out the rounding of their neighbours' integrals.
 */
const CORNER_SHARE = 0.02;
/** On dielectrics, as a share of the radius: what a corner there does dies away faster. */
const DIELECTRIC_CORNER = 0.05;
const CORNER_LEAST = 0.002;
/** Least share of the greatest field anywhere that a body’s own greatest field counts as. */
const WEAK_BODY = 0.01;
/**
 * What a panel on a dielectric may leave out is told as this share of the greatest field along all of them: a builder
 * looks at the field along a column, which bends at every corner near by.
 */
const DIELECTRIC_SHARE = 0.5;
/** Charge adds up: a panel may leave out this share of what it may leave out of the field. */
const CHARGE_SHARE = 0.05;

/** Whether a panel ends in a corner of its surface. */
export const isAtCorner = (panel: Panel, { cornerStart, cornerEnd }: Boundary): boolean =>
  (cornerStart && panel.from === 0) || (cornerEnd && panel.to === 1);

function weightAt(panel: Panel, boundary: Boundary): number {
  const { segment, kind } = boundary;
  const atCorner = isAtCorner(panel, boundary);
  if (atCorner && panel.to - panel.from < CORNER_LEAST) return 0;
  const shareOf = (scale: number) => panel.length / (panel.length + scale);
  if (kind === 'dielectric')
    return atCorner ? shareOf(DIELECTRIC_CORNER * panel.r) ** 2 : shareOf(CORNER_SHARE * panel.r);
  return atCorner ? shareOf(CORNER_SHARE * lengthOf(segment)) : 1;
}

/** How far each panel is over its tolerance, by the size of its two last coefficients; 1 just meets it. */
export function marksOf(system: System, solutions: readonly Solution[], tolerance: number): number[] {
  const marks = system.placed.map(() => 0);
  for (const solution of solutions) {
    const { coefficients } = solution;
    const most = new Map<Body, number>();
    let charge = 0;
    let along = 0;
    for (const { panel, boundary, at } of system.placed) {
      const size = Math.abs(coefficients[at]!);
      charge += size * areaOf(panel);
      if (boundary.kind !== 'dielectric')
        most.set(boundary.body, Math.max(most.get(boundary.body) ?? 0, size));
      else if (!isAtCorner(panel, boundary))
        along = Math.max(along, Math.hypot(...solution.fieldAt(panel.r, panel.z)));
    }
    const anywhere = Math.max(...most.values(), along);
    for (const [i, { panel, boundary, at }] of system.placed.entries()) {
      const tail = Math.hypot(coefficients[at + panel.order - 1]!, coefficients[at + panel.order - 2]!);
      const own = boundary.kind === 'dielectric' ? DIELECTRIC_SHARE * along : most.get(boundary.body)!;
      const ofField = (weightAt(panel, boundary) * tail) / Math.max(own, WEAK_BODY * anywhere);
      const ofCharge = (tail * areaOf(panel)) / charge;
      marks[i] = Math.max(marks[i]!, ofField / tolerance, ofCharge / (CHARGE_SHARE * tolerance));
    }
  }
  return marks;
}

const areaOf = (panel: Panel) => 2 * Math.PI * panel.r * panel.length;
