import { cssColour } from '../page/colour.js';
import { type FieldPalette, LEVELS, rampAt, shareInWords } from './ramp.js';

/** Pixels: of the ramp from 0 to 100 %, of what lies beyond it, and how high it is. */
const RAMP = 200;
const BEYOND = 40;
const TALL = 16;
/** Pieces that the ramp is drawn in. */
const PIECES = 50;

/** Where a share stands on the key: small ones get more room, since most of the picture is there. */
const toX = (share: number) => 1 + RAMP * Math.sqrt(share);

/** The ramp with its levels. The words beside it say what it means. */
export function FieldKey({ palette }: { palette: FieldPalette }) {
  const { beyond, levels } = palette;
  return (
    <svg
      class="field-key"
      width={RAMP + BEYOND + 12}
      height={TALL + 20}
      role="img"
      aria-label={`From clear to violet: 0 to 100 % of the field that ionises air, with lines at ${LEVELS.map(shareInWords).join(', ')}; hatched beyond.`}
    >
      <defs>
        <pattern
          id="field-beyond"
          patternUnits="userSpaceOnUse"
          width={7}
          height={7}
          patternTransform="rotate(45)"
        >
          <rect width={7} height={7} fill={cssColour(beyond.ground)} />
          <rect width={3.5} height={7} fill={cssColour(beyond.stripe)} />
        </pattern>
      </defs>
      {Array.from({ length: PIECES }, (_, i) => {
        const [from, to] = [(i / PIECES) ** 2, ((i + 1) / PIECES) ** 2];
        const [red, green, blue, cover] = rampAt(palette, (from + to) / 2);
        const bytes = [red, green, blue].map((value) => Math.round(255 * value));
        return (
          <rect
            key={from}
            x={toX(from)}
            y={1}
            width={toX(to) - toX(from) + 0.3}
            height={TALL}
            fill={`rgb(${bytes.join(' ')})`}
            fill-opacity={cover}
          />
        );
      })}
      <rect x={toX(1)} y={1} width={BEYOND} height={TALL} fill="url(#field-beyond)" />
      <rect class="frame" x={1} y={1} width={RAMP + BEYOND} height={TALL} />
      {LEVELS.map((level, i) => (
        <g key={level}>
          <path
            d={`M${toX(level)} 1 V${TALL + 1}`}
            stroke={cssColour(levels[i]!)}
            stroke-width={level === 1 ? 3 : 2}
          />
          <text x={toX(level)} y={TALL + 15} text-anchor="middle">
            {shareInWords(level)}
          </text>
        </g>
      ))}
    </svg>
  );
}
