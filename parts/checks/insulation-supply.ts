import { clearances } from '../distances/clearance.js';
import { creepages } from '../distances/creepage.js';
import { Scene, type ShapeCache } from '../distances/scene.js';
import { SurfaceGraph } from '../distances/surface-graph.js';
import type { Way } from '../distances/way.js';
import type { Machine } from '../machine/machine.js';
import { altitudeFactor, clearanceImpulse, clearanceSteady, creepage } from '../stock/iec60664.js';
import { grooveWidth } from '../stock/iec60664-grooves.js';
import type { Status } from '../stock/row.js';
import type { Finding } from './finding.js';
import { pollutionOf } from './insulation-limit.js';
import { type Placed, SPACING } from './insulation-scene.js';
import { pathOf, surfacesAlong, titleOf } from './insulation-words.js';
import { judge } from './judge.js';
import { MOTOR_TO_ROLLER } from './supply.js';

/** mm around the motor: what is further off is nothing to a supply of a few hundred volts. */
const AROUND = 80;
/** Of what carries the wire from the motor’s frame to ground: it has the frame’s potential. */
const FRAME_GROUND = 'frame-ground-screw';

interface Asked {
  /** mm; undefined where the standard’s table ends. */
  readonly distance: number | undefined;
  readonly note: string;
  readonly status: Status;
}

/** The steady clearance in an inhomogeneous field, no less than dirt alone asks, for the site’s altitude. */
export function clearanceAsked(machine: Machine): Asked {
  const { drive, site } = machine;
  const { distance, note, row, status } = clearanceSteady(drive.motor.supply / 1000, 'A');
  // Below its first row Table F.2 holds what the pollution degree asks at any voltage.
  const dirt = clearanceImpulse(0, 'A', pollutionOf(machine));
  const { factor, note: table } = altitudeFactor(site.altitude);
  const known = distance !== undefined && dirt.distance !== undefined && factor !== undefined;
  return {
    distance: known ? Math.max(distance, dirt.distance) * factor : undefined,
    note: `IEC 60664-1:2020 ${note}, row ${row}: ${distance ?? '?'} mm, at pollution degree ${pollutionOf(machine)} no less than ${dirt.distance ?? '?'} mm (Table F.2), times ${factor ?? '?'} for altitude (${table})`,
    status,
  };
}

/** Creepage at the site’s pollution degree, for the worst material group. */
export function creepageAsked(machine: Machine): Asked {
  const { distance, note, row, status } = creepage(machine.drive.motor.supply, pollutionOf(machine), 'IIIa');
  return { distance, note: `IEC 60664-1:2020 ${note}, row ${row}`, status };
}

/**
 * From the motor’s body, taken as on its supply, to the grounded metal nearest to it: through air and along surfaces,
 * measured on the solids. Here the standard binds.
 */
export function supplyFindings(machine: Machine, placed: readonly Placed[], shapes: ShapeCache): Finding[] {
  const pieces = new Map(placed.map((piece) => [piece.name, piece]));
  const scene = supplyScene(placed, shapes);
  if (!scene) return [];
  const asked = { clearance: clearanceAsked(machine), creepage: creepageAsked(machine) };
  // The standard lets X be less where little clearance is asked; more counts as the worse.
  const grain = { bridge: grooveWidth(pollutionOf(machine)), spacing: SPACING };
  const options = { ...grain, upTo: 1, graph: new SurfaceGraph(scene, grain) };
  const finding = (what: 'clearance' | 'creepage', way: Way | undefined): Finding[] => {
    if (!way) return [];
    const { distance, note, status } = asked[what];
    const required = distance ?? MOTOR_TO_ROLLER.value;
    return [
      judge({
        id: `supply/motor-${what}`,
        title: `${what === 'clearance' ? 'Clearance' : 'Creepage'} from the motor’s body, taken as on its supply of ${machine.drive.motor.supply} V, to ${titleOf(way.to, pieces)}`,
        measured: way.length,
        required,
        unit: 'mm',
        sense: 'min',
        basis: `measured on the solids, gaps below ${options.bridge.toFixed(2)} mm bridged; ${note}${distance === undefined ? `; ${required} mm are asked instead` : ''}; for a supply isolated from the mains`,
        status: distance === undefined ? 'common-practice' : status,
        remedy: () => 'sleeve the motor’s terminals, and move metal away from its body',
        at: { path: pathOf(way), surfaces: surfacesAlong(way, pieces) },
      }),
    ];
  };
  return [
    ...finding('clearance', clearances(scene, 'supply', 'ground', options)[0]),
    ...finding('creepage', creepages(scene, 'supply', 'ground', options)[0]),
  ];
}

/** The motor with what lies on it, and everything around; undefined where no other metal is near. */
function supplyScene(placed: readonly Placed[], shapes: ShapeCache): Scene | undefined {
  const all = new Scene(
    placed.map(({ net, ...piece }) => ({ ...piece, net: net && piece.name })),
    shapes,
  );
  const motor = all.body('motor');
  const near = new Set(all.bodies.filter((body) => body.isNear(motor.min, motor.max, AROUND)));
  const names = new Set([...near].map(({ name }) => name));
  // Frame and shaft with their screws.
  const isFed = ({ kind, meets }: Placed) =>
    kind === 'motor' || kind === FRAME_GROUND || meets.includes('motor');
  const fed = new Set(placed.filter(isFed).map(({ name }) => name));
  const here = placed.filter(({ name }) => names.has(name));
  if (!here.some(({ name, net }) => net !== undefined && !fed.has(name))) return undefined;
  return new Scene(
    here.map(({ net, ...piece }) => ({ ...piece, net: net && (fed.has(piece.name) ? 'supply' : 'ground') })),
    shapes,
  );
}
