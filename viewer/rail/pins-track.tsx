import { SeverityShape } from '../page/severity.js';
import { Hidden } from './hidden.js';
import { middleOf, type PinItem } from './items.js';
import { dodge, packLanes } from './layout.js';
import { Option } from './option.js';
import type { Rail } from './rail.js';

/** Pixels. */
const AXIS = 9;
const TICK = 5;
const BAR_PITCH = 5;
const PIN = 24;

export const pinsWidth = ({ narrow }: Rail): number => (narrow ? 44 : 58);

/** Findings at their height: those that need a hand as pins that can be pressed, the others as small marks. */
export function PinsTrack({ rail, width }: { rail: Rail; width: number }) {
  const { pins, frame, store } = rail;
  const chosen = store.finding.value;
  const pressed = rail.pressable;
  const at = pressed.map((item) => frame.toY(middleOf(item)));
  const places = dodge(at, PIN, { low: PIN / 2 + 16, high: frame.pixels - PIN / 2 - 2 });
  const long = pressed.filter(isLong);
  const lanes = packLanes(
    long.map(({ stretch }) => ({ low: frame.toY(stretch.high), high: frame.toY(stretch.low) })),
    4,
  );
  const bars = new Map(long.map((item, i) => [item.id, AXIS + 3 + lanes[i]! * BAR_PITCH]));
  const pinX = width - PIN / 2 - 1;
  return (
    <g class="pins-track">
      <Hidden>
        <line class="line" x1={AXIS} x2={AXIS} y1={0} y2={frame.pixels} />
        {pins
          .filter(({ severity }) => severity === 'ok')
          .map((item) => {
            const y = frame.toY(middleOf(item));
            return <line key={item.id} class="ok-tick" x1={AXIS - TICK} x2={AXIS} y1={y} y2={y} />;
          })}
      </Hidden>
      {pressed.length > 0 && (
        <g role="listbox" aria-label="Findings by height">
          {pressed.map((item, i) => {
            const y = places[i]!;
            const bar = bars.get(item.id);
            return (
              <Option
                key={item.id}
                rail={rail}
                item={item}
                chosen={item.finding.id === chosen}
                className={`pin ${item.severity}`}
              >
                <path class="leader" d={`M${bar ?? AXIS} ${at[i]} L${pinX - 15} ${y} H${pinX - 9}`} />
                {bar !== undefined && (
                  <line
                    class="way"
                    x1={bar}
                    x2={bar}
                    y1={frame.toY(item.stretch.high)}
                    y2={frame.toY(item.stretch.low)}
                  />
                )}
                <rect class="hit" x={pinX - PIN / 2} y={y - PIN / 2} width={PIN} height={PIN} />
                <g transform={`translate(${pinX} ${y})`}>
                  <SeverityShape severity={item.severity} />
                </g>
              </Option>
            );
          })}
        </g>
      )}
    </g>
  );
}

const isLong = ({ stretch }: PinItem) => stretch.high - stretch.low > 1;
