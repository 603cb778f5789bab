import { type Bound, type FieldPicture, number } from '../../parts/index.js';
import { useMedia } from '../page/measure.js';
import type { Store } from '../page/store.js';
import { heightInWords, scaleUnitOf } from '../rail/layout.js';
import { LINES_LAYER } from '../scene/layers.js';
import { PALETTES } from '../scene/look.js';
import { highestOf } from './contours.js';
import { FieldKey } from './field-key.js';
import { intendedInWords } from './intended.js';
import { shareInWords } from './ramp.js';

/** The two things that the column can do to the field; what a real one does lies between them. */
const BOUNDS: readonly { readonly bound: Bound; readonly title: string }[] = [
  { bound: 'polarised', title: 'column clean: polarised only' },
  { bound: 'graded', title: 'column leaks: graded evenly' },
];

/** How far above what is expected the voltage can be set. */
const BEYOND = 1.5;
/** kV: with nothing on the terminal there is nothing to show. */
const LEAST = 1;

/** What the field on the cut means, and for which voltage and which column it is shown. */
export function FieldStrip({ store }: { store: Store }) {
  const dark = useMedia('(prefers-color-scheme: dark)');
  const { field } = store;
  if (!store.fieldShown.value) return null;
  const picture = field.picture.value;
  return (
    <div class="field-strip">
      <Voltage store={store} />
      <p class="field-choices">
        <label>
          <span class="unseen">what the column does to the field</span>
          <select
            id="field-bound"
            value={field.bound.value}
            onChange={({ currentTarget }) => {
              field.bound.value = currentTarget.value as Bound;
            }}
          >
            {BOUNDS.map(({ bound, title }) => (
              <option key={bound} value={bound}>
                {title}
              </option>
            ))}
          </select>
        </label>
        <label>
          <input
            id="field-lines"
            type="checkbox"
            checked={!store.hidden.value.has(LINES_LAYER)}
            onChange={() => store.toggleLayer(LINES_LAYER)}
          />{' '}
          lines
        </label>
      </p>
      <figure class="field-meaning">
        <FieldKey palette={PALETTES[dark ? 'dark' : 'light'].field} />
        <figcaption>
          {picture ? <Meaning store={store} picture={picture} /> : <Missing store={store} />}
        </figcaption>
      </figure>
    </div>
  );
}

function Voltage({ store }: { store: Store }) {
  const { field } = store;
  const machine = store.shown.value;
  if (!machine) return null;
  const { discharge, voltage } = machine.prediction;
  const kilovolts = field.voltage.value;
  const most = Math.ceil((BEYOND * Math.max(discharge, voltage.likely)) / 10) * 10;
  const set = (value: number | undefined) => {
    field.chosenVoltage.value = value;
  };
  return (
    <div class="slider">
      <label for="field-voltage">field at</label>
      <input
        id="field-voltage"
        type="range"
        min={LEAST}
        max={Math.max(most, Math.ceil(kilovolts))}
        step="any"
        value={kilovolts}
        aria-valuetext={`${number(kilovolts)} kilovolts on the terminal`}
        onInput={({ currentTarget }) => set(Math.max(LEAST, Math.round(Number(currentTarget.value))))}
        onKeyDown={(event) => {
          const step = KEY_STEPS[event.key];
          if (step === undefined) return;
          event.preventDefault();
          set(Math.min(most, Math.max(LEAST, Math.round(kilovolts) + step)));
        }}
      />
      <output for="field-voltage">
        <b>{number(kilovolts)} kV</b>
        {field.chosenVoltage.value === undefined ? (
          'where it is meant to discharge'
        ) : (
          <button type="button" id="field-voltage-back" onClick={() => set(undefined)}>
            back to {number(discharge)} kV
          </button>
        )}
      </output>
    </div>
  );
}

/** kV that a key changes the voltage by. */
const KEY_STEPS: Readonly<Record<string, number>> = {
  ArrowLeft: -1,
  ArrowDown: -1,
  ArrowRight: 1,
  ArrowUp: 1,
  PageDown: -10,
  PageUp: 10,
};

function Meaning({ store, picture }: { store: Store; picture: FieldPicture }) {
  const { field } = store;
  const machine = store.shown.value!;
  const unit = scaleUnitOf(machine.units);
  const { weakest, critical, grid, idealised } = picture;
  const highest = highestOf(grid);
  const isFinding = machine.findings.some(({ id }) => id === weakest.id);
  const intended = intendedInWords(weakest.id);
  return (
    <>
      <p>
        Colour: the field as a share of {number(critical / 1e5)} kV/cm, at which air of this density ionises,
        with the terminal at {number(field.voltage.value)} kV.{' '}
        <b>Hatched, over 100 %: air ionises there; that is not yet a spark across.</b>
        {highest &&
          ` Highest in the picture: ${shareInWords(highest.share * field.scale.value)}, at a height of ${heightInWords(highest.at[1], unit)}.`}
      </p>
      <p class="field-weakest">
        Weakest place:{' '}
        {isFinding ? (
          <button
            type="button"
            aria-pressed={store.finding.value === weakest.id}
            onClick={() => store.chooseFinding(store.finding.value === weakest.id ? undefined : weakest.id)}
          >
            {weakest.title}
          </button>
        ) : (
          <b title={intended}>{weakest.title}</b>
        )}
        {!isFinding && intended && ` (${intended})`} at a height of {heightInWords(weakest.at[1], unit)}.
        {field.solving.value && <i> Solving it anew.</i>}
        {store.apart.value > 0 && <i> Put the machine together to see it.</i>}
      </p>
      {idealised.length > 0 && (
        <details>
          <summary>what is idealised</summary>
          <ul>
            {idealised.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function Missing({ store }: { store: Store }) {
  const { failure } = store.field;
  return <p>{failure.value ? `The field could not be solved: ${failure.value}` : 'Solving the field.'}</p>;
}
