import { BELT_ROOM_MARGIN } from '../machine/allowances.js';
import { beltRoom } from '../machine/belt-path.js';
import type { Machine } from '../machine/machine.js';
import { NARROWEST, narrowerBelt } from './belt-remedy.js';
import { nearestThatHolds, withValues } from './change.js';
import type { Check } from './check.js';
import { BELT_THICKNESS_SCATTER } from './comb-gap.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';
import { rootOfSquares } from './mechanics.js';

/** Room for the belt in the tube and in the printed rings that it passes. */
export const checkBeltRoom: Check = (machine) => [
  room(machine),
  ringRoom(machine, 'rim-ring'),
  ringRoom(machine, 'base-skirt'),
];

/** What takes room from the belt, mm of the diagonal or of the bore. */
export interface RoomTaken {
  readonly what: string;
  readonly by: number;
}

/**
 * Everything that may go wrong with the belt's room at once, largest first: each as far as it goes, turned onto the
 * diagonal by the slope of sqrt(across^2 + through^2).
 */
export function roomContributions(machine: Machine): readonly RoomTaken[] {
  const { belt, tube, rollers } = machine;
  const across = belt.width + 2 * belt.wander;
  const through = Math.sqrt(Math.max(0, belt.room.needed ** 2 - across ** 2));
  const [along, aside] = [through / belt.room.needed, across / belt.room.needed];
  const wider = [rollers.lower, rollers.upper].reduce((a, b) => (b.outer.high > a.outer.high ? b : a));
  return [
    { what: 'electrostatic bulge', by: 2 * belt.bulge * along },
    { what: 'wander', by: 2 * belt.wander * aside },
    { what: 'crown', by: 2 * (belt.crown - wider.crown) * along },
    { what: 'roller’s diameter', by: (wider.outer.high - wider.outer.mean) * along },
    { what: 'belt’s thickness', by: 2 * BELT_THICKNESS_SCATTER.value * along },
    { what: 'tube’s bore', by: tube.inner.likely - tube.inner.low },
  ]
    .map(({ what, by }) => ({ what, by: Math.max(0, by) }))
    .sort((a, b) => b.by - a.by);
}

/**
 * Room (mm) that is left over the margin: with everything at its worst, and as they come together by chance, what each
 * takes by the root of the sum of squares (Shigley, Mechanical Engineering Design, tolerance stacks, from memory).
 */
export function roomLeft(machine: Machine): { readonly worst: number; readonly chance: number } {
  const { belt } = machine;
  const taken = roomContributions(machine).map(({ by }) => by);
  const worst = belt.room.available - belt.room.needed;
  // The belt's thickness is not in what is needed; the rest is, as far as it goes.
  const all = taken.reduce((sum, by) => sum + by, 0);
  const thickness = roomContributions(machine).find(({ what }) => what === 'belt’s thickness')!.by;
  return { worst: worst - thickness, chance: worst - thickness + all - rootOfSquares(taken) };
}

const middle = ({ rollers }: Machine): readonly [number, number, number] => [
  0,
  0,
  (rollers.lower.axisZ + rollers.upper.axisZ) / 2,
];

function stackText(machine: Machine): string {
  const { worst, chance } = roomLeft(machine);
  const parts = roomContributions(machine)
    .map(({ what, by }) => `${what} ${by.toFixed(2)}`)
    .join(', ');
  return `takers: ${parts} mm; left ${worst.toFixed(1)} mm with all at their worst, ${chance.toFixed(1)} mm by root of squares`;
}

