import { zipSync } from 'fflate';
import {
  assembly,
  checkMachine,
  columnPotential,
  compareOrders,
  describeChange,
  type FieldPicture,
  fieldPicture,
  fitPlaces,
  fitPointsInCut,
  isTool,
  type Kernel,
  type Machine,
  type MadePart,
  type Mesh,
  type MetalPiece,
  madePart,
  massOf,
  metalware,
  ordersFor,
  type PartOrder,
  type Piece,
  type Placement,
  type Printability,
  parseLedger,
  printability,
  readMachineFile,
  resolveMachine,
  sliceMesh,
  stlFile,
  surfacesOf,
  WayFinder,
  type Workshop,
} from '../../parts/index.js';
import type { FieldOrder } from '../field/solved-field.js';
import type {
  DressedMesh,
  MachineView,
  MetalView,
  Order,
  PartView,
  PieceView,
  PlacedView,
  PrintView,
  Section,
  WaysView,
  Word,
} from './messages.js';

type Work = Extract<Order, { kind: 'work' }>;

/** ZIP knows no time before 1980; the same parts always give the same bytes. */
const NO_TIME = new Date(1980, 0, 1);

/** A machine on the bench: judged, and its pieces known by what they are made from. */
interface OnBench {
  readonly machine: Machine;
  readonly orders: readonly PartOrder[];
  readonly pieces: readonly Piece[];
}

/**
 * The worker's work, apart from the worker: judges the text of a machine file, builds what is not built yet, cuts it,
 * solves its field and writes its files. Meshes are kept for the machine on the bench only.
 */
export class Workbench {
  private bench: OnBench | undefined;
  private readonly before = remembered(madeBefore);
  private readonly meshes = new Map<string, Mesh>();
  private readonly shown = new Set<string>();
  private finder: WayFinder | undefined;
  private readonly metal = new Map<string, DressedMesh>();
  private measured: ReadonlyMap<string, PrintView> = new Map();

  constructor(private readonly workshop: () => Promise<Workshop>) {}

  /**
   * Judges and builds, the first machine in this order, later ones the other way round. Between pieces it asks whether a later order makes this one idle.
   * @param breathe resolves once waiting messages have been heard
   */
  async work(
    order: Work,
    say: (word: Word) => void,
    breathe: () => Promise<void>,
    isStale: () => boolean,
  ): Promise<void> {
    const { revision } = order;
    const read = readMachineFile(order.text, order.file);
    if (!read.ok) {
      say({ kind: 'refused', revision, problems: read.problems });
      return;
    }
    const machine = resolveMachine(read.values, read.assumed);
    const bench = { machine, orders: ordersFor(machine), pieces: assembly(machine) };
    const placed = placedView(bench, this.before(order));
    const judge = () => say({ kind: 'judged', revision, machine: judged(machine, placed) });
    // The first picture has nothing to show before it is judged; after an edit the picture does not wait for the field.
    const isFirst = this.bench === undefined;
    if (isFirst) judge();
    else say({ kind: 'placed', revision, machine: placed });

    const began = performance.now();
    const keys = new Set(bench.pieces.map(({ key }) => key));
    const missing = [...new Map(bench.pieces.map((piece) => [piece.key, piece])).values()].filter(
      ({ key }) => !this.meshes.has(key),
    );
    const { kernel } = await this.workshop();
    for (const [i, piece] of missing.entries()) {
      say({ kind: 'progress', revision, what: piece.of, number: i + 1, of: missing.length });
      await breathe();
      if (isStale()) return;
      this.meshes.set(
        piece.key,
        kernel.scope(() => kernel.mesh(piece.build(kernel))),
      );
    }
    await breathe();
    if (isStale()) return;

    this.bench = bench;
    for (const key of this.meshes.keys()) if (!keys.has(key)) this.meshes.delete(key);
    for (const key of this.shown) if (!keys.has(key)) this.shown.delete(key);
    const fresh = [...keys].filter((key) => !this.shown.has(key));
    const meshes = new Map(fresh.map((key) => [key, dressed(this.meshes.get(key)!)]));
    for (const key of fresh) this.shown.add(key);
    say({ kind: 'built', revision, meshes, milliseconds: performance.now() - began });
    if (isFirst) return;
    await breathe();
    if (!isStale()) judge();
  }

