import { cutDirections, type Finding, type Loop } from '../../parts/index.js';
import { cssColour } from '../page/colour.js';
import { SHAPES } from '../page/severity.js';
import { SCALE_UNITS, scaleUnitOf, stepOf } from '../rail/layout.js';
import { layerOf } from '../scene/layers.js';
import { lookOf, type Palette } from '../scene/look.js';
import type { MachineView, PieceView, Section } from '../worker/messages.js';
import { type DrawnField, FieldDrawn, fieldInWords, WeakestDrawn } from './field-drawn.js';
import type { FitLabel } from './labels.js';
import type { ViewBox } from './view-box.js';

/** What the drawing needs to know; the same for the page and for a file of its own. */
export interface SheetContent {
  readonly machine: MachineView;
  readonly section: Section;
  readonly hidden: ReadonlySet<string>;
  readonly palette: Palette;
  readonly view: ViewBox;
  /** mm of the drawing that one pixel (of lines and letters) takes. */
  readonly perPixel: number;
  readonly labels: readonly FitLabel[];
  /** Labels as numbers in rings instead of words. */
  readonly numbers: boolean;
  readonly field?: DrawnField | undefined;
  readonly hover?: string | undefined;
  readonly piece?: string | undefined;
  readonly finding?: Finding | undefined;
  readonly onHover?: (piece: string | undefined) => void;
  readonly onChoose?: (piece: string) => void;
}

const FONT = 'system-ui, sans-serif';

/** The inside of the section drawing: everything by attributes, so that it stands by itself in a file. */
export function SectionSheet(content: SheetContent) {
  const { machine, section, hidden, palette, labels, field, perPixel } = content;
  const pieces = new Map(machine.pieces.map((piece) => [piece.id, piece]));
  const cut = section.faces.flatMap(({ piece: id, loops }, i) => {
    const piece = pieces.get(id);
    return piece && loops.length > 0 && !hidden.has(layerOf(piece)) ? [{ piece, loops, number: i }] : [];
  });
  return (
    <g font-family={FONT} fill={cssColour(palette.ink)} stroke-linejoin="round">
      <defs>
        {cut.map(({ piece, number }) => (
          <Hatch key={piece.id} content={content} piece={piece} number={number} />
        ))}
      </defs>
      {field && <FieldDrawn field={field} palette={palette} perPixel={perPixel} />}
      <CentreLine {...content} />
      {cut.map(({ piece, loops, number }) => (
        <CutPiece key={piece.id} content={content} piece={piece} loops={loops} number={number} />
      ))}
      {field && <WeakestDrawn field={field} palette={palette} perPixel={perPixel} />}
      {content.finding && <FindingMark content={content} finding={content.finding} />}
      {labels.map((label) => (
        <Label key={label.id} content={content} label={label} />
      ))}
      <Caption {...content} />
      <ScaleBar {...content} />
    </g>
  );
}

/** Lines that fill a piece: slanting the other way from neighbour to neighbour, closer in what is bought. */
function Hatch({
  content: { perPixel, palette },
  piece,
  number,
}: {
  content: SheetContent;
  piece: PieceView;
  number: number;
}) {
  const pitch = (piece.printed ? 6 + (number % 3) * 1.5 : 4 + (number % 2)) * perPixel;
  return (
    <pattern
      id={`hatch-${number}`}
      patternUnits="userSpaceOnUse"
      width={pitch}
      height={pitch}
      patternTransform={`rotate(${number % 2 ? 45 : -45})`}
    >
      <rect width={pitch} height={pitch} fill={cssColour(lookOf(piece).colour)} />
      <line
        x1={0}
        x2={0}
        y1={0}
        y2={pitch}
        stroke={cssColour(palette.edge)}
        stroke-opacity={0.6}
        stroke-width={1.5 * perPixel}
      />
    </pattern>
  );
}

function CutPiece({
  content: { perPixel, palette, hover, piece: chosen, onHover, onChoose },
  piece,
  loops,
  number,
}: {
  content: SheetContent;
  piece: PieceView;
  loops: readonly Loop[];
  number: number;
}) {
  const marked = piece.id === chosen || piece.id === hover;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: rail and lists offer the same to keys
    <path
      data-piece={piece.id}
      d={loops.map(loopPath).join('')}
      fill={`url(#hatch-${number})`}
      fill-rule="evenodd"
      opacity={chosen === undefined || piece.id === chosen ? 1 : 0.35}
      stroke={cssColour(marked ? palette.accent : palette.ink)}
      stroke-width={(marked ? 2.4 : 0.9) * perPixel}
      onPointerEnter={onHover && (() => onHover(piece.id))}
      onPointerLeave={onHover && (() => onHover(undefined))}
      onClick={onChoose && (() => onChoose(piece.id))}
    >
      <title>{piece.title}</title>
    </path>
  );
}

/** Heights count upwards, a drawing’s lines downwards; a micrometre is fine enough. */
function loopPath(loop: Loop): string {
  return `M${loop.map(([along, z]) => `${along.toFixed(3)} ${(-z).toFixed(3)}`).join('L')}Z`;
}

