import { useEffect, useRef, useState } from 'preact/hooks';
import { cutDirections, fitInWords, type Vec3 } from '../../parts/index.js';
import { useMedia, useSize } from '../page/measure.js';
import type { Store } from '../page/store.js';
import { frameOf } from '../rail/layout.js';
import { NARROW } from '../rail/rail.js';
import { LINES_LAYER } from '../scene/layers.js';
import { PALETTES } from '../scene/look.js';
import type { MachineView, Section } from '../worker/messages.js';
import type { DrawnField } from './field-drawn.js';
import { numberedFits, placeLabels } from './labels.js';
import { saveSection } from './save-section.js';
import { SectionSheet } from './section-sheet.js';
import { extentOf, homeView, moved, type ViewBox, zoomed } from './view-box.js';

/** Share by which one press comes nearer, and by which one notch of a wheel does. */
const NEARER = 0.8;
const NOTCH = 0.0015;
/** Share of the picture that an arrow key moves it by. */
const STEP = 0.1;
/** Share of the whole that is seen around a place. */
const CLOSE = 0.35;
/** Pixels the pointer may move and still mean a point. */
const STEADY = 5;

/** The machine cut through its axis as a drawing: in place of the picture, or where there can be none. */
export function SectionDrawing({ store }: { store: Store }) {
  const host = useRef<HTMLDivElement>(null);
  const size = useSize(host);
  const machine = store.shown.value;
  const section = store.section.value;
  const rail = host.current?.closest('.picture')?.querySelector('.rail')?.clientWidth ?? 0;
  return (
    <div class="drawing">
      <div class="drawing-field" ref={host}>
        {machine && section && size.height > 0 && (
          <Field store={store} machine={machine} section={section} size={size} rail={rail} />
        )}
      </div>
      {machine && section && <FitList machine={machine} section={section} />}
    </div>
  );
}

