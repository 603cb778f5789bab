import { Hidden } from './hidden.js';
import { heightTicks } from './layout.js';
import type { Rail } from './rail.js';

/** Pixels that a number of the scale needs. */
const LABEL_ROOM = 44;
const MAJOR = 9;
const MINOR = 4;

export const scaleWidth = ({ narrow }: Rail): number => (narrow ? 42 : 58);

/** The scale of heights, zero on the plate’s top, and a bracket around what the picture shows. */
export function ScaleTrack({ rail, width }: { rail: Rail; width: number }) {
  const { frame, unit, narrow, store } = rail;
  const ticks = heightTicks(frame.stretch, unit, LABEL_ROOM / frame.scale);
  const line = width - 1;
  return (
    <Hidden className="scale-track">
      <line class="line" x1={line} x2={line} y1={0} y2={frame.pixels} />
      {ticks.map(({ at, label, major }) => {
        const y = frame.toY(at);
        return (
          <g key={at} class={label === '0' ? 'zero' : undefined}>
            <line class="line" x1={line - (major ? MAJOR : MINOR)} x2={line} y1={y} y2={y} />
            {/* A number that the strip's end would cut is left out. */}
            {major && y > 24 && y < frame.pixels - 8 && (
              <text x={line - MAJOR - 3} y={y} dy="0.35em" text-anchor="end">
                {label === '0' && !narrow ? `0 ${unit}` : label}
              </text>
            )}
          </g>
        );
      })}
      {narrow && (
        <text x={line - MAJOR - 3} y={14} text-anchor="end">
          {unit}
        </text>
      )}
      {store.drawing.value === 'solid' && <Bracket rail={rail} x={3} />}
    </Hidden>
  );
}

function Bracket({ rail: { frame, store }, x }: { rail: Rail; x: number }) {
  const heights = store.heights.value;
  if (!heights) return null;
  const edge = (z: number) => Math.min(frame.pixels - 2, Math.max(2, frame.toY(z)));
  const [low, high] = [edge(heights[0]), edge(heights[1])];
  return <path class="in-picture" d={`M${x + 5} ${high} H${x} V${low} H${x + 5}`} />;
}
