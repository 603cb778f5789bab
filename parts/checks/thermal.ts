import type { Machine } from '../machine/machine.js';
import { type PlasticKey, plastic } from '../stock/plastics.js';
import type { Constant } from '../stock/row.js';
import type { Check } from './check.js';
import type { Finding, Point } from './finding.js';
import { judge } from './judge.js';
import { practice } from './practice.js';

export const COLDEST = practice(10, 'C', 'coldest place that a machine is shown in');
export const HOTTEST = practice(35, 'C', 'hottest place that a machine is shown in');
export const FIT_CHANGE = practice(0.1, 'mm', 'change of a fit’s diameter that its class has room for');
export const STRETCH_CHANGE = practice(
  0.2,
  '',
  'change of the belt’s stretch that needs no setting, as a share of it',
);
/** What is taken where the stock has no value. */
export const GROWTH_UNKNOWN: Constant = {
  value: 200,
  unit: '1e-6/K',
  meaning: 'most that a plastic in stock grows, taken for one of which nothing is known',
  source: 'handbooks, from memory',
  status: 'from-memory',
};
export const STEEL_GROWTH: Constant = {
  value: 12,
  unit: '1e-6/K',
  meaning: 'linear thermal expansion of steel',
  source: 'handbooks, from memory',
  status: 'from-memory',
};

export const checkThermal: Check = (machine) => [
  ...fitsThatGrow(machine).map((fit) => fitChange(machine, fit)),
  stretchChange(machine),
];

/** 1e-6/K, and what it rests on. */
function growthOf(key: PlasticKey): Constant {
  return plastic(key).thermalExpansion ?? GROWTH_UNKNOWN;
}

/** K from the temperature that was measured at to the coldest and the hottest place. */
export function swing({ site: { temperature } }: Machine): { readonly down: number; readonly up: number } {
  return { down: Math.min(0, COLDEST.value - temperature), up: Math.max(0, HOTTEST.value - temperature) };
}

interface GrowingFit {
  readonly id: string;
  readonly what: string;
  /** mm */
  readonly diameter: number;
  readonly bought: Constant;
  readonly at: Point;
}

/** Fits of a print with something that grows otherwise, on diameters that matter. */
function fitsThatGrow({ tube, grip, rollers, hubs }: Machine): GrowingFit[] {
  const ofTube = growthOf(tube.material);
  const { dead } = hubs.upper;
  const ends = (['lower', 'upper'] as const).map((end) => ({
    id: `thermal/hub-${end}`,
    what: `${end} hub in its shell`,
    diameter: hubs[end].spigotFit.bought.likely,
    bought: growthOf(rollers[end].material),
    at: [0, rollers[end].length / 2, rollers[end].axisZ] as Point,
  }));
  return [
    {
      id: 'thermal/mount',
      what: 'mount on the tube',
      diameter: tube.outer.mean,
      bought: ofTube,
      at: [tube.outer.mean / 2, 0, grip.mount.headTop],
    },
    {
      id: 'thermal/rim-ring',
      what: 'rim ring in the tube',
      diameter: tube.inner.likely,
      bought: ofTube,
      at: [tube.inner.likely / 2, 0, tube.rimZ],
    },
    ...ends,
    {
      id: 'thermal/bearing-seat',
      what: 'bearing in the upper hub',
      diameter: dead?.seatFit.bought.likely ?? rollers.upper.bearing.row.outer,
      bought: STEEL_GROWTH,
      at: [0, rollers.upper.length / 2, rollers.upper.axisZ],
    },
  ];
}

/** How far (mm on the diameter) a fit tightens or loosens between the coldest and the hottest place, the greater of both. */
export function changeOf(machine: Machine, diameter: number, bought: number, printed: number): number {
  const { down, up } = swing(machine);
  return Math.max(-down, up) * Math.abs(bought - printed) * 1e-6 * diameter;
}

export function fitChange(machine: Machine, fit: GrowingFit): Finding {
  const printed = growthOf(machine.print.material);
  const told = ({ value, unit, source }: Constant) => `${value} ${unit} (${source})`;
  return judge({
    id: fit.id,
    title: `Change of the fit by heat and cold, ${fit.what}`,
    measured: changeOf(machine, fit.diameter, fit.bought.value, printed.value),
    required: FIT_CHANGE.value,
    unit: 'mm',
    sense: 'max',
    basis: `${COLDEST.value} to ${HOTTEST.value} C, measured at ${machine.site.temperature} C; print ${told(printed)}, bought ${told(fit.bought)}; ${FIT_CHANGE.meaning}, ${FIT_CHANGE.source}`,
    status: FIT_CHANGE.status,
    remedy: () => 'a print material that grows as the bought piece does, or parts kept for one season',
    at: { point: fit.at },
  });
}

/** The column grows and takes the belt's stretch with it; what rubber does of itself is left out. */
export function stretchChange(machine: Machine): Finding {
  const { tube, belt, rollers } = machine;
  const { down, up } = swing(machine);
  const growth = growthOf(tube.material);
  const span = rollers.upper.axisZ - rollers.lower.axisZ;
  const points = (200 * Math.max(-down, up) * growth.value * 1e-6 * span) / belt.freeLength;
  return judge({
    id: 'thermal/belt-stretch',
    title: 'Change of the belt’s stretch as the column grows and shrinks',
    measured: points,
    required: STRETCH_CHANGE.value * belt.stretch,
    unit: '%',
    sense: 'max',
    basis: `${growth.value} ${growth.unit} over ${span.toFixed(0)} mm, ${COLDEST.value} to ${HOTTEST.value} C; ${STRETCH_CHANGE.meaning}, ${STRETCH_CHANGE.source}; the rubber’s own growth is not known`,
    status: STRETCH_CHANGE.status,
    remedy: () => 'set the jack screws anew where it is shown',
    at: { point: [0, 0, (rollers.lower.axisZ + rollers.upper.axisZ) / 2] },
  });
}
