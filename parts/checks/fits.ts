import { type Fit, round } from '../machine/fits.js';
import { ringTurn, THREAD } from '../machine/grip.js';
import { axleInBearing } from '../machine/hub.js';
import type { Machine } from '../machine/machine.js';
import { fitPlaces } from '../printed/fit-places.js';
import { lengthText } from './change.js';
import type { Check } from './check.js';
import { type Finding, marginOf, type Point, told } from './finding.js';
import { fitMet, fitRemedy, scatterTrial } from './fit-remedy.js';
import { judge, meets, severityOf } from './judge.js';
import { practice } from './practice.js';

export const TERMINAL_TILT = practice(
  3,
  'mm',
  'how far the terminal may stand off the axis for the belt to track',
);
export const AXLE_TIGHT = practice(
  0.01,
  'mm',
  'how much larger than its bearing an axle may be and still go in by light taps',
);
export const AXLE_LOOSE = practice(
  0.05,
  'mm',
  'how much smaller an axle may be before the bearing walks on it',
);

export const COLLAR_GAP = practice(
  0.1,
  'mm',
  'gap under the collar that shows that it holds the mount and not the plate',
);

export const checkFits: Check = (machine) => [
  ...machine.fits.map((fit) => fitFinding(machine, fit)),
  fingerTravel(machine),
  ringStroke(machine),
  tubeTilt(machine),
  axleFinding(machine, 'lower'),
  axleFinding(machine, 'upper'),
  collarClamp(machine),
];

/** The middle of a fit, where the belt rises or at the roller's right end. */
function fitPoint(machine: Machine, id: string): Point {
  const { axis, centreZ, radius, from, to } = fitPlaces(machine).find(({ fit }) => fit.id === id)!;
  const middle = (from + to) / 2;
  return axis === 'z' ? [radius, 0, middle] : [0, middle, centreZ + radius];
}

/**
 * Pieces that are to pass each other do so at the extremes of readings, calibration and scatter; a press fit keeps its
 * squeeze there. A clearance fit that overlaps at likely sizes does not go together.
 */
export function fitFinding(machine: Machine, fit: Fit, at: Point = fitPoint(machine, fit.id)): Finding {
  const press = fit.class === 'press';
  const { clearance, printed, bought, asPrinted } = fit;
  const [hole, shaft] = printed === 'hole' ? [asPrinted, bought] : [bought, asPrinted];
  const { met, metAtWorst } = fitMet(fit);
  const severity = severityOf({ met, metAtWorst, status: 'common-practice', grave: !press });
  const sense = press ? 'max' : 'min';
  const required = round(press ? shaft.low : shaft.high);
  // What the verdict forgives, the numbers do not hold against it.
  const measured = metAtWorst
    ? round(press ? Math.min(hole.high, required) : Math.max(hole.low, required))
    : round(press ? hole.high : hole.low);
  return {
    id: fit.id,
    severity,
    title: `${fit.title}, ${fit.class}: ${press ? 'largest hole against smallest shaft' : 'smallest hole against largest shaft'}`,
    measured,
    required,
    unit: 'mm',
    sense,
    margin: marginOf(measured, required, sense),
    basis: `clearance ${clearance.low.toFixed(3)}, ${clearance.likely.toFixed(3)}, ${clearance.high.toFixed(3)} mm (least, likely, greatest) over readings, calibration and print scatter; allowance ${fit.allowance} mm by our table, common practice, no source`,
    status: 'common-practice',
    ...told(severity, () => fitRemedy(machine, fit)),
    at: { point: at },
  };
}

/** Radial travel of the fingers against the range of tube readings, print scatter, entry and squeeze. */
export function fingerTravel(machine: Machine): Finding {
  const { travel, mount } = machine.grip;
  const { outer } = machine.tube;
  return judge({
    id: 'grip/finger-travel',
    title: 'Radial travel of the mount’s fingers',
    measured: travel.available,
    required: travel.needed,
    unit: 'mm',
    sense: 'min',
    basis: `half the out-of-roundness ${travel.outOfRound.toFixed(2)}, caliper ${travel.caliper}, print ${travel.print}, entry ${travel.entry}, squeeze ${travel.squeeze} mm; common practice, no source`,
    status: 'common-practice',
    grave: true,
    remedy: () => {
      const spread = outer.spread - 2 * (travel.needed - travel.available);
      if (spread > 0)
        return `a tube out of round by at most ${lengthText(machine, spread)} instead of ${lengthText(machine, outer.spread)}`;
      const { shown, tries } = scatterTrial(
        machine,
        travel.print - (travel.needed - travel.available),
        ({ grip }) => meets(grip.travel.available, grip.travel.needed, 'min'),
      );
      return { text: `a print scatter of at most ${shown} mm`, tries };
    },
    at: { point: [mount.fingerRadius, 0, mount.headTop] },
  });
}