function CentreLine({ machine, perPixel, palette }: SheetContent) {
  const { bottom, top, radius } = machine.extent;
  const dashes = [14, 3, 2, 3].map((length) => length * perPixel).join(' ');
  const over = 14 * perPixel;
  const common = { stroke: cssColour(palette.ink), 'stroke-width': 0.8 * perPixel };
  return (
    <g>
      <line x1={0} x2={0} y1={-top - over} y2={-bottom + over} stroke-dasharray={dashes} {...common} />
      <line x1={-radius - over} x2={radius + over} y1={-bottom} y2={-bottom} {...common} />
      <text x={-radius - over} y={-bottom + 12 * perPixel} font-size={10 * perPixel}>
        bench
      </text>
    </g>
  );
}

/** The chosen finding: its way seen from the front, or its place. */
function FindingMark({
  content: { section, palette, perPixel },
  finding: { at, severity, title },
}: {
  content: SheetContent;
  finding: Finding;
}) {
  if (!at) return null;
  const { along } = cutDirections(section.angle);
  const seen = ('path' in at ? at.path : [at.point]).map(
    (point) => [point[0] * along[0] + point[1] * along[1], -point[2]] as const,
  );
  const colour = cssColour(palette.severity[severity]);
  const [x, y] = seen[Math.floor((seen.length - 1) / 2)]!;
  const { path, filled } = SHAPES[severity];
  return (
    <g pointer-events="none">
      <title>{title}</title>
      {seen.length > 1 && (
        <path
          d={`M${seen.map((point) => point.join(' ')).join('L')}`}
          fill="none"
          stroke={colour}
          stroke-width={3 * perPixel}
          stroke-dasharray={`${8 * perPixel} ${4 * perPixel}`}
        />
      )}
      <g transform={`translate(${x} ${y}) scale(${1.3 * perPixel})`}>
        <circle r={11} fill={cssColour(palette.paper)} stroke={colour} stroke-width={1.2} />
        <path
          d={path}
          fill={filled ? colour : 'none'}
          stroke={filled ? 'none' : colour}
          stroke-width={2}
          transform="scale(0.85)"
        />
      </g>
    </g>
  );
}

function Label({
  content: { perPixel, palette, numbers },
  label,
}: {
  content: SheetContent;
  label: FitLabel;
}) {
  const { side, point, x, y, width, height, title, clearance, number } = label;
  const knee = x - side * 10 * perPixel;
  const ink = cssColour(palette.ink);
  const left = side > 0 ? x : x - width;
  return (
    <g data-fit={label.id} pointer-events="none">
      <path
        d={`M${point[0]} ${point[1]}L${knee} ${y}H${x}`}
        fill="none"
        stroke={ink}
        stroke-width={0.9 * perPixel}
      />
      <circle cx={point[0]} cy={point[1]} r={2.4 * perPixel} />
      {numbers ? (
        <>
          <circle
            cx={x + (side * width) / 2}
            cy={y}
            r={width / 2}
            fill={cssColour(palette.paper)}
            stroke={ink}
            stroke-width={perPixel}
          />
          <text
            x={x + (side * width) / 2}
            y={y + 4 * perPixel}
            font-size={11 * perPixel}
            text-anchor="middle"
          >
            {number}
          </text>
        </>
      ) : (
        <>
          <rect
            x={left}
            y={y - height / 2 + perPixel}
            width={width}
            height={height - 2 * perPixel}
            fill={cssColour(palette.paper)}
            fill-opacity={0.88}
          />
          <text
            x={x + side * 4 * perPixel}
            y={y - 2 * perPixel}
            font-size={11.5 * perPixel}
            text-anchor={side > 0 ? 'start' : 'end'}
          >
            {title}
            <tspan x={x + side * 4 * perPixel} dy={13 * perPixel} font-size={11 * perPixel}>
              {clearance}
            </tspan>
          </text>
        </>
      )}
    </g>
  );
}

function Caption({ machine, section, view, perPixel, numbers, palette, field }: SheetContent) {
  const x = view.x + view.width - 14 * perPixel;
  const y = view.y + 24 * perPixel;
  const lines = numbers
    ? [`section, ${section.angle}°`]
    : [
        machine.name,
        'section through the axis',
        `${section.angle}° from where the belt rises`,
        ...(field ? fieldInWords(field) : []),
      ];
  return (
    <text
      x={x}
      y={y}
      font-size={11 * perPixel}
      text-anchor="end"
      pointer-events="none"
      paint-order="stroke"
      stroke={cssColour(palette.paper)}
      stroke-width={field ? 3 * perPixel : 0}
    >
      {lines.map((line, i) => (
        <tspan key={line} x={x} dy={(i === 0 ? 0 : 15) * perPixel} font-size={(i === 0 ? 14 : 11) * perPixel}>
          {line}
        </tspan>
      ))}
    </text>
  );
}

/** Pixels that the scale bar is long at least. */
const BAR = 70;

function ScaleBar({ machine, view, perPixel, palette }: SheetContent) {
  const unit = scaleUnitOf(machine.units);
  const step = stepOf(unit, BAR * perPixel);
  const length = step * SCALE_UNITS[unit].length;
  const right = view.x + view.width - 14 * perPixel;
  const y = view.y + view.height - 16 * perPixel;
  const [tall, half] = [5 * perPixel, length / 2];
  const ink = cssColour(palette.ink);
  return (
    <g pointer-events="none">
      <rect x={right - length} y={y - tall} width={half} height={tall} />
      <rect
        x={right - length}
        y={y - tall}
        width={length}
        height={tall}
        fill="none"
        stroke={ink}
        stroke-width={perPixel}
      />
      <text x={right} y={y - tall - 5 * perPixel} font-size={11 * perPixel} text-anchor="end">
        {step} {unit}
      </text>
    </g>
  );
}
