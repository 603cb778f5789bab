import type { Machine } from '../machine/machine.js';
import { boundField, type PlaceName } from './machine-field.js';
import { idealInception, onsetOf, worstLine } from './place-limits.js';
import { type LimitWay, type PathPoint, wayOf } from './way.js';

/** What is told of each place where air may give way first. */
const TOLD: Readonly<
  Record<
    PlaceName,
    { readonly id: string; readonly title: string; readonly kind: LimitWay['kind']; readonly surface: string }
  >
> = {
  body: { id: 'way/terminal-body', title: 'terminal into the air', kind: 'terminal', surface: 'terminal' },
  lip: { id: 'way/terminal-lip', title: 'corona from the terminal’s lip', kind: 'corona', surface: 'lip' },
  upperComb: {
    id: 'way/upper-comb',
    title: 'corona from the upper comb',
    kind: 'corona',
    surface: 'upper comb',
  },
  upperMetal: {
    id: 'way/upper-metal',
    title: 'corona from the lowest metal above',
    kind: 'corona',
    surface: 'lowest metal above',
  },
  lowerComb: {
    id: 'way/lower-comb',
    title: 'corona towards the lower comb',
    kind: 'corona',
    surface: 'lower comb',
  },
  baseEdge: {
    id: 'way/base-edge',
    title: 'corona from the base plate',
    kind: 'corona',
    surface: 'base plate',
  },
};

/** Corona from a place of the machine, by the solved field; undefined where the machine has no such place. */
export function coronaWay(machine: Machine, name: PlaceName): LimitWay | undefined {
  const at = onsetOf(machine, name);
  const worst = worstLine(machine, boundField(machine, 'polarised'), name);
  const ideal = idealInception(machine, name);
  if (!at || !worst || !ideal) return undefined;
  const { r, z } = worst.peak;
  const { id, title, kind, surface } = TOLD[name];
  const place: PathPoint = [r * 1000, 0, z * 1000];
  const kilovolts = (volts: number) => (volts / 1000).toFixed(0);
  return wayOf(machine, {
    id,
    title,
    kind,
    at,
    length: 0,
    path: [place],
    surfaces: [surface],
    basis: `streamer criterion along the field line from the place of greatest field (${worst.peak.field.toFixed(2)} V/m per volt); a perfect surface holds ${kilovolts(ideal.polarised)} kV with the column only polarised and ${kilovolts(ideal.graded)} kV with an even gradient on it; times a surface factor of 0.5, 0.7, 0.9 (common practice, no source)`,
    status: 'common-practice',
  });
}