/** Turn of the lock ring to the likely tube, and to the worst one. */
export function ringStroke(machine: Machine): Finding {
  const { grip } = machine;
  return judge({
    id: 'grip/ring-turn',
    title: 'Turn of the lock ring from open to closed',
    measured: ringTurn(grip, grip.stroke.likely),
    worst: ringTurn(grip, grip.stroke.needed),
    required: THREAD.fullTurn.value,
    unit: 'degrees',
    sense: 'max',
    basis: `${grip.stroke.likely.toFixed(1)} mm of stroke at the likely tube, ${grip.stroke.needed.toFixed(1)} mm at the worst; ${THREAD.fullTurn.meaning}, ${THREAD.fullTurn.source}`,
    status: THREAD.fullTurn.status,
    grave: true,
    remedy: () => 'a rounder tube: see grip/finger-travel',
    at: { point: [grip.ring.outerRadius, 0, grip.ring.openAt] },
  });
}

/** Sideways offset (mm) of the terminal's centre when the tube leans in the pilot's play, held at the fingers. */
export function tiltAtTerminal({ grip, terminal }: Machine, play: number): number {
  const { pilotBottom, pilotTop, headBottom, headTop } = grip.mount;
  const [low, high] = [(pilotBottom + pilotTop) / 2, (headBottom + headTop) / 2];
  return ((play / 2) * (terminal.centreZ - high)) / (high - low);
}

export function tubeTilt(machine: Machine): Finding {
  const { clearance } = machine.grip.pilotFit;
  return judge({
    id: 'grip/tilt',
    title: 'Lean of the tube in the pilot’s play, at the terminal',
    measured: tiltAtTerminal(machine, clearance.likely),
    required: TERMINAL_TILT.value,
    unit: 'mm',
    sense: 'max',
    basis: `play of ${clearance.likely.toFixed(2)} mm across the mean diameter; ${TERMINAL_TILT.meaning}, ${TERMINAL_TILT.source}`,
    status: TERMINAL_TILT.status,
    remedy: () => {
      const play = (clearance.likely * TERMINAL_TILT.value) / tiltAtTerminal(machine, clearance.likely);
      return `a strip of tape or film of ${((clearance.likely - play) / 2).toFixed(2)} mm around the tube in the pilot, where the tube is narrow, takes the play to ${play.toFixed(2)} mm`;
    },
    at: { point: [0, 0, machine.terminal.centreZ] },
  });
}

/** The axle goes into its bearing, and does not rattle in it. */
export function axleFinding(machine: Machine, end: 'lower' | 'upper'): Finding {
  const { axle, bearing, axisZ, length } = machine.rollers[end];
  const { bore, designation } = bearing.row;
  const { low, high } = axleInBearing(axle.diameter, bearing);
  const thick = axle.diameter > bore;
  const required = thick ? bore + AXLE_TIGHT.value : bore - AXLE_LOOSE.value;
  const part = `${end} axle`;
  return judge({
    id: `fit/axle-in-bearing-${end}`,
    title: `The ${part} in bearing ${designation}`,
    measured: axle.diameter,
    required,
    unit: 'mm',
    sense: thick ? 'max' : 'min',
    basis: `clearance ${low.toFixed(3)} to ${high.toFixed(3)} mm by ISO 492 Normal and a ground axle; ${(thick ? AXLE_TIGHT : AXLE_LOOSE).meaning}, ${AXLE_TIGHT.source}`,
    status: AXLE_TIGHT.status,
    remedy: () =>
      thick
        ? `polish the ${part} down by ${(axle.diameter - bore).toFixed(3)} mm where it carries the bearing`
        : `a shim of ${((bore - axle.diameter) / 2).toFixed(3)} mm around the ${part}`,
    at: { point: [0, length / 2, axisZ] },
  });
}

/** The collar's cone meets the mount's foot before the plate, over the print scatter of both. */
export function collarClamp(machine: Machine): Finding {
  const { base, print } = machine;
  const { clampGap, seatRadius } = base.collar;
  const { scatter } = print.calibration;
  return judge({
    id: 'fit/collar-on-foot',
    title: 'Gap between collar and plate when the collar holds the mount’s foot',
    measured: clampGap,
    worst: clampGap - scatter,
    required: COLLAR_GAP.value,
    unit: 'mm',
    sense: 'min',
    basis: `two cones at 45 degrees, each diameter printed within ${scatter} mm: a gap of ${(clampGap - scatter).toFixed(2)} to ${(clampGap + scatter).toFixed(2)} mm; ${COLLAR_GAP.meaning}, ${COLLAR_GAP.source}`,
    status: COLLAR_GAP.status,
    remedy: () => {
      const { shown, tries } = scatterTrial(machine, clampGap - COLLAR_GAP.value, (tried) =>
        meets(tried.base.collar.clampGap - tried.print.calibration.scatter, COLLAR_GAP.value, 'min'),
      );
      const text = `a scatter of at most ${shown} mm, or a washer of paper or card between foot and plate where the mount rattles`;
      return { text, tries };
    },
    at: { point: [seatRadius, 0, clampGap] },
  });
}
