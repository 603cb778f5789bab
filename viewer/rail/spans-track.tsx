import { cssColour } from '../page/colour.js';
import { lookOf } from '../scene/look.js';
import { packLanes, placeNames } from './layout.js';
import { Option } from './option.js';
import type { Rail } from './rail.js';

/** Pixels. */
const LEAST_BAR = 5;
const LANE_GAP = 3;
const NAME_HEIGHT = 14;
const NAMES = 106;
const EDGE = 8;

/** What all lanes together take at most, so that the rail leaves room for the picture. */
const MOST_LANES = 110;
const LEAST_PITCH = 6;
const BETWEEN = 2;

/** From one lane to the next: closer where there are many. */
const pitchOf = ({ narrow }: Rail, lanes: number) =>
  Math.max(LEAST_PITCH, Math.min(narrow ? 7 : 10, Math.floor(MOST_LANES / Math.max(1, lanes))));

/** Bars as they are drawn: never thinner than a hand can hit. */
function barsOf({ spans, frame }: Rail) {
  return spans.map(({ stretch }) => {
    const [top, bottom] = [frame.toY(stretch.high), frame.toY(stretch.low)];
    const missing = Math.max(0, LEAST_BAR - (bottom - top)) / 2;
    return { low: top - missing, high: bottom + missing };
  });
}

function lanesOf(rail: Rail): number[] {
  return packLanes(barsOf(rail), LANE_GAP);
}

const count = (lanes: readonly number[]) => Math.max(0, ...lanes.map((lane) => lane + 1));

export function spansWidth(rail: Rail): number {
  const lanes = count(lanesOf(rail));
  return EDGE + lanes * pitchOf(rail, lanes) + (rail.narrow ? 2 : NAMES);
}

/** Each piece as a bar from its lowest to its highest point: printed ones in their colour, bought ones in outline. */
export function SpansTrack({ rail }: { rail: Rail; width: number }) {
  const { spans, store, narrow } = rail;
  if (spans.length === 0) return null;
  const bars = barsOf(rail);
  const lanes = packLanes(bars, LANE_GAP);
  const pitch = pitchOf(rail, count(lanes));
  const barWidth = pitch - BETWEEN;
  const names = narrow ? [] : placeNames(bars, NAME_HEIGHT);
  // A name stands right of all bars that are at its height.
  const nameX = (at: number) =>
    EDGE +
    4 +
    pitch *
      Math.max(
        ...bars.map(({ low, high }, i) =>
          low < at + NAME_HEIGHT / 2 && high > at - NAME_HEIGHT / 2 ? lanes[i]! + 1 : 0,
        ),
      );
  const { hover, piece } = store;
  return (
    <g class="spans-track" role="listbox" aria-label="Pieces by height">
      {spans.map((item, i) => {
        const printed = item.pieces[0]!.printed;
        const lit = item.pieces.some(({ id }) => id === hover.value);
        const chosen = item.pieces.some(({ id }) => id === piece.value);
        const { low: y, high } = bars[i]!;
        const x = EDGE + lanes[i]! * pitch;
        const colour = printed ? cssColour(lookOf(item.pieces[0]!).colour) : undefined;
        return (
          <Option
            key={item.id}
            rail={rail}
            item={item}
            chosen={chosen}
            className={`span ${printed ? 'printed' : 'bought'}${lit ? ' lit' : ''}`}
            onPointerEnter={() => {
              hover.value = item.pieces[0]!.id;
            }}
            onPointerLeave={() => {
              hover.value = undefined;
            }}
          >
            <rect class="hit" x={x - BETWEEN / 2} y={y - 1} width={pitch} height={high - y + 2} />
            <rect
              class="bar"
              x={x}
              y={y}
              width={barWidth}
              height={high - y}
              rx={1.5}
              {...(colour && { fill: colour })}
            />
            {names[i] !== undefined && (
              <text x={nameX(names[i]!)} y={names[i]} dy="0.35em">
                {item.title}
              </text>
            )}
          </Option>
        );
      })}
    </g>
  );
}