  /** @throws RangeError when nothing was built yet */
  section(angle: number, placements: ReadonlyMap<string, Placement> = new Map()): Section {
    const { machine, pieces } = this.onBench();
    return {
      angle,
      faces: pieces.map(({ id, key, placement }) => ({
        piece: id,
        loops: sliceMesh(this.meshes.get(key)!, placements.get(id) ?? placement, angle),
      })),
      fits: fitPlaces(machine).map((place) => ({ id: place.fit.id, points: fitPointsInCut(place, angle) })),
    };
  }

  /** @throws RangeError when nothing was built yet */
  field({ voltage, bound }: FieldOrder): FieldPicture {
    return fieldPicture(this.onBench().machine, { voltage, bound });
  }

  /**
   * How every part prints, measured on the meshes of the machine that was built last, and on those of its tools, which are
   * built for it; what was measured is kept.
   * @returns undefined when a later order came in between
   * @throws RangeError when nothing was built yet
   */
  async prints(
    breathe: () => Promise<void>,
    isStale: () => boolean,
  ): Promise<readonly PrintView[] | undefined> {
    const { machine, orders, pieces } = this.onBench();
    const { print } = machine.values;
    const measured = new Map<string, PrintView>();
    const { kernel } = await this.workshop();
    const meshOf = ({ part, dimensions }: PartOrder): Mesh => {
      const piece = pieces.find(({ of }) => of === part.id);
      return piece
        ? this.meshes.get(piece.key)!
        : kernel.scope(() => kernel.mesh(part.build(dimensions, kernel)));
    };
    for (const order of orders) {
      const key = `${order.code} ${JSON.stringify(print)}`;
      await breathe();
      if (isStale()) return undefined;
      measured.set(key, this.measured.get(key) ?? printView(printability(machine, order, meshOf(order))));
    }
    this.measured = measured;
    return [...measured.values()];
  }

  /**
   * Ways over the solids of the machine that was built last.
   * @returns undefined when another order came in between
   * @throws RangeError when nothing was built yet
   */
  async ways(breathe: () => Promise<void>, isStale: () => boolean): Promise<WaysView | undefined> {
    const { machine } = this.onBench();
    const { kernel } = await this.workshop();
    this.finder ??= new WayFinder(kernel);
    const stale = new Error('another order came');
    const pause = async () => {
      await breathe();
      if (isStale()) throw stale;
    };
    try {
      const findings = await this.finder.findings(machine, pause);
      return { findings, metal: this.metalOf(machine, kernel) };
    } catch (error) {
      if (error === stale) return undefined;
      throw error;
    }
  }

  /**
   * The same bytes as the command line writes.
   * @throws RangeError for an unknown part, or when nothing was built yet
   */
  async files(part: string | undefined): Promise<{ readonly name: string; readonly bytes: Uint8Array }> {
    const { machine, orders } = this.onBench();
    const { stlOf } = await this.workshop();
    if (part !== undefined) {
      const order = orders.find((each) => each.part.id === part);
      if (!order) throw new RangeError(`no part ${part}`);
      return { name: stlFile(part), bytes: stlOf(order) };
    }
    const files = orders.map((order): [string, Uint8Array] => [stlFile(order.part.id), stlOf(order)]);
    const bytes = zipSync(Object.fromEntries(files), { mtime: NO_TIME });
    return { name: `${machine.name}.zip`, bytes };
  }

