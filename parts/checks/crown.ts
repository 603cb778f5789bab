import type { Machine } from '../machine/machine.js';
import type { Status } from '../stock/row.js';
import { attempt } from './change.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge, meets } from './judge.js';
import { practice } from './practice.js';

export const checkCrown: Check = (machine) => [crown(machine)];

/** Crown heights on the radius for flat belts, by the pulley's diameter up to which each goes. mm */
export const ISO_22_CROWNS: readonly { readonly upTo: number; readonly height: number }[] = [
  { upTo: 112, height: 0.3 },
  { upTo: 140, height: 0.4 },
  { upTo: 180, height: 0.5 },
  { upTo: 224, height: 0.6 },
];
/** mm; the least diameter that the standard's table has. */
const ISO_22_FROM = 40;
const ISO_22 = 'ISO 22, crown heights of flat-belt pulleys, from memory';

/** Under soft, narrow, elastic belts, on rollers that are smaller than any in the table. */
export const SMALL_CROWN = practice(0.5, 'mm', 'crown of a small roller under a soft belt: 0.5 to 0.8');

/** Wall of a sleeve that is proposed, mm: turned onto any roller, and printed with two lines to each side. */
const PROPOSED_WALL = 2;

/** Crown (mm on the radius) that a roller of this diameter (mm) keeps a belt in its middle with, and what says so. */
export function crownFor(diameter: number): { height: number; source: string; status: Status } {
  const row = ISO_22_CROWNS.find(({ upTo }) => diameter <= upTo);
  if (diameter < ISO_22_FROM)
    return {
      height: SMALL_CROWN.value,
      source: `${SMALL_CROWN.meaning}, ${SMALL_CROWN.source}; the table of ISO 22 begins at ${ISO_22_FROM} mm`,
      status: SMALL_CROWN.status,
    };
  if (!row)
    return {
      height: ISO_22_CROWNS.at(-1)!.height,
      source: `${ISO_22}; this diameter is beyond what we have of the table, its last row taken`,
      status: 'from-memory',
    };
  return { height: row.height, source: ISO_22, status: 'from-memory' };
}

const crowned = ({ rollers: { lower, upper } }: Machine) => (lower.crown > upper.crown ? lower : upper);

const keepsMiddle = (machine: Machine): boolean => {
  const roller = crowned(machine);
  return meets(roller.crown, crownFor(roller.outer.mean).height, 'min');
};

/** A flat belt climbs to where its roller is thickest: without a crown it keeps to no place. One of two rollers is enough. */
export function crown(machine: Machine): Finding {
  const roller = crowned(machine);
  const { height, source, status } = crownFor(roller.outer.mean);
  return judge({
    id: 'belt/crown',
    title: 'Crown that keeps the belt in the middle of its rollers',
    measured: roller.crown,
    required: height,
    unit: 'mm',
    sense: 'min',
    basis: `${roller.end} roller, ${roller.outer.mean.toFixed(1)} mm: ${source}`,
    status,
    remedy: () => {
      const printed = {
        'rollers.upper.sleeve': machine.values.rollers.upper.sleeve ?? PROPOSED_WALL,
        'rollers.upper.crown': SMALL_CROWN.value,
      };
      return {
        text: `a crown of ${height} mm on one roller, turned or as a printed sleeve; a crown of tape in its middle does for a trial`,
        tries: attempt(
          machine,
          `a printed sleeve with a crown of ${SMALL_CROWN.value} mm`,
          printed,
          keepsMiddle,
        ),
      };
    },
    at: { point: [roller.outer.mean / 2, 0, roller.axisZ] },
  });
}
