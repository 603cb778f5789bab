import { parse } from 'yaml';

/** The reference example of a machine file, as it stands. */
export const SKETCH = `machine: Travelling demonstrator
units: mm
site: { altitude: 350, temperature: 20, humidity: 45 }
target: { voltage: 170 kV }
terminal: { shape: sphere, diameter: [249.4, 250.8], shell: 0.9, opening: { diameter: 96, lip: 6 }, insertion: 50 }
column:
  tube: { material: acrylic-extruded, outer: [79.6, 80.3, 79.8, 80.2], wall: [2.85, 3.05], length: 640 }
belt: { material: neoprene, width: 45, thickness: 1.2, stretch: 8 }
rollers:
  lower: { material: ptfe, outer: [28.0, 28.1], inner: [20.0, 20.1], length: 56, axle: { kind: live, diameter: 6, flat: 0.5 }, bearing: "696" }
  upper: { material: nylon, outer: [28.0, 28.1], inner: [20.0, 20.1], length: 56, axle: { kind: dead, diameter: 6, flat: 0.5 }, bearing: "696" }
drive: { motor: { speed: 5500, power: 25, supply: 12 }, pulleys: { motor: 20, roller: 30 } }
combs:
  lower: { style: mesh, width: 38, gap: 3 }
  upper: { style: mesh, width: 38, gap: 3 }
base: { plate: { material: aluminium, diameter: 300, thickness: 4 }, feet: 90, bench: 750 }
print: { material: petg, nozzle: 0.4, layer: 0.2, bed: { x: 220, y: 220, z: 250 }, calibration: { hole: -0.15, outside: 0.06 } }
`;

export type Tree = { [key: string]: unknown };

/** A fresh copy of the sketch as plain values. */
export function sketchTree(): Tree {
  return parse(SKETCH) as Tree;
}

/** Sets the value under a full key, making groups on the way; undefined takes the key out. */
export function setKey(tree: Tree, key: string, value: unknown): void {
  const names = key.split('.');
  const last = names.pop()!;
  let at = tree;
  for (const name of names) {
    at[name] ??= {};
    at = at[name] as Tree;
  }
  if (value === undefined) delete at[last];
  else at[last] = value;
}

/** The sketch in JSON with some keys changed. */
export function sketchWith(changes: Readonly<Record<string, unknown>>): string {
  const tree = sketchTree();
  for (const [key, value] of Object.entries(changes)) setKey(tree, key, value);
  return JSON.stringify(tree, null, 2);
}
