import { FOIL_THICKNESS } from '../machine/bond-foil.js';
import type { Machine } from '../machine/machine.js';
import { runLoad } from './axles.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';

/** An axle and the bearings at its ends. */
const PIECES = 3;
const FLOATING = 'floating metal drifts to a potential of its own, common practice, no source';

export const checkBonds: Check = (machine) => [lowerAxleBond(machine), upperAxleBond(machine)];

/** Foil goes over the bearing and down both sides of it: what is left of the pocket's least clearance, mm. */
export const foilRoom = ({ carriers }: Machine): number =>
  carriers.lower.pocketFit.clearance.low - 2 * FOIL_THICKNESS.value;

/**
 * Metal that nothing connects drifts to a potential of its own and sparks to its neighbours. Axle and bearings lie in
 * plastic: strips of foil under them take a wire, unless the print itself conducts.
 */
function bond(
  machine: Machine,
  end: 'lower' | 'upper',
  has: { room: boolean; how: string; remedy: string },
): Finding {
  const { print, rollers } = machine;
  const { room, how, remedy } = has;
  return judge({
    id: `bond/${end}-axle`,
    title: `Metal at the ${end} roller, axle and two bearings, that is connected`,
    measured: print.conductive || room ? PIECES : 0,
    required: PIECES,
    unit: 'pieces',
    sense: 'min',
    basis: `${print.conductive ? 'the filament conducts' : how}; ${FLOATING}`,
    status: 'common-practice',
    remedy: () => remedy,
    at: { point: [0, rollers[end].axle.to, rollers[end].axisZ] },
  });
}

/** The belt's pull presses the bearings against foil in the roof of their pockets; it has to have room there. */
export function lowerAxleBond(machine: Machine): Finding {
  const { pocketFit } = machine.carriers.lower;
  return bond(machine, 'lower', {
    room: foilRoom(machine) >= 0,
    how: `copper foil of ${FOIL_THICKNESS.value} mm over each bearing in its pocket, with a wire to the ground stud; least clearance there ${pocketFit.clearance.low.toFixed(3)} mm, the belt presses with ${runLoad(machine).toFixed(0)} N; through races and balls it reaches the axle`,
    remedy:
      'a printer with less scatter, so that foil has room over the bearings, or a spring that rubs on the lower axle’s end, with a wire to the ground stud',
  });
}

/** The upper axle stands still: its flat lies on the foil in a block's slot, which is open above. */
export function upperAxleBond(machine: Machine): Finding {
  return bond(machine, 'upper', {
    room: true,
    how: `copper foil of ${FOIL_THICKNESS.value} mm under the axle’s flat in one block, with a wire to the terminal’s contact spring; the belt presses with ${runLoad(machine).toFixed(0)} N; the bearings run on the axle`,
    remedy: 'a wire from the upper axle to the terminal’s contact spring',
  });
}