function Field({
  store,
  machine,
  section,
  size,
  rail,
}: {
  store: Store;
  machine: MachineView;
  section: Section;
  size: { readonly width: number; readonly height: number };
  rail: number;
}) {
  const narrow = useMedia(NARROW);
  const dark = useMedia('(prefers-color-scheme: dark)');
  const field = useRef<HTMLDivElement>(null);
  const [own, setOwn] = useState<ViewBox | undefined>(undefined);
  const drag = useRef<{ x: number; y: number; far: boolean } | undefined>(undefined);
  const apart = store.apart.value > 0;
  const { bottom, top } = machine.extent;
  const frame = frameOf({ low: bottom, high: top }, size.height);
  const extent = extentOf(machine, section, apart);
  const home = homeView(extent, size, rail, frame.scale, frame.stretch.high);
  // A picture of another shape shows the same from its left upper corner on.
  const view = own ? { ...own, height: (own.width * size.height) / size.width } : home;
  const perPixel = view.width / size.width;
  const fits = !apart && !store.hidden.value.has('fits');
  const labels = fits ? placeLabels(machine, section, view, perPixel, rail, narrow) : [];
  const drawnField = fieldOf(store);
  const middle = [view.x + ((rail + size.width) / 2) * perPixel, view.y + view.height / 2] as const;
  const latest = useRef({ view, home, size });
  latest.current = { view, home, size };

  useEffect(() => {
    const host = field.current!;
    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      const { view: now, home: whole, size: pixels } = latest.current;
      const { left, top: above } = host.getBoundingClientRect();
      const scale = now.width / pixels.width;
      const about = [
        now.x + (event.clientX - left) * scale,
        now.y + (event.clientY - above) * scale,
      ] as const;
      setOwn(zoomed(now, Math.exp(event.deltaY * NOTCH), about, whole));
    };
    host.addEventListener('wheel', wheel, { passive: false });
    return () => host.removeEventListener('wheel', wheel);
  }, []);

  const finding = store.chosenFinding.value;
  useEffect(() => {
    // A place is looked at from near, a way as a whole; letting go leaves the view as it is.
    const at = finding?.at;
    if (at) setOwn('point' in at ? around(at.point, section.angle, latest.current, rail) : undefined);
  }, [finding?.id]);

  const key = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const keys: Readonly<Record<string, () => void>> = {
      '+': () => setOwn(zoomed(view, NEARER, middle, home)),
      '=': () => setOwn(zoomed(view, NEARER, middle, home)),
      '-': () => setOwn(zoomed(view, 1 / NEARER, middle, home)),
      ArrowLeft: () => setOwn(moved(view, -STEP, 0)),
      ArrowRight: () => setOwn(moved(view, STEP, 0)),
      ArrowUp: () => setOwn(moved(view, 0, -STEP)),
      ArrowDown: () => setOwn(moved(view, 0, STEP)),
      Home: () => setOwn(undefined),
      Escape: () => {
        store.chooseFinding(undefined);
        store.choosePiece(undefined);
      },
    };
    const act = keys[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  };
  const pull = (event: PointerEvent) => {
    const from = drag.current;
    if (!from || event.buttons === 0) return;
    const [right, down] = [event.clientX - from.x, event.clientY - from.y];
    if (!from.far && Math.hypot(right, down) < STEADY) return;
    drag.current = { x: event.clientX, y: event.clientY, far: true };
    setOwn(moved(view, -right / size.width, -down / size.height));
  };
  const choose = (piece: string) => {
    if (!drag.current?.far) store.choosePiece(piece === store.piece.value ? undefined : piece);
  };

  return (
    <>
      <div
        class="drawing-paper"
        ref={field}
        role="application"
        aria-label={FIELD_LABEL}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: an application takes keys
        tabIndex={0}
        onKeyDown={key}
        onPointerDown={(event) => {
          drag.current = { x: event.clientX, y: event.clientY, far: false };
        }}
        onPointerMove={pull}
      >
        <svg
          width={size.width}
          height={size.height}
          viewBox={`${view.x} ${view.y} ${view.width} ${view.height}`}
          role="img"
          aria-label={`${machine.name}, section through the axis`}
        >
          <SectionSheet
            {...{ machine, section, view, perPixel, labels }}
            hidden={store.hidden.value}
            palette={PALETTES[dark ? 'dark' : 'light']}
            numbers={narrow}
            field={drawnField}
            hover={store.hover.value}
            piece={store.piece.value}
            finding={finding}
            onHover={(piece) => {
              store.hover.value = piece;
            }}
            onChoose={choose}
          />
        </svg>
      </div>
      <div class="drawing-tools" style={{ left: narrow ? undefined : `${rail + 12}px` }}>
        <button type="button" onClick={() => setOwn(zoomed(view, NEARER, middle, home))}>
          nearer
        </button>
        <button type="button" onClick={() => setOwn(zoomed(view, 1 / NEARER, middle, home))}>
          farther
        </button>
        <button type="button" onClick={() => setOwn(undefined)}>
          all of it
        </button>
        <button
          type="button"
          id="save-drawing"
          title="save the drawing as .svg, at true size"
          onClick={() => saveSection(machine, section, store.hidden.value, apart, drawnField)}
        >
          drawing
        </button>
      </div>
    </>
  );
}

/** The field where it is to be seen; it belongs to the machine in one piece. */
function fieldOf({ field, fieldShown, apart, hidden }: Store): DrawnField | undefined {
  const picture = field.picture.value;
  if (!picture || !fieldShown.value || apart.value > 0) return undefined;
  return { picture, scale: field.scale.value, lines: !hidden.value.has(LINES_LAYER) };
}

/** The view in which a place lies in the middle of what the rail leaves free. */
function around(
  point: Vec3,
  angle: number,
  { home, size }: { readonly home: ViewBox; readonly size: { readonly width: number } },
  rail: number,
): ViewBox {
  const { along } = cutDirections(angle);
  const [width, height] = [home.width * CLOSE, home.height * CLOSE];
  const x = point[0] * along[0] + point[1] * along[1];
  return {
    x: x - ((rail + size.width) / 2) * (width / size.width),
    y: -point[2] - height / 2,
    width,
    height,
  };
}

/** The fits in words, numbered as in the drawing: for narrow pages, and for whoever does not see it. */
function FitList({ machine, section }: { machine: MachineView; section: Section }) {
  // Only where it is seen it scrolls, and only then keys have to get there.
  const narrow = useMedia(NARROW);
  return (
    <ol class="fit-list" aria-label="Fits in this section" tabIndex={narrow ? 0 : undefined}>
      {numberedFits(machine, section).map(({ fit, number }) => (
        <li key={fit.id} value={number}>
          {fit.title}: {fitInWords(fit)}
        </li>
      ))}
    </ol>
  );
}

const FIELD_LABEL =
  'Section drawing. Plus and minus come nearer and go farther, arrow keys move it, Home shows all of it.';
