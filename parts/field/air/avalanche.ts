import { GAUSS_PLACES, GAUSS_WEIGHTS, type Step, within } from './profile.js';
import { rootBetween } from './root.js';

/**
 * Which part of a field line an avalanche is summed over.
 *
 * - `from-electrode`: from the line's start to the first place where attachment wins
 * - `anywhere-on-line`: whatever stretch gives most electrons; it may bridge a part where attachment wins a little. The
 *   same wherever the field only falls from the electrode; in a gap between two electrodes it is the larger one
 */
export type AvalanchePath = 'from-electrode' | 'anywhere-on-line';

export const DEFAULT_PATH: AvalanchePath = 'anywhere-on-line';

/** Effective ionisation coefficient, 1/m, for a field per volt, 1/m. */
type Alpha = (perVolt: number) => number;

/**
 * ln of the electrons in the greatest avalanche along a line: the coefficient summed over the path.
 * @param onElectrode field per volt at the line's start, 1/m
 */
export function avalancheAlong(
  steps: readonly Step[],
  onElectrode: number,
  alpha: Alpha,
  path: AvalanchePath,
): number {
  return path === 'from-electrode'
    ? fromElectrode(steps, onElectrode, alpha)
    : anywhere(steps, onElectrode, alpha);
}

function fromElectrode(steps: readonly Step[], onElectrode: number, alpha: Alpha): number {
  if (alpha(onElectrode) <= 0) return 0;
  let sum = 0;
  for (const step of steps) {
    if (alpha(step.end) <= 0) return sum + splitAtZero(step, true, alpha)[0];
    sum += whole(step, alpha);
  }
  return sum;
}

function anywhere(steps: readonly Step[], onElectrode: number, alpha: Alpha): number {
  let greatest = 0;
  /** Of the best avalanche that ends here; one that attachment ate up starts anew. */
  let ending = 0;
  let ionising = alpha(onElectrode) > 0;
  for (const step of steps) {
    const next = alpha(step.end) > 0;
    for (const part of next === ionising ? [whole(step, alpha)] : splitAtZero(step, ionising, alpha)) {
      ending = Math.max(ending + part, 0);
      greatest = Math.max(greatest, ending);
    }
    ionising = next;
  }
  return greatest;
}

const whole = ({ from, to, inside }: Step, alpha: Alpha) => gauss(inside, to - from, alpha);

/** The sums before and after the place in a step where the coefficient changes its sign. */
function splitAtZero({ from, to, at }: Step, ionisingFirst: boolean, alpha: Alpha): [number, number] {
  const rising = (place: number) => (ionisingFirst ? -alpha(at(place)) : alpha(at(place)));
  // Rounding may put the zero on the step's very start.
  const zero = rising(from) < 0 ? rootBetween(rising, from, to) : from;
  const part = (start: number, end: number) =>
    gauss(
      GAUSS_PLACES.map((place) => at(within(start, end, place))),
      end - start,
      alpha,
    );
  return [part(from, zero), part(zero, to)];
}

function gauss(inside: readonly number[], length: number, alpha: Alpha): number {
  let sum = 0;
  for (let index = 0; index < inside.length; index++) sum += GAUSS_WEIGHTS[index]! * alpha(inside[index]!);
  return (sum * length) / 2;
}
