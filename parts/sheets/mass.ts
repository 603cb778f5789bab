import type { Machine } from '../machine/machine.js';
import type { PartOrder } from '../printed/catalog.js';
import { plastic } from '../stock/plastics.js';

/** Mass (g) of one copy printed solid; undefined where the plastic's density is not in stock. */
export function massOf({ stated }: Pick<PartOrder, 'stated'>, { print }: Machine): number | undefined {
  const density = plastic(print.material).density?.value;
  return density === undefined ? undefined : (stated.volume / 1000) * density;
}
