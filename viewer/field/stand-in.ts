import type { Machine } from '../../parts/index.js';

export interface FieldPicture {
  readonly voltage: number;
  readonly bound: 'polarised' | 'graded';
  readonly critical: number;
  readonly grid: {
    readonly radius: number;
    readonly bottom: number;
    readonly top: number;
    readonly columns: number;
    readonly rows: number;
    readonly share: Float32Array;
  };
  readonly lines: readonly Float32Array[];
  readonly weakest: {
    readonly id: string;
    readonly title: string;
    readonly at: readonly [r: number, z: number];
  };
  readonly idealised: readonly string[];
}

export function fieldPicture(
  machine: Machine,
  { voltage, bound }: { voltage: number; bound: 'polarised' | 'graded' },
): FieldPicture {
  const { terminal, plate } = machine;
  const a = terminal.diameter.mean / 2;
  const bottom = -plate.thickness - plate.feet;
  const top = terminal.topZ + a;
  const radius = 2.4 * a;
  const [columns, rows] = [141, 241];
  const share = new Float32Array(columns * rows);
  const image = 2 * bottom - terminal.centreZ;
  const critical = 2.95e6;
  const fieldAt = (r: number, z: number) => {
    const [up, down] = [z - terminal.centreZ, z - image];
    const [p, q] = [Math.hypot(r, up) ** 3, Math.hypot(r, down) ** 3];
    return [voltage * a * (r / p - r / q) * 1000, voltage * a * (up / p - down / q) * 1000] as const;
  };
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) {
      const r = (radius * i) / (columns - 1);
      const z = bottom + ((top - bottom) * j) / (rows - 1);
      const from = Math.hypot(r, z - terminal.centreZ);
      const inPlate = r < plate.diameter / 2 && z < 0 && z > -plate.thickness;
      const f = Math.hypot(...fieldAt(r, z)) / critical;
      share[j * columns + i] =
        inPlate || (from < a && from > a - 4)
          ? Number.NaN
          : from < a
            ? 0.02
            : (bound === 'graded' ? 1.1 : 1.2) * f;
    }
  const lines = Array.from({ length: 14 }, (_, n) => {
    const angle = (Math.PI * (n + 0.5)) / 14;
    let [r, z] = [a * Math.sin(angle), terminal.centreZ + a * Math.cos(angle)];
    const points = [r, z];
    for (let k = 0; k < 400 && r < radius && z > bottom && z < top && r >= 0; k++) {
      const [x, y] = fieldAt(r, z);
      const size = Math.hypot(x, y);
      r += (4 * x) / size;
      z += (4 * y) / size;
      points.push(r, z);
    }
    return Float32Array.from(points);
  });
  return {
    voltage,
    bound,
    critical,
    grid: { radius, bottom, top, columns, rows, share },
    lines,
    weakest: { id: 'way/terminal-body', title: 'terminal into the air', at: [0, terminal.topZ] },
    idealised: ['a stand-in'],
  };
}
