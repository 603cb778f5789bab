import { beadAngle, beadHeight, terminalShape } from '../field/terminal-shape.js';
import type { Machine } from '../machine/machine.js';
import { ordersFor } from '../printed/catalog.js';
import { type Placement, placementMatrix, type Vec3 } from '../solid/vector.js';
import { plateMaterial } from '../stock/metals.js';
import { plastic } from '../stock/plastics.js';
import { beltMassPerMetre } from './belt.js';
import { practice } from './practice.js';

export const PRINT_FILL = practice(
  0.6,
  '',
  'share of a printed part’s volume that is plastic: walls whole, the inside in part',
);
export const MOTOR_DENSITY = practice(
  5,
  'g/cm3',
  'mass of a small motor over the volume of its body: iron, copper and air',
);

/** kg of the motor, by its body. */
export const motorMass = ({ drive: { motor } }: Machine): number =>
  kilograms(cylinder(motor.bodyDiameter, motor.bodyLength), MOTOR_DENSITY.value);

/** One piece of the machine as a mass at a place. */
export interface Mass {
  readonly what: string;
  /** kg */
  readonly mass: number;
  /** Its middle, mm. */
  readonly at: Vec3;
}

const STEEL = plateMaterial('steel').density.value;
/** kg from mm3 and g/cm3 */
const kilograms = (volume: number, density: number) => volume * density * 1e-6;
const cylinder = (diameter: number, length: number) => (Math.PI / 4) * diameter ** 2 * length;

/** Every piece that weighs something, where it stands. Screws, wires and combs are left out. */
export function massesOf(machine: Machine): readonly Mass[] {
  return [...boughtMasses(machine), ...printedMasses(machine)];
}

function boughtMasses(machine: Machine): Mass[] {
  const { plate, tube, drive, rollers, belt } = machine;
  const { density } = plateMaterial(plate.material);
  const length = belt.loopLength / 1000;
  return [
    {
      what: 'base plate',
      mass: kilograms(cylinder(plate.diameter, plate.thickness), density.value),
      at: [0, 0, -plate.thickness / 2],
    },
    {
      what: 'tube',
      mass: kilograms(
        cylinder(tube.outer.mean, tube.length) - cylinder(tube.inner.likely, tube.length),
        plastic(tube.material).density.value,
      ),
      at: [0, 0, (tube.footZ + tube.rimZ) / 2],
    },
    terminalMass(machine),
    {
      what: 'motor',
      mass: motorMass(machine),
      at: drive.motor.at,
    },
    {
      what: 'belt',
      mass: beltMassPerMetre(machine) * length,
      at: [0, 0, (rollers.lower.axisZ + rollers.upper.axisZ) / 2],
    },
    ...(['lower', 'upper'] as const).flatMap((end) => {
      const { shell: outer, inner, length: face, material, axle, axisZ, bearing } = rollers[end];
      const shell = cylinder(outer.mean, face) - cylinder(inner.mean, face);
      const ring = cylinder(bearing.row.outer, bearing.width) - cylinder(bearing.row.bore, bearing.width);
      const rod = cylinder(axle.diameter, axle.to - axle.from);
      return [
        {
          what: `${end} roller with axle and bearings`,
          mass: kilograms(shell, plastic(material).density.value) + kilograms(rod + 2 * ring, STEEL),
          at: [0, (axle.from + axle.to) / 2, axisZ] as const,
        },
      ];
    }),
  ];
}

/** Sheet and bead of the terminal: an ellipse turned about the axis, down to its bead. */
export function terminalMass(machine: Machine): Mass {
  const shape = terminalShape(machine);
  const { equatorial, polar, centre, sheet, rim, bead } = shape;
  const from = beadAngle(shape);
  const STEPS = 200;
  const step = (Math.PI / 2 - from) / STEPS;
  // The middle of the sheet, m.
  const [a, b] = [equatorial - sheet / 2, polar - sheet / 2];
  let [area, moment] = [0, 0];
  for (let i = 0; i < STEPS; i++) {
    const t = from + (i + 0.5) * step;
    const ring = 2 * Math.PI * a * Math.cos(t) * Math.hypot(a * Math.sin(t), b * Math.cos(t)) * step;
    area += ring;
    moment += ring * (centre + b * Math.sin(t));
  }
  // A rolled bead is hollow; a raw edge is next to nothing.
  const beadArea = 2 * Math.PI * rim * 2 * Math.PI * bead;
  const { value } = plateMaterial(machine.terminal.material).density;
  return {
    what: 'terminal',
    mass: (area + beadArea) * sheet * value * 1000,
    at: [0, 0, (1000 * (moment + beadArea * beadHeight(shape))) / (area + beadArea)],
  };
}

function printedMasses(machine: Machine): Mass[] {
  const { value } = plastic(machine.print.material).density;
  return ordersFor(machine).flatMap(({ part, stated }) => {
    const middle = stated.bounds.min.map((min, axis) => (min + stated.bounds.max[axis]!) / 2);
    const mass = PRINT_FILL.value * kilograms(stated.volume, value);
    return part
      .place(machine)
      .map(({ placement }) => ({ what: part.id, mass, at: placed(middle as unknown as Vec3, placement) }));
  });
}

function placed([x, y, z]: Vec3, placement: Placement): Vec3 {
  const m = placementMatrix(placement);
  return [0, 4, 8].map(
    (row) => m[row]! * x + m[row + 1]! * y + m[row + 2]! * z + m[row + 3]!,
  ) as unknown as Vec3;
}

/** Mass (kg) and centre of mass (mm) of them together. */
export function together(masses: readonly Mass[]): { readonly mass: number; readonly at: Vec3 } {
  const mass = masses.reduce((sum, each) => sum + each.mass, 0);
  const at = [0, 1, 2].map(
    (axis) => masses.reduce((sum, each) => sum + each.mass * each.at[axis]!, 0) / mass,
  );
  return { mass, at: at as unknown as Vec3 };
}
