import type { Constant } from '../stock/row.js';

export const practice = (value: number, unit: string, meaning: string): Constant => ({
  value,
  unit,
  meaning,
  source: 'common practice, no source',
  status: 'common-practice',
});

/** How a printer lays plastic, where nothing better is known of it. */
export const EXTRUSION = {
  lineWidth: practice(1.125, 'nozzles', 'width of a line over the nozzle’s diameter: 0.45 mm from 0.4 mm'),
  speed: practice(60, 'mm/s', 'mean speed while extruding'),
};

/** Time over extrusion alone that travel, acceleration and cooling add. */
export const PRINT_OVERHEAD = {
  low: practice(1.2, '', 'least share of time over extrusion alone'),
  likely: practice(1.35, '', 'middle of the two'),
  high: practice(1.5, '', 'greatest share of time over extrusion alone'),
};

/** Cross-section of 1.75 mm filament: pi/4 1.75^2, mm2. */
export const FILAMENT_AREA: Constant = {
  value: (Math.PI / 4) * 1.75 ** 2,
  unit: 'mm2',
  meaning: 'cross-section of filament of 1.75 mm',
  source: 'pi/4 d^2; maker’s data give the same 0.02405 cm2',
  status: 'computed',
};

export interface PrintJob {
  /** mm3 and mm2 of the part's own solid */
  readonly volume: number;
  readonly area: number;
  /** mm */
  readonly layer: number;
  readonly nozzle: number;
  /** Lines of the shell. */
  readonly walls: number;
  /** % of the inside that is filled */
  readonly infill: number;
  /** g/cm3; undefined where the plastic's density is not known */
  readonly density: number | undefined;
}

export interface PrintEstimate {
  /** mm3 that leave the nozzle */
  readonly deposited: number;
  /** s */
  readonly seconds: { readonly low: number; readonly likely: number; readonly high: number };
  /** m of 1.75 mm filament */
  readonly filament: number;
  /** g; undefined where the density is not known */
  readonly mass: number | undefined;
}

/**
 * What a print takes: deposited plastic over what the nozzle lays in a second, and the overhead. The shell is the part's
 * surface times its lines, also at top and bottom, never more than the part; the rest is filled in part. An estimate:
 * printers differ by a factor of two in speed.
 */
export function printEstimate(job: PrintJob): PrintEstimate {
  const lineWidth = EXTRUSION.lineWidth.value * job.nozzle;
  const shell = Math.min(job.volume, job.area * job.walls * lineWidth);
  const deposited = shell + (job.infill / 100) * (job.volume - shell);
  const extrusion = deposited / (lineWidth * job.layer * EXTRUSION.speed.value);
  return {
    deposited,
    seconds: {
      low: extrusion * PRINT_OVERHEAD.low.value,
      likely: extrusion * PRINT_OVERHEAD.likely.value,
      high: extrusion * PRINT_OVERHEAD.high.value,
    },
    filament: deposited / FILAMENT_AREA.value / 1000,
    mass: job.density === undefined ? undefined : (deposited / 1000) * job.density,
  };
}
