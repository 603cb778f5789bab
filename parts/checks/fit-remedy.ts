import { DIMENSION_STEP, FIT_CLASSES, type Fit } from '../machine/fits.js';
import type { Machine } from '../machine/machine.js';
import { attempt } from './change.js';
import type { Remedy, Trial } from './finding.js';

/** Whether a fit is as its class wants it, at likely sizes and at the worst ones. */
export function fitMet({ class: fitClass, clearance }: Fit): {
  readonly met: boolean;
  readonly metAtWorst: boolean;
} {
  // Sizes are drawn rounded to this.
  const near = DIMENSION_STEP;
  return fitClass === 'press'
    ? { met: clearance.likely <= near, metAtWorst: clearance.high <= near }
    : { met: clearance.likely >= -near, metAtWorst: clearance.low >= -near };
}

/** Key of the machine file that states the class of a fit. */
const CLASS_KEY: Readonly<Record<string, string>> = {
  'fit/pilot-on-tube': 'fits.pilot',
  'fit/rim-ring-in-tube': 'fits.rim',
  'fit/hub-lower-in-shell': 'fits.shell',
  'fit/hub-upper-in-shell': 'fits.shell',
  'fit/hub-lower-on-axle': 'fits.axle',
  'fit/hub-upper-on-axle': 'fits.axle',
  'fit/pulley-on-motor-shaft': 'fits.axle',
  'fit/pulley-on-lower-axle': 'fits.axle',
  'fit/bearing-lower-in-hub': 'fits.bearing',
  'fit/bearing-upper-in-hub': 'fits.bearing',
};

/** Tried on the same machine: the next looser class that does, or for a press fit what its squeeze can bear. */
export function fitRemedy(machine: Machine, fit: Fit): Remedy {
  if (fit.class === 'press') return pressRemedy(machine, fit);
  const ream = `open the hole by ${roundedUp(-fit.clearance.low, SCATTER_STEP)} mm`;
  const key = CLASS_KEY[fit.id];
  if (key === undefined) return { text: ream, tries: [] };
  const looser = FIT_CLASSES.slice(FIT_CLASSES.indexOf(fit.class) + 1).flatMap((each) =>
    attempt(machine, `fit class ${each}`, { [key]: each }, (tried) => wellFitted(tried, fit.id)).map(
      (trial) => ({ text: `fit class ${each} instead of ${fit.class}, or ${ream}`, tries: [trial] }),
    ),
  );
  return looser[0] ?? { text: ream, tries: [] };
}

/** Whether a fit has no finding. */
function wellFitted({ fits, drive }: Machine, id: string): boolean {
  const fit = [...fits, ...drive.fits].find((each) => each.id === id);
  return fit !== undefined && fitMet(fit).metAtWorst;
}

/** mm, what a caliper tells apart of a scatter. */
const SCATTER_STEP = 0.01;
/** What is left over by binary numbers, in steps. */
const BINARY = 1e-9;

const roundedUp = (mm: number, step: number) => (Math.ceil(mm / step - BINARY) * step).toFixed(2);

/** The largest scatter of whole steps up to `most` (mm), as a trial and in words; none where it does not do. */
export function scatterTrial(
  machine: Machine,
  most: number,
  holds: (tried: Machine) => boolean,
): { readonly shown: string; readonly tries: readonly Trial[] } {
  const scatter = Number((Math.floor(most / SCATTER_STEP + BINARY) * SCATTER_STEP).toFixed(2));
  const shown = scatter.toFixed(2);
  const tries =
    scatter > 0
      ? attempt(
          machine,
          `a scatter of ${shown} mm, if that is what the printer measures`,
          { 'print.calibration.scatter': scatter },
          holds,
        )
      : [];
  return { shown, tries };
}

function pressRemedy(machine: Machine, fit: Fit): Remedy {
  const { scatter } = machine.print.calibration;
  const bearing = fit.id.startsWith('fit/bearing');
  const sample = bearing ? 'print one seat and try the bearing in it' : 'print one and try the fit';
  const tape = `where it is loose, one turn of thin tape around the ${bearing ? 'bearing’s outer ring' : 'inner piece'}`;
  const { shown, tries } = scatterTrial(machine, scatter - fit.clearance.high + DIMENSION_STEP, (tried) =>
    wellFitted(tried, fit.id),
  );
  const enough = tries.length > 0 ? `; with a scatter of at most ${shown} mm it keeps its squeeze` : '';
  const side = fit.printed === 'hole' ? 'hole' : 'outside';
  return {
    text: `${sample}; put what the printer does into print.calibration (${side}, scatter)${enough}; ${tape}`,
    tries,
  };
}
