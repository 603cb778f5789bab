import { useMemo, useRef, useState } from 'preact/hooks';
import { useMedia, useSize } from '../page/measure.js';
import type { Store } from '../page/store.js';
import type { MachineView } from '../worker/messages.js';
import { Hidden } from './hidden.js';
import { itemBeside, type PinItem, pinItems, type RailItem, type SpanItem, spanItems } from './items.js';
import { type Frame, frameOf, type ScaleUnit, scaleUnitOf } from './layout.js';
import { TRACKS } from './tracks.js';

/** Width of the page (px) below which the rail makes itself small: what it leaves of the picture would be too little. */
export const NARROW = '(max-width: 1239px)';

/** What every track draws from. */
export interface Rail {
  readonly store: Store;
  readonly machine: MachineView;
  readonly frame: Frame;
  readonly unit: ScaleUnit;
  readonly narrow: boolean;
  readonly spans: readonly SpanItem[];
  readonly pins: readonly PinItem[];
  /** Those of the pins that can be pressed: what needs a hand, and what is chosen. */
  readonly pressable: readonly PinItem[];
  /** The item that the tab key leads to. */
  readonly active: string | undefined;
  choose(item: RailItem): void;
  /** @param byKey the focus is to be seen, and so are the item’s words */
  focus(item: RailItem, byKey: boolean): void;
  blur(): void;
  /** Shows an item’s words beside the rail. */
  tell(item: RailItem | undefined): void;
}

/** Heights of everything, along the left edge of the picture. Stays as assembled while the machine is taken apart. */
export function HeightRail({ store }: { store: Store }) {
  const host = useRef<HTMLDivElement>(null);
  const { height } = useSize(host);
  const machine = store.shown.value;
  return (
    <div class="rail" ref={host}>
      {machine && height > 0 && <Tracks store={store} machine={machine} height={height} />}
    </div>
  );
}

function Tracks({ store, machine, height }: { store: Store; machine: MachineView; height: number }) {
  const narrow = useMedia(NARROW);
  const root = useRef<SVGSVGElement>(null);
  const [active, setActive] = useState<string | undefined>(undefined);
  const [told, setTold] = useState<RailItem | undefined>(undefined);
  const meshes = store.meshes.value;
  const unit = scaleUnitOf(machine.units);
  const spans = useMemo(() => spanItems(machine, meshes, unit), [machine, meshes, unit]);
  const pins = useMemo(() => pinItems(machine, unit), [machine, unit]);
  const frame = useMemo(
    () => frameOf({ low: machine.extent.bottom, high: machine.extent.top }, height),
    [machine, height],
  );
  const chosen = store.finding.value;
  const pressable = pins.filter(({ severity, finding }) => severity !== 'ok' || finding.id === chosen);
  const items: readonly RailItem[] = [...spans, ...pressable];
  const rail: Rail = {
    store,
    machine,
    frame,
    unit,
    narrow,
    spans,
    pins,
    pressable,
    active: (items.find(({ id }) => id === active) ?? items[0])?.id,
    choose: (item) => choose(store, item),
    focus: (item, byKey) => {
      setActive(item.id);
      if (byKey) setTold(item);
      if (item.track === 'spans') store.hover.value = item.pieces[0]!.id;
    },
    blur: () => {
      setTold(undefined);
      store.hover.value = undefined;
    },
    tell: setTold,
  };
  let x = 0;
  const laid = TRACKS.map((track) => {
    const width = track.width(rail);
    const at = x;
    x += width;
    return { track, width, at };
  });

  const key = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const from = items.find(({ id }) => id === rail.active);
    if (!from) return;
    switch (event.key) {
      case 'ArrowUp':
      case 'ArrowDown':
      case 'ArrowLeft':
      case 'ArrowRight':
      case 'Home':
      case 'End': {
        const next = itemBeside(items, from, event.key);
        root.current?.querySelector<SVGElement>(`[data-item="${CSS.escape(next.id)}"]`)?.focus();
        break;
      }
      case 'Enter':
      case ' ':
        choose(store, from);
        break;
      case 'Escape':
        store.chooseFinding(undefined);
        store.choosePiece(undefined);
        break;
      default:
        return;
    }
    event.preventDefault();
    // What was let go of may be gone from the rail, and with it the focus.
    requestAnimationFrame(() => {
      if (document.activeElement !== document.body) return;
      root.current?.querySelector<SVGElement>('[tabindex="0"]')?.focus();
    });
  };

  return (
    <>
      <svg
        ref={root}
        role="toolbar"
        aria-label="Height rail"
        aria-orientation="vertical"
        width={x}
        height={height}
        onKeyDown={key}
      >
        {laid.map(({ track, width, at }) => (
          <g key={track.id} transform={`translate(${at} 0)`}>
            <track.component rail={rail} width={width} />
            {!narrow && (
              <Hidden>
                <text class="track-title" x={track.id === 'scale' ? 2 : 7} y={13}>
                  {track.title}
                </text>
              </Hidden>
            )}
          </g>
        ))}
      </svg>
      {told && <Words item={told} frame={frame} left={x} />}
    </>
  );
}

/** The words of what the pointer or the focus is on; a copy of its accessible name. */
function Words({ item, frame, left }: { item: RailItem; frame: Frame; left: number }) {
  const y = frame.toY((item.stretch.low + item.stretch.high) / 2);
  return (
    <p class="rail-words" aria-hidden="true" style={{ top: `${Math.round(y)}px`, left: `${left + 4}px` }}>
      {item.name}
    </p>
  );
}

/** Choosing what is chosen already lets go of it. */
function choose(store: Store, item: RailItem): void {
  if (item.track === 'pins') {
    store.chooseFinding(item.finding.id === store.finding.value ? undefined : item.finding.id);
  } else {
    const isChosen = item.pieces.some(({ id }) => id === store.piece.value);
    store.choosePiece(isChosen ? undefined : item.pieces[0]!.id);
  }
}
