import { type Finding, number, type Prediction } from '../../parts/index.js';
import { intendedInWords } from '../field/intended.js';
import { SeverityMark } from '../page/severity.js';
import type { Store } from '../page/store.js';
import type { MachineView } from '../worker/messages.js';
import { fullScale, ranked } from './ways-scale.js';

type Limit = Prediction['limits'][number];

/** Ways that are seen without asking for more. */
const FIRST = 3;

/** The ways by the voltage at which each gives way, the weakest first, on one scale with the voltage aimed for. */
export function WaysChart({ store, machine }: { store: Store; machine: MachineView }) {
  const { limits, discharge } = machine.prediction;
  const ways = ranked(limits);
  const full = fullScale(limits, discharge);
  const row = (limit: Limit) => (
    <Way
      key={limit.id}
      store={store}
      limit={limit}
      finding={machine.findings.find(({ id }) => id === limit.id)}
      full={full}
      discharge={discharge}
    />
  );
  const rest = ways.slice(FIRST);
  return (
    <div class="ways">
      <h3 id="ways-title">What gives way, weakest first</h3>
      <p class="small">kV: low, likely, high; dotted: the {number(discharge)} kV aimed for</p>
      <ol aria-labelledby="ways-title">{ways.slice(0, FIRST).map(row)}</ol>
      {rest.length > 0 && (
        <details>
          <summary>
            {rest.length} stronger {rest.length === 1 ? 'way' : 'ways'}
          </summary>
          <ol start={FIRST + 1} aria-label="Stronger ways">
            {rest.map(row)}
          </ol>
        </details>
      )}
    </div>
  );
}

function Way({
  store,
  limit: { id, way, voltage },
  finding,
  full,
  discharge,
}: {
  store: Store;
  limit: Limit;
  finding: Finding | undefined;
  full: number;
  discharge: number;
}) {
  const chosen = store.finding.value === id;
  const content = (
    <>
      <span class="way-name">
        {finding && (
          <>
            <SeverityMark severity={finding.severity} />
            <b class={`word ${finding.severity}`}>{finding.severity}</b>{' '}
          </>
        )}
        {way}
      </span>
      <Bar voltage={voltage} full={full} discharge={discharge} />
      <span class="way-numbers">
        <span>
          <span class="unseen">low </span>
          {number(voltage.low)}
        </span>{' '}
        <b>
          <span class="unseen">likely </span>
          {number(voltage.likely)}
        </b>{' '}
        <span>
          <span class="unseen">high </span>
          {number(voltage.high)}
        </span>{' '}
        kV
      </span>
    </>
  );
  return (
    <li data-way={id} class={chosen ? 'chosen' : undefined}>
      {finding ? (
        <button
          type="button"
          aria-pressed={chosen}
          onClick={() => store.chooseFinding(chosen ? undefined : id)}
        >
          {content}
        </button>
      ) : (
        <div title={intendedInWords(id)}>{content}</div>
      )}
    </li>
  );
}

/** From 0 to the full scale in 100 parts; what goes beyond ends in an open arrow. */
function Bar({ voltage, full, discharge }: { voltage: Limit['voltage']; full: number; discharge: number }) {
  const toX = (kilovolts: number) => 100 * Math.min(1, kilovolts / full);
  const [low, likely, high] = [voltage.low, voltage.likely, voltage.high].map(toX) as [
    number,
    number,
    number,
  ];
  return (
    <svg
      class="way-bar"
      viewBox="0 0 100 12"
      preserveAspectRatio="none"
      width="100%"
      height="12"
      aria-hidden="true"
    >
      <path class="line" d="M0 6 H100" />
      <path class="range" d={`M${low} 6 H${Math.max(high, low + 0.6)}`} />
      {voltage.high > full && <path class="more" d="M97.6 1.5 L99.6 6 L97.6 10.5" />}
      {voltage.likely <= full && <path class="likely" d={`M${likely} 1 V11`} />}
      <path class="aimed" d={`M${toX(discharge)} 0 V12`} />
    </svg>
  );
}