/** The belt with wander, crown and bulge against the tube's bore. A belt that would fill the bore is a danger. */
export function room(machine: Machine): Finding {
  const { belt, tube, rollers } = machine;
  const taut = Number.isFinite(belt.bulge);
  const rollerDiameter = Math.max(rollers.lower.outer.high, rollers.upper.outer.high);
  const measured = taut ? belt.room.needed : beltRoom({ ...belt, bulge: 0, rollerDiameter });
  return judge({
    id: 'belt/room',
    title: 'Diagonal of both runs of the belt in the tube’s bore',
    measured,
    required: belt.room.available,
    unit: 'mm',
    sense: 'max',
    basis: `wander ${belt.wander}, crown ${belt.crown}, ${taut ? `electrostatic bulge ${belt.bulge.toFixed(1)} mm` : 'bulge left out, since the belt is not taut: see belt/speed'}; bore at its narrowest less 2 mm, common practice, no source${taut ? `; ${stackText(machine)}` : ''}`,
    status: 'common-practice',
    grave: measured > tube.inner.low,
    remedy: () => {
      const narrower = nearestThatHolds(belt.width, NARROWEST, 0.5, (width) =>
        passes(withValues(machine, { 'belt.width': width })),
      );
      return narrowerBelt(machine, narrower, passes);
    },
    at: { point: middle(machine) },
  });
}

export const passes = ({ belt: { room } }: Machine) => room.needed <= room.available;

/** The printed rings that the belt passes besides the tube, and where their bores end towards the middle of the column. */
function ringBore(
  { rim, tube, base, plate }: Machine,
  ring: 'rim-ring' | 'base-skirt',
): { readonly radius: number; readonly z: number } {
  return ring === 'rim-ring'
    ? { radius: rim.spigotInnerRadius, z: tube.rimZ - rim.spigotLength }
    : { radius: base.skirt.innerRadius, z: -plate.thickness };
}

/** How far (mm) a run is pushed out at a height: a parabola between the rollers, `bulge` in its middle. */
export function bulgeAt({ belt, rollers }: Machine, z: number): number {
  const share = (z - rollers.lower.axisZ) / (rollers.upper.axisZ - rollers.lower.axisZ);
  return 4 * belt.bulge * share * (1 - share);
}

/** What the belt needs in a printed ring at a width, and what the ring has for it, mm. */
function roomInRing(machine: Machine, ring: 'rim-ring' | 'base-skirt') {
  const { belt, rollers } = machine;
  const { radius, z } = ringBore(machine, ring);
  const rollerDiameter = Math.max(rollers.lower.outer.high, rollers.upper.outer.high);
  const bulge = Number.isFinite(belt.bulge) ? bulgeAt(machine, z) : 0;
  const needed = (width: number) => beltRoom({ ...belt, width, bulge, rollerDiameter });
  const available = 2 * radius - BELT_ROOM_MARGIN.value;
  return { needed, available, passes: (width: number) => needed(width) <= available, bulge, radius, z };
}

/** The belt with wander, crown and bulge in a printed ring that is narrower than the tube. It may rub there, not jam. */
export function ringRoom(machine: Machine, ring: 'rim-ring' | 'base-skirt'): Finding {
  const { belt } = machine;
  const { needed, available, bulge, radius, z, passes: passesRing } = roomInRing(machine, ring);
  return judge({
    id: `belt/room-${ring}`,
    title: `Diagonal of both runs of the belt in the bore of ${ring}`,
    measured: needed(belt.width),
    required: available,
    unit: 'mm',
    sense: 'max',
    basis: `wander ${belt.wander}, crown ${belt.crown}, electrostatic bulge there ${bulge.toFixed(1)} mm; bore of ${(2 * radius).toFixed(1)} mm less ${BELT_ROOM_MARGIN.value} mm, ${BELT_ROOM_MARGIN.source}`,
    status: BELT_ROOM_MARGIN.status,
    grave: needed(belt.width - 2 * belt.wander) > 2 * radius,
    remedy: () =>
      narrowerBelt(machine, nearestThatHolds(belt.width, NARROWEST, 0.5, passesRing), (tried) =>
        roomInRing(tried, ring).passes(tried.belt.width),
      ),
    at: { point: [radius, 0, z] },
  });
}
