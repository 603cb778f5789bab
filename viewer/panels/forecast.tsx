import { number, type Prediction, QUANTITIES, type Quantity } from '../../parts/index.js';
import type { Store } from '../page/store.js';
import type { MachineView } from '../worker/messages.js';
import { SparksTable } from './sparks-table.js';
import { WaysChart } from './ways-chart.js';

/** Rows that are seen at once; the others are unfolded. */
const ROWS = 7;
const FIRST = QUANTITIES.slice(0, ROWS);
const MORE = QUANTITIES.slice(ROWS);

/** What the machine is expected to do: each quantity as a range, with what it depends on most. */
export function Forecast({ store, machine }: { store: Store; machine: MachineView }) {
  const { prediction } = machine;
  const { discharge, voltage } = prediction;
  return (
    <section class="forecast" aria-labelledby="forecast-title">
      <h2 id="forecast-title">Forecast</h2>
      <p class="limits">
        Limited by <b>{prediction.limiting}</b>; meant to discharge at <b>{number(discharge)} kV</b>
        {voltage.likely < discharge && `, more than the likely ${number(voltage.likely)} kV`}
        {prediction.polarity === 'unknown' ? '' : `, terminal ${prediction.polarity}`}.
      </p>
      <Table quantities={FIRST} prediction={prediction} />
      {MORE.length > 0 && (
        <details class="more">
          <summary>and {MORE.length} more</summary>
          <Table quantities={MORE} prediction={prediction} />
        </details>
      )}
      <SparksTable sparks={prediction.sparks} />
      <details class="rests-on">
        <summary>what each depends on most</summary>
        <dl>
          {QUANTITIES.map(([key, name]) => (
            <div key={key}>
              <dt>{name}</dt>
              <dd>{prediction[key].dominated_by}</dd>
            </div>
          ))}
        </dl>
        <ul>
          {prediction.basis.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </details>
      <WaysChart store={store} machine={machine} />
    </section>
  );
}

function Table({
  quantities,
  prediction,
}: {
  quantities: readonly (typeof QUANTITIES)[number][];
  prediction: Prediction;
}) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">
            <span class="unseen">quantity</span>
          </th>
          <td />
          <th scope="col">low</th>
          <th scope="col">likely</th>
          <th scope="col">high</th>
          <th scope="col">
            <span class="unseen">unit</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {quantities.map(([key, name]) => (
          <Row key={key} id={key} name={name} quantity={prediction[key]} />
        ))}
      </tbody>
    </table>
  );
}

function Row({ id, name, quantity }: { id: string; name: string; quantity: Quantity }) {
  const { low, likely, high, unit, dominated_by } = quantity;
  return (
    <tr id={`forecast-${id}`} title={`depends most on: ${dominated_by}`}>
      <th scope="row">{name}</th>
      <td class="spread">
        <Spread quantity={quantity} />
      </td>
      <td>{number(low)}</td>
      <td class="likely">{number(likely)}</td>
      <td>{number(high)}</td>
      <td class="unit">{unitInPrint(unit)}</td>
    </tr>
  );
}

/** Pixels that the highest value takes. */
const SPREAD = 46;

/** How far apart low and high are, on a scale from nothing to high. */
function Spread({ quantity: { low, likely, high } }: { quantity: Quantity }) {
  const toX = (value: number) => (high > 0 && Number.isFinite(high) ? 1 + (SPREAD * value) / high : 1);
  return (
    <svg width={SPREAD + 2} height={12} aria-hidden="true">
      <path class="line" d={`M1 3 V9 M1 6 H${SPREAD + 1}`} />
      <path class="range" d={`M${toX(low)} 6 H${toX(high)}`} />
      <path class="likely" d={`M${toX(likely)} 1 V11`} />
    </svg>
  );
}

const unitInPrint = (unit: string) => unit.replace(/^u(?=[A-Z])/, 'µ');
