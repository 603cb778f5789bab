import { clearances } from '../distances/clearance.js';
import type { Costs } from '../distances/costs.js';
import { creepages } from '../distances/creepage.js';
import type { Scene, ShapeCache } from '../distances/scene.js';
import { SurfaceGraph } from '../distances/surface-graph.js';
import type { Way } from '../distances/way.js';
import { dischargeOf } from '../field/discharge.js';
import type { PlaceName } from '../field/machine-field.js';
import type { LimitWay } from '../field/way.js';
import type { Machine } from '../machine/machine.js';
import type { Kernel, Mesh } from '../solid/kernel.js';
import { grooveWidth } from '../stock/iec60664-grooves.js';
import { byGravity, type Finding } from './finding.js';
import { insulationFinding } from './insulation-finding.js';
import {
  lengthsOf,
  limitOf,
  type Medium,
  pollutionOf,
  THICKEST_WALL,
  voltsAlong,
} from './insulation-limit.js';
import { lineWays } from './insulation-lines.js';
import { insulation, type Placed, placedPieces, SPACING } from './insulation-scene.js';
import { supplyFindings } from './insulation-supply.js';
import { pathOf, surfacesAlong, titleOf } from './insulation-words.js';

/** Ways longer than the shortest by this factor are not told: what is weak about them is told with that one. */
const UP_TO = 1.05;
/** Kinds of metal that ways to are told of each medium, those with the least first. */
const MOST_KINDS = 4;

/** A field line through solids that hold so many times the discharge voltage is not told. */
const NO_WAY = 3;

/** Called between steps of at most a second or so; what it throws ends the work. */
export type Pause = () => Promise<void>;
const NO_PAUSE: Pause = async () => {};

type Pieces = ReadonlyMap<string, Placed>;

/** A wall that is gone through is told where that way is weaker than all others by this factor. */
const WEAKER = 0.98;

/** A way that was found on the solids, with its limit. */
export interface MeasuredWay {
  readonly medium: Medium;
  readonly way: Way;
  readonly limit: LimitWay;
  /** V that its gradients alone hold, likely. */
  readonly carried: number;
  /** Titles of metal on either side that nothing connects. */
  readonly floating: readonly string[];
  /** Titles of prints on either side that conduct. */
  readonly conducting: readonly string[];
}

/**
 * Finds the ways between terminal and ground on a machine’s solids. Keeps what it prepared of each solid: what did not
 * change need not be prepared again.
 */
export class WayFinder {
  private readonly shapes: ShapeCache = new Map();
  private readonly meshes = new Map<string, Mesh>();

  constructor(private readonly kernel: Kernel) {}

  /** Through air, along surfaces, and the weakest where it leads through a wall; of each kind of metal at ground the best one. */
  async ways(machine: Machine, pause: Pause = NO_PAUSE): Promise<MeasuredWay[]> {
    return this.waysAmong(machine, placedPieces(machine, this.kernel, this.meshes), pause);
  }

  /** The same for pieces that stand elsewhere, or others. */
  async waysAmong(
    machine: Machine,
    placed: readonly Placed[],
    pause: Pause = NO_PAUSE,
  ): Promise<MeasuredWay[]> {
    const { scene, pieces, floating } = insulation(placed, this.shapes);
    this.forget(placed);
    for (const { shape, net } of scene.bodies) {
      await pause();
      if (net === undefined) shape.links(SPACING);
      else shape.nodes(SPACING);
    }
    const volts = voltsAlong(machine, pieces);
    const ways: MeasuredWay[] = [];
    for await (const { medium, found } of shortestWays(machine, scene, pieces, volts, pause)) {
      for (const way of found) ways.push(measuredWay(machine, pieces, floating, volts, medium, way));
    }
    await pause();
    ways.push(...waysAlongLines(machine, scene, pieces));
    const besides = Math.min(
      ...ways.filter(({ medium }) => medium !== 'wall').map(({ limit }) => limit.voltage.likely),
    );
    return ways.filter(({ medium, limit }) => medium !== 'wall' || limit.voltage.likely < WEAKER * besides);
  }

  /** Drops what is not in the machine any more. */
  private forget(placed: readonly Placed[]): void {
    const used = new Set(placed.map(({ key }) => key));
    for (const kept of [this.shapes, this.meshes]) {
      for (const key of kept.keys()) if (!used.has(key)) kept.delete(key);
    }
  }

