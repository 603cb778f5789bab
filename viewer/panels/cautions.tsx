import { CAUTIONS, DISCHARGE, type Finding, findingNumbers, number } from '../../parts/index.js';
import { SeverityMark } from '../page/severity.js';
import type { Store } from '../page/store.js';

/** What to do before touching, what is stored beside what is published about it, and the usual cautions. */
export function Cautions({ store }: { store: Store }) {
  const machine = store.machine.value;
  const stored = machine?.findings.filter(({ id }) => id.startsWith('energy/')) ?? [];
  return (
    <div class="cautions">
      <h3>Before touching anything</h3>
      <ol>
        {DISCHARGE.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ol>
      {machine && (
        <>
          <h3>What this machine stores</h3>
          <ul class="stored">
            {stored.map((finding) => (
              <Stored key={finding.id} finding={finding} />
            ))}
          </ul>
          <p class="small">
            At the voltages of the forecast it would be{' '}
            {(['energy', 'energy_with_person'] as const).map((key, i) => {
              const { low, likely, high, unit } = machine.prediction[key];
              return `${i > 0 ? '; with a person on the terminal ' : ''}${number(low)} to ${number(high)} ${unit}, likely ${number(likely)} ${unit}`;
            })}
            .
          </p>
        </>
      )}
      <h3>Cautions</h3>
      <ul>
        {CAUTIONS.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
}

function Stored({ finding }: { finding: Finding }) {
  const { measured, bound, unit } = findingNumbers(finding);
  return (
    <li>
      <SeverityMark severity={finding.severity} />
      <span class="title">
        <b class={`word ${finding.severity}`}>{finding.severity}</b> {finding.title}
      </span>
      <span class="numbers">
        <b>
          {measured} {unit}
        </b>{' '}
        beside {bound} {unit}
      </span>
      <span class="small">
        {finding.basis} [{finding.status}]
      </span>
    </li>
  );
}
