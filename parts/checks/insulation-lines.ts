import type { Body, Scene } from '../distances/scene.js';
import type { Leg, Way } from '../distances/way.js';
import { lineToEnd } from '../field/field-lines.js';
import type { PlaceName } from '../field/machine-field.js';
import type { Machine } from '../machine/machine.js';
import type { Vec3 } from '../solid/vector.js';
import { voltsAlong } from './insulation-limit.js';
import type { Placed } from './insulation-scene.js';

/** Degrees between the planes through the axis that a line is laid into: the field is solved round, the solids are not. */
const TURN = 30;
/** mm; where a line enters and leaves is looked for this close together. */
const STEP = 0.5;

/** A way along a field line, by the place that it starts from. */
export interface LineWay {
  readonly name: PlaceName;
  readonly way: Way;
}

/** Places whose field lines may lead to the other side, and the piece that each is; the nearest metal where it may be several. */
const FROM: readonly { readonly name: PlaceName; readonly piece?: string }[] = [
  { name: 'lip', piece: 'terminal' },
  { name: 'upperComb', piece: 'comb-upper' },
  { name: 'upperMetal' },
  { name: 'lowerComb', piece: 'comb-lower' },
];

/**
 * Ways along the field lines from the places of greatest field, through whatever solids stand in them, in the plane where
 * they hold least. Sparks follow the field more than the shortest way.
 */
export function lineWays(machine: Machine, scene: Scene, pieces: ReadonlyMap<string, Placed>): LineWay[] {
  return FROM.flatMap(({ name, piece }): LineWay[] => {
    const line = lineToEnd(machine, name);
    if (!line) return [];
    const turns = Array.from({ length: 360 / TURN }, (_, i) => {
      const points = line.path.map((point) => turned(point, (i * TURN * Math.PI) / 180));
      const from = piece ?? nearestMetal(scene, points[0]!);
      return wayAlong(machine, scene, pieces, from, points, line.onFloor);
    });
    // Through plastic of which no strength is in stock nothing can be told.
    const ways = turns.filter(({ cost }) => Number.isFinite(cost));
    if (ways.length === 0) return [];
    const weakest = ways.reduce((least, way) => (way.cost < least.cost ? way : least));
    return [{ name, way: weakest }];
  });
}

const turned = ([x, y, z]: Vec3 | readonly [number, number, number], angle: number): Vec3 => [
  x * Math.cos(angle) - y * Math.sin(angle),
  x * Math.sin(angle) + y * Math.cos(angle),
  z,
];

/** The stretches of a line by what they lead through; it ends where it comes to metal of the other side. */
function wayAlong(
  machine: Machine,
  scene: Scene,
  pieces: ReadonlyMap<string, Placed>,
  from: string,
  points: readonly Vec3[],
  onFloor: boolean,
): Way {
  const volts = voltsAlong(machine, pieces);
  const side = scene.body(from).net;
  const legs: Leg[] = [];
  let cost = 0;
  let to = '';
  let [on, start]: [Body | undefined, Vec3[]] = [undefined, [points[0]!]];
  const close = (at: Vec3): void => {
    start.push(at);
    const length = lengthOf(start);
    if (on) {
      const [a, b] = [on.toOwn(start[0]!), on.toOwn(at)];
      const size = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]) || 1;
      cost += volts.wall(on.name, length, [(b[0] - a[0]) / size, (b[1] - a[1]) / size, (b[2] - a[2]) / size]);
    } else cost += length * volts.gap;
    legs.push({ kind: on ? 'wall' : 'air', on: on?.name ?? '', length, points: start });
    start = [at];
  };
  for (const at of refined(points)) {
    const inside = scene.bodies.find((body) => body.holds(at));
    if (inside?.net !== undefined && inside.net === side) continue;
    if (inside?.net !== undefined) {
      to = inside.name;
      close(at);
      break;
    }
    if (inside === on) start.push(at);
    else {
      close(at);
      on = inside;
    }
  }
  if (to === '') close(points.at(-1)!);
  return {
    from,
    to: to || (onFloor ? 'floor' : nearestMetal(scene, points.at(-1)!)),
    length: legs.reduce((sum, { length }) => sum + length, 0),
    cost,
    alike: 1,
    legs,
  };
}

/** The points of a line with others between them. */
function refined(points: readonly Vec3[]): Vec3[] {
  return points.slice(1).flatMap((b, i) => {
    const a = points[i]!;
    const count = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]) / STEP));
    return Array.from({ length: count }, (_, k): Vec3 => {
      const share = (k + 1) / count;
      return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), a[2] + share * (b[2] - a[2])];
    });
  });
}

const lengthOf = (points: readonly Vec3[]): number =>
  points
    .slice(1)
    .reduce(
      (sum, b, i) => sum + Math.hypot(b[0] - points[i]![0], b[1] - points[i]![1], b[2] - points[i]![2]),
      0,
    );

/** The conductor that a place in the idealised field lies at: there parts are rings, here they are what they are. */
function nearestMetal(scene: Scene, at: Vec3): string {
  let best = { name: '', distance: Number.POSITIVE_INFINITY };
  for (const body of scene.bodies) {
    if (body.net === undefined) continue;
    const found = body.nearest(at, best.distance);
    if (found && found.distance < best.distance) best = { name: body.name, distance: found.distance };
  }
  return best.name;
}