  /** What each way means for the machine, with what mends it, found by measuring again. */
  async findings(machine: Machine, pause: Pause = NO_PAUSE): Promise<Finding[]> {
    const discharge = dischargeOf(machine);
    const placed = placedPieces(machine, this.kernel, this.meshes);
    const ways = await this.waysAmong(machine, placed, pause);
    const findings = supplyFindings(machine, placed, this.shapes);
    for (const way of ways) {
      await pause();
      findings.push(await insulationFinding(machine, way, discharge, (tried) => this.ways(tried, pause)));
    }
    return findings.sort(byGravity);
  }
}

/** Ways of each medium, between pauses. */
async function* shortestWays(
  machine: Machine,
  scene: Scene,
  pieces: Pieces,
  volts: Costs,
  pause: Pause,
): AsyncGenerator<{ readonly medium: Exclude<Medium, 'line'>; readonly found: readonly Way[] }> {
  const bridge = grooveWidth(pollutionOf(machine));
  const graph = new SurfaceGraph(scene, { bridge, spacing: SPACING, thickest: THICKEST_WALL });
  const kind = (name: string) => pieces.get(name)!.kind;
  const common = { bridge, spacing: SPACING, upTo: UP_TO, most: MOST_KINDS, kind, graph };
  await pause();
  yield { medium: 'air', found: clearances(scene, 'terminal', 'ground', common) };
  await pause();
  yield { medium: 'surface', found: creepages(scene, 'terminal', 'ground', common) };
  await pause();
  // One is enough: without its wall it is one of the others.
  const through = { ...common, most: 1, thickest: THICKEST_WALL, costs: volts };
  const weakest = creepages(scene, 'terminal', 'ground', through);
  yield { medium: 'wall', found: weakest.filter(({ legs }) => legs.some((leg) => leg.kind === 'wall')) };
}

function measuredWay(
  machine: Machine,
  pieces: Pieces,
  floating: ReadonlySet<string>,
  volts: Costs,
  medium: Exclude<Medium, 'line'>,
  way: Way,
): MeasuredWay {
  const limit = limitOf(machine, way, pieces, {
    id: `${medium}/terminal-to-${pieces.get(way.to)!.kind}`,
    title: titleOfWay(medium, way, pieces),
    path: pathOf(way),
    surfaces: surfacesAlong(way, pieces),
  });
  const { surface, air } = lengthsOf(way);
  const ends = (are: (name: string) => boolean) =>
    [way.from, way.to].filter(are).map((name) => titleOf(name, pieces));
  return {
    medium,
    way,
    limit,
    carried: medium === 'wall' ? way.cost : surface * volts.surface + air * volts.gap,
    floating: ends((name) => floating.has(name)),
    conducting: ends((name) => pieces.get(name)!.printed),
  };
}

function waysAlongLines(machine: Machine, scene: Scene, pieces: Pieces): MeasuredWay[] {
  return lineWays(machine, scene, pieces).flatMap(({ name, way }): MeasuredWay[] => {
    const told = {
      id: `line/${LINES[name].id}`,
      title: `along the field line from ${LINES[name].title} to ${titleOf(way.to, pieces)}`,
      path: pathOf(way),
      surfaces: surfacesAlong(way, pieces),
    };
    const limit = limitOf(machine, way, pieces, told, name);
    if (limit.voltage.likely >= NO_WAY * dischargeOf(machine)) return [];
    return [{ medium: 'line', way, limit, carried: way.cost, floating: [], conducting: [] }];
  });
}

const LINES: Readonly<Record<PlaceName, { readonly id: string; readonly title: string }>> = {
  body: { id: 'terminal-body', title: 'the terminal’s body' },
  lip: { id: 'terminal-lip', title: 'the terminal’s lip' },
  upperComb: { id: 'upper-comb', title: 'the upper comb' },
  upperMetal: { id: 'upper-metal', title: 'the lowest metal above' },
  lowerComb: { id: 'lower-comb', title: 'the lower comb' },
  baseEdge: { id: 'base-edge', title: 'the base plate’s edge' },
};

const MEDIA: Readonly<Record<Exclude<Medium, 'line'>, string>> = {
  air: 'shortest through air',
  surface: 'shortest along surfaces',
  wall: 'weakest way through a wall',
};

function titleOfWay(
  medium: Exclude<Medium, 'line'>,
  { from, to, alike }: Way,
  pieces: ReadonlyMap<string, Placed>,
): string {
  const many = alike > 1 ? ` (${alike} alike)` : '';
  return `${MEDIA[medium]}, ${titleOf(from, pieces)} to ${titleOf(to, pieces)}${many}`;
}
