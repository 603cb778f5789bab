import { useEffect, useRef } from 'preact/hooks';
import { FieldStrip } from '../field/field-strip.js';
import { FIELD_LAYER, LAYERS } from '../scene/layers.js';
import type { SceneView } from '../scene/scene-view.js';
import { saveAs, tidyName } from './save-as.js';
import type { Store } from './store.js';

/** Degrees and share that one step of a slider is. */
const ANGLE_STEP = 1;
const SHARE_STEP = 0.005;
/** Degrees that a page key turns the cut by: from the belt's plane to the rollers' and on. */
const QUARTER = 90;

/** Under the picture: what takes the machine apart, what cuts it, what is shown, and what is measured. */
export function Dock({ store, view }: { store: Store; view: SceneView | undefined }) {
  // The drawing has its own ways of showing all and of being saved.
  const flat = !view || store.drawing.value === 'section';
  return (
    <div class="dock">
      <TakeApartSlider store={store} />
      <CutSlider store={store} />
      <FieldStrip store={store} />
      <div class="dock-row">
        <Layers store={store} />
        <button
          type="button"
          id="field"
          aria-pressed={store.fieldShown.value}
          onClick={() => store.toggleLayer(FIELD_LAYER)}
        >
          field
        </button>
        {view && <Measure store={store} view={view} disabled={flat} />}
        <button type="button" onClick={() => view?.showAll()} disabled={flat}>
          show all
        </button>
        <button type="button" onClick={() => savePicture(store, view)} disabled={flat}>
          picture
        </button>
      </div>
    </div>
  );
}

function TakeApartSlider({ store }: { store: Store }) {
  const { step } = store.moment.value;
  return (
    <div class="slider">
      <label for="apart">take apart</label>
      <input
        id="apart"
        type="range"
        min="0"
        max="1"
        step={SHARE_STEP}
        value={store.apart.value}
        aria-valuetext={
          step ? `${step.titles}, assembled: ${step.why}` : store.apart.value === 0 ? 'together' : 'apart'
        }
        onInput={({ currentTarget }) => store.setApart(Number(currentTarget.value))}
      />
      <output for="apart">
        {step ? (
          <>
            <b>
              {step.number}/{step.of} {step.titles}
            </b>{' '}
            assembled: {step.why}
          </>
        ) : store.apart.value === 0 ? (
          'together'
        ) : (
          'all apart'
        )}
      </output>
    </div>
  );
}

function CutSlider({ store }: { store: Store }) {
  const { on, angle } = store.cut.value;
  const cutting = on || store.drawing.value === 'section';
  return (
    <div class="slider">
      <label>
        <input
          id="cut-on"
          type="checkbox"
          checked={cutting}
          disabled={store.drawing.value === 'section'}
          onChange={({ currentTarget }) => store.setCut({ on: currentTarget.checked })}
        />{' '}
        cut
      </label>
      <input
        id="cut"
        type="range"
        min="0"
        max="359"
        step={ANGLE_STEP}
        value={angle}
        disabled={!cutting}
        aria-label="direction of the cut"
        aria-valuetext={`${angle} degrees from where the belt rises`}
        onInput={({ currentTarget }) => store.setCut({ angle: Number(currentTarget.value) })}
        onKeyDown={(event) => {
          const turn = { PageUp: QUARTER, PageDown: -QUARTER }[event.key];
          if (turn === undefined) return;
          event.preventDefault();
          store.setCut({ angle: (angle + turn + 360) % 360 });
        }}
      />
      <output for="cut">
        {angle}°{on && ' · clearances on the diameter, as printed'}
        {store.noScene.value === undefined && (
          <>
            <label>
              <input
                id="facing"
                type="checkbox"
                checked={store.facing.value}
                disabled={!on || store.drawing.value === 'section'}
                onChange={({ currentTarget }) => {
                  store.facing.value = currentTarget.checked;
                }}
              />{' '}
              face it
            </label>
            <label>
              <input
                id="drawing"
                type="checkbox"
                checked={store.drawing.value === 'section'}
                onChange={({ currentTarget }) =>
                  store.setDrawing(currentTarget.checked ? 'section' : 'solid')
                }
              />{' '}
              as a drawing
            </label>
          </>
        )}
      </output>
    </div>
  );
}

function Layers({ store }: { store: Store }) {
  const root = useRef<HTMLDetailsElement>(null);
  // It lies over the sliders: whoever goes on elsewhere is done with it.
  useEffect(() => {
    const away = ({ target }: Event) => {
      if (!root.current?.contains(target as Node)) root.current?.removeAttribute('open');
    };
    for (const type of ['pointerdown', 'focusin']) window.addEventListener(type, away);
    return () => {
      for (const type of ['pointerdown', 'focusin']) window.removeEventListener(type, away);
    };
  }, []);
  return (
    <details
      class="layers"
      ref={root}
      onKeyDown={({ key }) => {
        if (key !== 'Escape') return;
        root.current?.removeAttribute('open');
        root.current?.querySelector('summary')?.focus();
      }}
    >
      <summary>shown</summary>
      <fieldset>
        <legend>What is shown</legend>
        {LAYERS.map(({ id, title }) => (
          <label key={id}>
            <input
              id={`layer-${id}`}
              type="checkbox"
              checked={!store.hidden.value.has(id)}
              onChange={() => store.toggleLayer(id)}
            />{' '}
            {title}
          </label>
        ))}
      </fieldset>
    </details>
  );
}

function Measure({ store, view, disabled }: { store: Store; view: SceneView; disabled: boolean }) {
  const gap = view.gap.value;
  const count = view.picks.value.length;
  return (
    <>
      <button
        type="button"
        id="measure"
        disabled={disabled}
        aria-pressed={store.measuring.value}
        onClick={() => {
          store.measuring.value = !store.measuring.value;
        }}
      >
        distance
      </button>
      {store.measuring.value && !disabled && (
        <output class="measured" for="measure">
          {gap
            ? `${gap.distance.toFixed(2)} mm apart at the nearest, as they stand now and as drawn: what the printer adds or takes is not in it`
            : count === 1
              ? 'now the second surface'
              : 'point at a surface, or turn it to the middle and press Enter in the picture'}
        </output>
      )}
    </>
  );
}

async function savePicture(store: Store, view: SceneView | undefined): Promise<void> {
  if (!view) return;
  saveAs(`${tidyName(store.shown.value?.name ?? 'machine')}.png`, await view.picture());
}
