import { heightInWords, roundValues } from './layout.js';
import type { Rail } from './rail.js';

/** Pixels. */
const TICK_ROOM = 46;
const WORDS = 12;
const MOST_TICKS = 4;

export const potentialWidth = ({ narrow }: Rail): number => (narrow ? 46 : 116);

/** Potential outside the column, from ground to the terminal: the further right the line, the higher. */
export function PotentialTrack({ rail, width }: { rail: Rail; width: number }) {
  const { frame, unit, narrow, machine } = rail;
  const { points, basis } = machine.potential;
  const [first, last] = [points[0]!, points.at(-1)!];
  const left = narrow ? 26 : 32;
  const right = width - (narrow ? 3 : 46);
  const toX = (kilovolts: number) => left + ((right - left) * kilovolts) / (last.kilovolts || 1);
  // Beyond its ends the line goes on upright: the base is at ground, the terminal at one potential all over.
  const line = [
    `${toX(first.kilovolts)} ${frame.toY(machine.extent.bottom)}`,
    ...points.map(({ z, kilovolts }) => `${toX(kilovolts)} ${frame.toY(z)}`),
    `${toX(last.kilovolts)} ${frame.toY(machine.extent.top)}`,
  ].join(' L');
  const length = frame.toY(first.z) - frame.toY(last.z);
  const values = roundValues(
    last.kilovolts,
    Math.min(MOST_TICKS, Math.max(1, Math.floor(length / TICK_ROOM))),
  );
  const name = `Potential outside the column: 0 kV at ${heightInWords(first.z, unit)} to ${kilovoltsInWords(last.kilovolts)} at ${heightInWords(last.z, unit)}, ${basis}`;
  return (
    <svg class="potential-track" role="img" aria-label={name} overflow="visible">
      <title>{name}</title>
      <path
        class="under"
        d={`M${line} L${left} ${frame.toY(machine.extent.top)} L${left} ${frame.toY(machine.extent.bottom)} Z`}
      />
      <path
        class="ground"
        d={`M${left} ${frame.toY(machine.extent.bottom)} V${frame.toY(machine.extent.top)}`}
      />
      <path class="potential" d={`M${line}`} />
      {!narrow &&
        [...values.filter((value) => last.kilovolts - value > values[1]! / 2), last.kilovolts].map(
          (value) => {
            const y = frame.toY(heightOf(points, value));
            return (
              <g key={value}>
                <circle class="at" cx={toX(value)} cy={y} r={2.2} />
                <text x={toX(value) + 5} y={y} dy="0.35em">
                  {value === last.kilovolts ? kilovoltsInWords(value) : value}
                </text>
              </g>
            );
          },
        )}
      {narrow && (
        <text x={right} y={frame.toY(machine.extent.top) - 6} text-anchor="end">
          {kilovoltsInWords(last.kilovolts)}
        </text>
      )}
      {/* The words stand along the line they speak of. */}
      <text
        class="basis"
        text-anchor="middle"
        transform={`translate(${left - 16} ${(frame.toY(first.z) + frame.toY(last.z)) / 2}) rotate(-90)`}
      >
        {basis.split(': ').map((words, i, all) => (
          <tspan key={words} x={0} dy={i === 0 ? 0 : WORDS}>
            {i < all.length - 1 ? `${words}:` : words}
          </tspan>
        ))}
      </text>
    </svg>
  );
}

const kilovoltsInWords = (value: number) => `${Math.round(value)} kV`;

/** Where the potential reaches a value, mm: between two points it rises evenly. */
function heightOf(points: Rail['machine']['potential']['points'], kilovolts: number): number {
  const above = Math.max(
    1,
    points.findIndex((point) => point.kilovolts >= kilovolts),
  );
  const [a, b] = [points[above - 1]!, points[above]!];
  const rise = b.kilovolts - a.kilovolts;
  return rise === 0 ? a.z : a.z + ((b.z - a.z) * (kilovolts - a.kilovolts)) / rise;
}
