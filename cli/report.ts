import {
  type Assumed,
  checkMachine,
  type Finding,
  isTool,
  type Machine,
  massOf,
  ordersFor,
  type PartOrder,
  type Prediction,
} from '../parts/index.js';

/** One printed part, as it states itself: no solid is built for it. */
export interface PartReport {
  readonly id: string;
  readonly code: string;
  readonly copies: number;
  /** For building the machine, no piece of it. */
  readonly tool: boolean;
  /** mm, in print orientation */
  readonly bounds: { readonly min: readonly number[]; readonly max: readonly number[] };
  /** mm3 */
  readonly volume: number;
  /** g, printed solid; null where the plastic's density is not in stock */
  readonly mass: number | null;
}

/** What `check` says, and what `make` says first. */
export interface Report {
  readonly machine: string;
  readonly assumed: readonly Assumed[];
  readonly predicted: Prediction;
  readonly findings: readonly Finding[];
  readonly parts: readonly PartReport[];
}

/** Predicts, checks, lists the parts. Builds no solid. */
export function reportOn(machine: Machine): {
  readonly report: Report;
  readonly orders: readonly PartOrder[];
} {
  const { findings, prediction } = checkMachine(machine);
  const orders = ordersFor(machine);
  const report: Report = {
    machine: machine.name,
    assumed: machine.assumed,
    predicted: prediction,
    findings,
    parts: orders.map((order) => {
      const { part, code, copies, stated } = order;
      const mass = massOf(order, machine);
      return {
        id: part.id,
        code,
        copies,
        tool: isTool(part),
        bounds: stated.bounds,
        volume: Math.round(stated.volume),
        mass: mass === undefined ? null : Number(mass.toFixed(1)),
      };
    }),
  };
  return { report, orders };
}
