import { Charges } from './charges.js';
import type { Place, Segment } from './curve.js';
import { addField, addPotential, OFF_PANEL } from './influence.js';
import { factor, solveWith } from './lu.js';
import { Panel } from './panel.js';
import type { Solution } from './solution.js';
import type { System } from './system.js';

/** A field that can be asked for anywhere off surfaces. */
export interface Field {
  /** V/m */
  fieldAt(r: number, z: number): Place;
}

/** Unknowns for each panel of the electrode. */
const ORDER = 5;

/** A conductor brought to a solved problem: its panels, and what every charge is then. */
export class Electrode {
  private readonly panels: readonly Panel[];
  private readonly size: number;
  /** Charge on the machine that each unknown of the electrode draws there. */
  private readonly drawn: readonly Float64Array[];
  /** What the machine’s unknowns do at each node of the electrode. */
  private readonly reaches: Float64Array[] = [];
  private readonly own: ReturnType<typeof factor>;

  /**
   * Works out the electrode’s effect by elimination, so that the machine’s own factors are used again.
   * @param profile cut as it is into panels: fine where it comes close to the machine
   */
  constructor(
    private readonly system: System,
    profile: readonly Segment[],
  ) {
    this.panels = profile.map(
      (segment) => new Panel({ segment, freeStart: false, freeEnd: false }, 0, 1, ORDER),
    );
    this.size = this.panels.length * ORDER;
    const columns = this.effectOnSystem();
    this.drawn = columns.map((column) => system.respond(column));
    const matrix = new Float64Array(this.size * this.size);
    this.eachNode((_, r, z) => this.reaches.push(this.reachOf(r, z)));
    this.eachNode((row, r, z, panel, xi) => {
      for (const [j, source] of this.panels.entries())
        this.addBoth(source, r, z, source === panel ? xi : OFF_PANEL, matrix, row * this.size + j * ORDER);
      const reach = this.reaches[row]!;
      for (const [column, charge] of this.drawn.entries())
        matrix[row * this.size + column]! -= dot(reach, charge);
    });
    this.own = factor(matrix, this.size);
  }

  /** The field with the electrode at a potential (V) beside a solution of the machine alone. */
  beside(alone: Solution, potential: number): Field {
    const right = new Float64Array(this.size);
    this.eachNode((row, r, z) => {
      right[row] =
        potential -
        dot(this.reaches[row]!, alone.coefficients) -
        alone.sources * this.system.sources.potential(r, z);
    });
    const own = solveWith(this.own, right);
    const coefficients = new Float64Array(this.system.size + this.size);
    for (let i = 0; i < this.system.size; i++) {
      let sum = alone.coefficients[i]!;
      for (let column = 0; column < this.size; column++) sum -= own[column]! * this.drawn[column]![i]!;
      coefficients[i] = sum;
    }
    coefficients.set(own, this.system.size);
    const { problem, sources } = this.system;
    const charges = new Charges(
      [
        ...this.system.placed.map(({ panel, at }) => ({ panel, at, coefficients })),
        ...this.panels.map((panel, i) => ({ panel, at: this.system.size + i * ORDER, coefficients })),
      ],
      problem.floor,
    );
    return {
      fieldAt: (r, z) => {
        const [er, ez] = charges.field(r, z);
        const [sourceR, sourceZ] = alone.sources === 0 ? [0, 0] : sources.field(r, z);
        return [er + alone.sources * sourceR, ez + alone.sources * sourceZ];
      },
    };
  }

  private eachNode(visit: (row: number, r: number, z: number, panel: Panel, xi: number) => void): void {
    for (const [i, panel] of this.panels.entries())
      for (let node = 0; node < ORDER; node++)
        visit(i * ORDER + node, panel.nodes.r[node]!, panel.nodes.z[node]!, panel, panel.nodes.xi[node]!);
  }

  private addBoth(source: Panel, r: number, z: number, xi: number, out: Float64Array, at: number): void {
    const { floor } = this.system.problem;
    addPotential(source, r, z, xi, 1, out, at);
    if (floor !== undefined) addPotential(source, r, 2 * floor - z, OFF_PANEL, -1, out, at);
  }

  /** Potential (V) at a place of each of the machine’s unknowns. */
  private reachOf(r: number, z: number): Float64Array {
    const reach = new Float64Array(this.system.size);
    for (const { panel, at } of this.system.placed) this.addBoth(panel, r, z, OFF_PANEL, reach, at);
    return reach;
  }

  /** What each unknown of the electrode does in the machine’s equations, one column each. */
  private effectOnSystem(): Float64Array[] {
    const { placed, size, problem } = this.system;
    const { floor } = problem;
    const columns = Array.from({ length: this.size }, () => new Float64Array(size));
    const row = new Float64Array(this.size);
    for (const { panel, boundary, at } of placed) {
      const { nodes } = panel;
      for (let node = 0; node < panel.order; node++) {
        row.fill(0);
        const [r, z] = [nodes.r[node]!, nodes.z[node]!];
        for (const [j, source] of this.panels.entries()) {
          if (boundary.kind !== 'dielectric') {
            this.addBoth(source, r, z, OFF_PANEL, row, j * ORDER);
            continue;
          }
          const contrast = boundary.outside - boundary.inside;
          const [toR, toZ] = [contrast * nodes.nr[node]!, contrast * nodes.nz[node]!];
          addField(source, r, z, OFF_PANEL, toR, toZ, row, j * ORDER);
          if (floor !== undefined) addField(source, r, 2 * floor - z, OFF_PANEL, -toR, toZ, row, j * ORDER);
        }
        for (const [column, value] of row.entries()) columns[column]![at + node] = value;
      }
    }
    return columns;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
