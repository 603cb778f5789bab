import type { Machine } from '../../machine/machine.js';
import { BELT_LOSS } from './assumptions.js';
import { mustBePositive } from './door.js';

// SI throughout.

/**
 * Resistance (ohm) between terminal and ground of a belt with this end-to-end resistance, cut open: both runs, each half
 * of it, lie side by side, a quarter.
 */
export function atBothRuns(endToEnd: number): number {
  return endToEnd / 4;
}

/** Least end-to-end resistance (ohm) with which a belt takes down no more than a share of the current at a voltage (V). */
export function endToEndNeeded(voltage: number, current: number, share: number = BELT_LOSS.value): number {
  mustBePositive(voltage, 'a voltage');
  mustBePositive(current, 'a current');
  mustBePositive(share, 'a share');
  return (4 * voltage) / (share * current);
}

/** Sizes of a belt in m. */
export interface BeltSize {
  readonly loop: number;
  readonly width: number;
  readonly thickness: number;
}

/** What a belt's sheet must be to reach an end-to-end resistance, if only its surface or only its bulk conducts. */
export interface ResistivityNeeded {
  /** ohm per square, over both faces and edges */
  readonly surface: number;
  /** ohm m */
  readonly volume: number;
}

/** Ohm's law along the whole loop. @param endToEnd ohm, of the belt cut open */
export function resistivityNeeded(endToEnd: number, { loop, width, thickness }: BeltSize): ResistivityNeeded {
  mustBePositive(endToEnd, 'a resistance');
  for (const [what, size] of Object.entries({ loop, width, thickness }))
    mustBePositive(size, `a belt’s ${what}`);
  return {
    surface: (endToEnd * 2 * (width + thickness)) / loop,
    volume: (endToEnd * width * thickness) / loop,
  };
}

/**
 * What this machine's belt must be to lose no more than a tenth of a current by conducting.
 * @param voltage V
 * @param current A
 */
export function beltNeeded(
  { belt }: Machine,
  voltage: number,
  current: number,
): ResistivityNeeded & { readonly endToEnd: number } {
  const endToEnd = endToEndNeeded(voltage, current);
  const size = { loop: belt.loopLength / 1000, width: belt.width / 1000, thickness: belt.thickness / 1000 };
  return { endToEnd, ...resistivityNeeded(endToEnd, size) };
}