  private metalOf(machine: Machine, kernel: Kernel): MetalView {
    const pieces = metalware(machine);
    const before = new Map(this.metal);
    this.metal.clear();
    for (const { key, build } of pieces) {
      const made = before.get(key) ?? this.metal.get(key);
      this.metal.set(key, made ?? dressed(kernel.scope(() => kernel.mesh(build(kernel)))));
    }
    return { pieces: pieces.map(metalView), meshes: new Map(this.metal) };
  }

  private onBench(): OnBench {
    if (!this.bench) throw new RangeError('no machine is built yet');
    return this.bench;
  }
}

/** It stands where it is screwed in: it has no step or move of its own. */
const metalView = ({ id, of, title, key, placement }: MetalPiece): PieceView => ({
  id,
  of,
  title,
  key,
  placement,
  material: 'steel',
  printed: false,
  step: 0,
  moves: [],
});

const printView = ({ part, estimate, findings }: Printability): PrintView => ({
  part,
  estimate,
  open: findings.filter(({ severity }) => severity !== 'ok'),
});

function dressed(mesh: Mesh): DressedMesh {
  const { of, normals, edges } = surfacesOf(mesh);
  return { mesh, surfaces: { of, normals, edges } };
}

function judged(machine: Machine, placed: PlacedView): MachineView {
  const { findings, prediction } = checkMachine(machine);
  return {
    ...placed,
    findings,
    prediction,
    potential: columnPotential(machine, prediction.discharge * 1000),
  };
}

function placedView({ machine, orders, pieces }: OnBench, before: Before | undefined): PlacedView {
  const changes = compareOrders(before?.made ?? orders.map(madePart), orders);
  const { plate, terminal } = machine;
  return {
    name: machine.name,
    units: machine.values.units,
    pieces: pieces.map(({ build: _, ...piece }) => piece),
    parts: orders.map((each): PartView => partView(each, machine, changes)),
    gone: changes.filter(({ verdict }) => verdict === 'no longer needed').map(({ id }) => id),
    against: before?.against ?? 'opened',
    fits: fitPlaces(machine),
    assumed: machine.assumed,
    extent: {
      bottom: -plate.thickness - plate.feet,
      top: terminal.topZ,
      radius: Math.max(plate.diameter, terminal.diameter.max) / 2,
    },
  };
}

function partView(order: PartOrder, machine: Machine, changes: readonly { id: string }[]): PartView {
  const { part, code, copies, stated } = order;
  const change = changes.find(({ id }) => id === part.id) as PartView['change'];
  const [x, y, z] = stated.bounds.max.map((max, axis) => max - stated.bounds.min[axis]!) as [
    number,
    number,
    number,
  ];
  return {
    id: part.id,
    code,
    copies,
    tool: isTool(part),
    purpose: part.purpose,
    assembly: part.assembly,
    size: [x, y, z],
    mass: massOf(order, machine),
    change,
    changes: change.changes.map(describeChange),
  };
}

/** What the parts were made from before. */
interface Before {
  readonly made: readonly MadePart[];
  readonly against: MachineView['against'];
}
type Past = Pick<Work, 'ledger' | 'opened' | 'file'>;

/** By the ledger, else by the file as it was opened. */
function madeBefore({ ledger, opened, file }: Past): Before | undefined {
  if (ledger !== null) {
    try {
      return { made: parseLedger(ledger).parts, against: 'ledger' };
    } catch {
      // A ledger that is being written reads as broken for a moment; the file says enough meanwhile.
    }
  }
  const read = readMachineFile(opened, file);
  if (!read.ok) return undefined;
  return {
    made: ordersFor(resolveMachine(read.values, read.assumed)).map(madePart),
    against: 'opened',
  };
}

/** The past is the same from edit to edit: it is read once. */
function remembered(read: (past: Past) => Before | undefined): (past: Past) => Before | undefined {
  let last: { readonly past: Past; readonly before: Before | undefined } | undefined;
  return (past) => {
    if (last?.past.ledger !== past.ledger || last.past.opened !== past.opened)
      last = { past, before: read(past) };
    return last.before;
  };
}
