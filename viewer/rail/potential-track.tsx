import { number } from '../../parts/index.js';
import { wrapped } from '../page/words.js';
import { heightInWords, roundValues } from './layout.js';
import { heightOf, legible, potentialAt, steepest } from './potential.js';
import type { Rail } from './rail.js';

/** Pixels. */
const LABEL_ROOM = 15;
const WORDS = 12;
const MOST_TICKS = 6;
/** Letters in a line of what the track rests on. */
const BASIS_LETTERS = 56;

export const potentialWidth = ({ narrow }: Rail): number => (narrow ? 46 : 136);

/** Potential outside the column, from ground to the terminal: the further right the line, the higher. */
export function PotentialTrack({ rail, width }: { rail: Rail; width: number }) {
  const { frame, unit, narrow, machine } = rail;
  const { points, basis } = machine.potential;
  const { discharge, voltage } = machine.prediction;
  const [first, last] = [points[0]!, points.at(-1)!];
  const greatest = Math.max(discharge, ...points.map(({ kilovolts }) => kilovolts));
  const least = Math.min(0, ...points.map(({ kilovolts }) => kilovolts));
  const left = narrow ? 26 : 32;
  const right = width - (narrow ? 3 : 68);
  const toX = (kilovolts: number) => left + ((right - left) * (kilovolts - least)) / (greatest - least);
  const [bottom, top] = [frame.toY(machine.extent.bottom), frame.toY(machine.extent.top)];
  // Beyond its ends the line goes on upright: the base is at ground, the terminal at one potential all over.
  const line = [
    `${toX(first.kilovolts)} ${bottom}`,
    ...points.map(({ z, kilovolts }) => `${toX(kilovolts)} ${frame.toY(z)}`),
    `${toX(last.kilovolts)} ${top}`,
  ].join(' L');
  const steep = steepest(points);
  const likely = voltage.likely < discharge ? voltage.likely : undefined;
  const aimed = likely === undefined ? undefined : `aimed for; likely ${kilovoltsInWords(likely)}`;
  const name = [
    `Potential outside the column: ${kilovoltsInWords(first.kilovolts)} at ${heightInWords(first.z, unit)} to ${kilovoltsInWords(last.kilovolts)} at ${heightInWords(last.z, unit)}`,
    ...(aimed ? [aimed] : []),
    ...(steep ? [`steepest with ${number(steep.gradient, 2)} kV/cm at ${heightInWords(steep.z, unit)}`] : []),
    basis,
  ].join(', ');
  return (
    <svg class="potential-track" role="img" aria-label={name} overflow="visible">
      <title>{name}</title>
      <path class="under" d={`M${line} L${toX(0)} ${top} L${toX(0)} ${bottom} Z`} />
      <path class="ground" d={`M${toX(0)} ${bottom} V${top}`} />
      {likely !== undefined && <path class="likely" d={`M${toX(likely)} ${bottom} V${top}`} />}
      <path class="potential" d={`M${line}`} />
      {steep && (
        <path
          class="steepest"
          d={`M${toX(potentialAt(points, steep.z))} ${frame.toY(steep.z)} m-5 0 l5 -5 l5 5 l-5 5 z`}
        />
      )}
      {!narrow && <Values rail={rail} toX={toX} />}
      <text
        class={aimed ? 'aimed' : undefined}
        x={narrow ? right : toX(discharge) + 5}
        y={narrow ? top - 6 : top + 4}
        text-anchor={narrow ? 'end' : 'start'}
      >
        {kilovoltsInWords(discharge)}
        {/* In the narrow strip there is room upwards only. */}
        {likely !== undefined &&
          ['aimed for;', 'likely', kilovoltsInWords(likely)].map((words, i) => (
            <tspan key={words} x={narrow ? right : toX(discharge) + 5} dy={i === 0 && narrow ? 16 : WORDS}>
              {words}
            </tspan>
          ))}
      </text>
      {/* The words stand along the line they speak of. */}
      <text
        class="basis"
        text-anchor="middle"
        transform={`translate(${left - 16} ${(frame.toY(first.z) + frame.toY(last.z)) / 2}) rotate(-90)`}
      >
        {wrapped(basis, BASIS_LETTERS).map((words, i) => (
          <tspan key={words} x={0} dy={i === 0 ? 0 : WORDS}>
            {words}
          </tspan>
        ))}
      </text>
    </svg>
  );
}

/** Where the potential reaches round values, and how steep it is at most: as many as are legible. */
function Values({ rail, toX }: { rail: Rail; toX: (kilovolts: number) => number }) {
  const { frame, machine } = rail;
  const { points } = machine.potential;
  const greatest = machine.prediction.discharge;
  const steep = steepest(points);
  const marks = [
    ...(steep
      ? [
          {
            y: frame.toY(steep.z),
            x: toX(potentialAt(points, steep.z)) + 4,
            text: `${number(steep.gradient, 2)} kV/cm`,
            className: 'steep',
          },
        ]
      : []),
    ...roundValues(greatest, MOST_TICKS).flatMap((kilovolts) => {
      const z = kilovolts === 0 ? points[0]!.z : heightOf(points, kilovolts);
      if (z === undefined || kilovolts === greatest) return [];
      return [{ y: frame.toY(z), x: toX(kilovolts), text: String(kilovolts), className: 'value' }];
    }),
  ];
  return (
    <>
      {legible(marks, LABEL_ROOM).map(({ x, y, text, className }) => (
        <g key={text} class={className}>
          {className === 'value' && <circle class="at" cx={x} cy={y} r={2.2} />}
          <text x={x + 5} y={y} dy="0.35em">
            {text}
          </text>
        </g>
      ))}
    </>
  );
}

const kilovoltsInWords = (value: number) => `${Math.round(value)} kV`;
