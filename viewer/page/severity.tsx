import type { Severity } from '../../parts/index.js';

/** One shape for each severity, in a box from -8 to 8; told apart by outline alone. */
interface Shape {
  readonly path: string;
  readonly filled: boolean;
}

export const SHAPES: Readonly<Record<Severity, Shape>> = {
  // A spark: solid, jagged.
  danger: { path: 'M2.6 -8.6 L-6.4 1.3 L-1.4 1.7 L-3.9 8.6 L6.4 -2.2 L1 -2.3 Z', filled: true },
  // A wedge: open, pointing down.
  caution: { path: 'M-6.6 -5.4 L6.6 -5.4 L0 6.6 Z', filled: false },
  // A small ring.
  ok: { path: 'M3.4 0 A3.4 3.4 0 1 1 -3.4 0 A3.4 3.4 0 1 1 3.4 0 Z', filled: false },
};

/** The shape as part of a drawing, its middle at 0, 0. */
export function SeverityShape({ severity }: { severity: Severity }) {
  const { path, filled } = SHAPES[severity];
  return <path class={`shape ${severity} ${filled ? 'filled' : 'open'}`} d={path} />;
}

/** The shape in a line of text; the word stands beside it. */
export function SeverityMark({ severity }: { severity: Severity }) {
  return (
    <svg class="severity-mark" viewBox="-9 -9 18 18" width="18" height="18" aria-hidden="true">
      <SeverityShape severity={severity} />
    </svg>
  );
}

/** The shapes as images for style sheets: what the scene’s pins are cut out with. */
export function shapeVariables(): Record<string, string> {
  return Object.fromEntries(
    Object.entries(SHAPES).map(([severity, { path, filled }]) => {
      const paint = filled ? 'fill="#000"' : 'fill="none" stroke="#000" stroke-width="2.6"';
      const image = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-9 -9 18 18"><path ${paint} stroke-linejoin="round" d="${path}"/></svg>`;
      return [`--shape-${severity}`, `url("data:image/svg+xml,${encodeURIComponent(image)}")`];
    }),
  );
}
