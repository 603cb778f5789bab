import { useMemo } from 'preact/hooks';
import { type FieldPicture, number } from '../../parts/index.js';
import { contourLines, type Grid, onBothSides, type PlaneLine } from '../field/contours.js';
import { type FieldPalette, LEVELS, rampAt } from '../field/ramp.js';
import { cssColour } from '../page/colour.js';
import { wrapped } from '../page/words.js';
import type { Palette } from '../scene/look.js';

/** The solved field as the drawing shows it. */
export interface DrawnField {
  readonly picture: FieldPicture;
  /** What its shares are multiplied by. */
  readonly scale: number;
  readonly lines: boolean;
}

/** Pixels. */
const LEVEL_WIDTHS = [0.9, 1.1, 1.4, 2.2] as const;
const FIELD_LINE_WIDTH = 0.8;
/** Letters in a line of the weakest place’s name. */
const LETTERS = 24;

/** The field behind the cut faces: colour as an image, its levels and lines as paths. mm of the drawing. */
export function FieldDrawn({
  field: { picture, scale, lines },
  palette,
  perPixel,
}: {
  field: DrawnField;
  palette: Palette;
  perPixel: number;
}) {
  const { grid } = picture;
  const image = useMemo(() => paintedImage(grid, scale, palette.field), [grid, scale, palette.field]);
  const levels = useMemo(
    () => LEVELS.map((level) => (scale > 0 ? pathOf(contourLines(grid, level / scale)) : '')),
    [grid, scale],
  );
  return (
    <g class="field-drawn" pointer-events="none" fill="none">
      <image
        href={image}
        x={-grid.radius}
        y={-grid.top}
        width={2 * grid.radius}
        height={grid.top - grid.bottom}
        preserveAspectRatio="none"
      />
      {levels.map((path, i) => (
        <path
          key={LEVELS[i]}
          data-level={LEVELS[i]}
          d={path}
          stroke={cssColour(palette.field.levels[i]!)}
          stroke-width={LEVEL_WIDTHS[i]! * perPixel}
        />
      ))}
      {lines && (
        <path
          class="field-lines"
          d={pathOf(onBothSides(picture.lines))}
          stroke={cssColour(palette.field.fieldLine)}
          stroke-width={FIELD_LINE_WIDTH * perPixel}
        />
      )}
    </g>
  );
}

/** The weakest place with its name, over the cut faces. */
export function WeakestDrawn({
  field: { picture },
  palette,
  perPixel,
}: {
  field: DrawnField;
  palette: Palette;
  perPixel: number;
}) {
  const { at, title } = picture.weakest;
  const [x, y] = [-at[0], -at[1]];
  const ink = cssColour(palette.ink);
  return (
    <g class="weakest-drawn" pointer-events="none">
      <circle
        cx={x}
        cy={y}
        r={7 * perPixel}
        fill={cssColour(palette.paper)}
        fill-opacity={0.7}
        stroke={ink}
        stroke-width={2 * perPixel}
      />
      <text
        x={x - 12 * perPixel}
        y={y - 2 * perPixel}
        font-size={11.5 * perPixel}
        text-anchor="end"
        paint-order="stroke"
        stroke={cssColour(palette.paper)}
        stroke-width={4 * perPixel}
      >
        <tspan font-weight={650}>weakest</tspan>
        {wrapped(title, LETTERS).map((line) => (
          <tspan key={line} x={x - 12 * perPixel} dy={13 * perPixel}>
            {line}
          </tspan>
        ))}
      </text>
    </g>
  );
}

/** What the colour and its lines are, for a drawing that stands by itself. */
export function fieldInWords({ picture, scale }: DrawnField): string[] {
  const levels = LEVELS.map((level) => 100 * level).join(', ');
  return [
    `field at ${number((scale * picture.voltage) / 1000)} kV:`,
    `lines at ${levels} % of what ionises air`,
  ];
}

/** Heights count upwards, a drawing’s lines downwards. */
function pathOf(lines: readonly PlaneLine[]): string {
  return lines
    .map((line) => {
      const points: string[] = [];
      for (let i = 0; i + 1 < line.length; i += 2) {
        points.push(`${line[i]!.toFixed(2)} ${(-line[i + 1]!).toFixed(2)}`);
      }
      return points.length > 1 ? `M${points.join('L')}` : '';
    })
    .join('');
}

/** A pixel for each cell, on either side of the axis, as an address. What lies next to metal is carried on into it. */
function paintedImage(grid: Grid, scale: number, palette: FieldPalette): string {
  const { columns, rows } = grid;
  const canvas = document.createElement('canvas');
  canvas.width = 2 * columns;
  canvas.height = rows;
  const pen = canvas.getContext('2d')!;
  const image = pen.createImageData(canvas.width, canvas.height);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const share = valueNear(grid, column, row);
      if (share === undefined) continue;
      const painted = paintOf(palette, scale * share);
      for (const side of [columns + column, columns - 1 - column]) {
        image.data.set(painted, 4 * ((rows - 1 - row) * canvas.width + side));
      }
    }
  }
  pen.putImageData(image, 0, 0);
  return canvas.toDataURL('image/png');
}

function paintOf(palette: FieldPalette, share: number): number[] {
  const { beyond } = palette;
  if (share <= 1) return rampAt(palette, share).map((value) => Math.round(255 * value));
  return [...[16, 8, 0].map((shift) => (beyond.stripe >> shift) & 255), 245];
}

/** The value of a cell, in metal that of a neighbour in air. */
function valueNear({ columns, rows, share }: Grid, column: number, row: number): number | undefined {
  for (const [right, up] of [
    [0, 0],
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    const [x, y] = [column + right, row + up];
    if (x < 0 || x >= columns || y < 0 || y >= rows) continue;
    const value = share[y * columns + x]!;
    if (!Number.isNaN(value)) return value;
  }
  return undefined;
}
