import { SLEEVE_SHARE, squarenessOf } from '../machine/jigs.js';
import type { Machine } from '../machine/machine.js';
import { LEAST_CUT, openingEdge, RAW_EDGE, rolledCut } from '../machine/terminal-cut.js';
import { attempt, lengthDown, nearestThatHolds } from './change.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';
import { practice } from './practice.js';

/** Tools for cutting and drilling: whether they show what they are to show. */
export const checkJigs: Check = (machine) => [tubeEndSquare(machine), openingCut(machine)];

export const SQUARE_END = practice(0.5, 'mm', 'how far a tube’s end may be out of square across the tube');

/** Out of square across the largest diameter, with the guide closed around the tube. */
export function tubeEndSquare(machine: Machine): Finding {
  const { tube, print, jigs } = machine;
  const { length } = jigs.tubeEnd;
  const { scatter } = print.calibration;
  const { closed, loose } = squarenessOf(jigs.tubeEnd, tube.outer.high, scatter);
  return judge({
    id: 'jig/tube-end-square',
    title: 'Tube’s end out of square by its printed guide',
    measured: closed,
    required: SQUARE_END.value,
    unit: 'mm',
    sense: 'max',
    basis: `the printer’s scatter of ${scatter} mm over a sleeve ${length} mm long (at least ${SLEEVE_SHARE} diameters), across ${tube.outer.high.toFixed(2)} mm, the guide closed around the tube; left loose, all of its clearance makes ${loose.toFixed(1)} mm; ${SQUARE_END.source}`,
    status: SQUARE_END.status,
    remedy: () => {
      const least = lengthDown((SQUARE_END.value * length) / tube.outer.high);
      const text = `a printer whose diameters vary by at most ${least} mm to either side`;
      return {
        text: `${text}, or a square held against the tube`,
        tries: attempt(
          machine,
          text,
          { 'print.calibration.scatter': least },
          (tried) =>
            squarenessOf(tried.jigs.tubeEnd, tried.tube.outer.high, least).closed <= SQUARE_END.value,
        ),
      };
    },
    at: { point: [0, 0, tube.footZ] },
  });
}

const CUT = practice(LEAST_CUT, 'mm', 'sheet from the pole’s mark to a cut, along the shell');

/** Sheet that is left between the pole and the circle that the opening is cut at, where its bead is rolled from the sheet. */
export function openingCut(machine: Machine): Finding {
  const { terminal } = machine;
  const isRolled = !terminal.ring && terminal.lipRadius >= RAW_EDGE;
  const { radius } = machine.jigs.opening;
  const edge = {
    raw: `a raw edge is cut at the free opening: ${radius.toFixed(1)} mm from the pole’s axis`,
    rolled: `a bead rolled from the sheet takes 2 pi (bead - sheet/2), a full turn at the sheet’s middle, an estimate: the sheet is stretched as it is rolled; cut at ${radius.toFixed(1)} mm from the pole’s axis`,
    ring: terminal.ring
      ? `cut at ${radius.toFixed(1)} mm from the pole’s axis, so that the edge lies on the ring`
      : `a bead rolled from the sheet would take 2 pi (bead - sheet/2), a full turn at the sheet’s middle; there is not as much, so the opening is cut for a ring that is put in, at ${radius.toFixed(1)} mm from the pole’s axis`,
  }[openingEdge(terminal)];
  const rolls = (lip: number) => rolledCut({ ...terminal, lipRadius: lip }) >= LEAST_CUT;
  return judge({
    id: 'jig/opening-cut',
    title: 'Sheet from the terminal’s pole to the cut of its opening',
    measured: isRolled ? rolledCut(terminal) : radius,
    required: CUT.value,
    unit: 'mm',
    sense: 'min',
    basis: `${edge}; ${CUT.meaning}: ${CUT.source}`,
    status: CUT.status,
    remedy: () => {
      const lip = nearestThatHolds(terminal.lipRadius, RAW_EDGE, 0.1, rolls);
      const ring = 'a closed ring under the cut edge instead of a rolled bead';
      const ringed = attempt(
        machine,
        ring,
        { 'terminal.opening.edge': 'ring' },
        ({ terminal: tried }) => tried.ring !== undefined,
      );
      if (lip === undefined) return { text: ring, tries: ringed };
      const text = `a bead of at most ${Number(lip.toFixed(1))} mm radius`;
      return {
        text: `${ring}, or ${text}`,
        tries: [
          ...ringed,
          ...attempt(
            machine,
            text,
            { 'terminal.opening.lip': Number(lip.toFixed(1)) },
            (tried) => rolledCut(tried.terminal) >= LEAST_CUT,
          ),
        ],
      };
    },
    at: { point: [0, 0, terminal.lipZ] },
  });
}
