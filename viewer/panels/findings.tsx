import { useEffect, useRef, useState } from 'preact/hooks';
import { type Finding, findingNumbers, SEVERITIES, type Severity, type Trial } from '../../parts/index.js';
import { SeverityMark } from '../page/severity.js';
import type { Store } from '../page/store.js';
import type { MachineView } from '../worker/messages.js';
import { outcomeInWords } from './outcome.js';

/** Every finding, the gravest first; the chosen one opens in its place. */
export function Findings({ store }: { store: Store }) {
  const root = useRef<HTMLDivElement>(null);
  const [okOpen, setOkOpen] = useState(false);
  const machine = store.machine.value;
  const chosen = store.finding.value;
  const attempt = useOutcome(store, root);
  const chosenIsOk = store.chosenFinding.value?.severity === 'ok';
  useEffect(() => {
    if (chosen !== undefined) bringIntoView(root.current!, chosen);
  }, [chosen, chosenIsOk]);
  if (!machine) return <p class="nothing">No machine is read yet, so nothing is judged.</p>;

  const groups = SEVERITIES.map((severity) => ({
    severity,
    findings: machine.findings.filter((finding) => finding.severity === severity),
  }));
  const list = (findings: readonly Finding[]) => (
    <ul>
      {findings.map((finding) => (
        <Item
          key={finding.id}
          finding={finding}
          open={finding.id === chosen}
          onChoose={() => store.chooseFinding(finding.id === chosen ? undefined : finding.id)}
          onTry={(trial) => attempt(finding, trial)}
        />
      ))}
    </ul>
  );
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrows are a shortcut between the buttons within
    <div
      class="findings"
      ref={root}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && chosen !== undefined) letGo(store, root.current!, chosen);
        else moveOn(event, root.current!);
      }}
    >
      <MeasureWays store={store} />
      {groups.map(({ severity, findings }) =>
        severity === 'ok' ? (
          <details
            key={severity}
            open={okOpen || chosenIsOk}
            onToggle={({ currentTarget }) => {
              setOkOpen(currentTarget.open);
              // Folded away, the chosen one is let go of.
              if (!currentTarget.open && chosenIsOk) store.chooseFinding(undefined);
            }}
          >
            <summary>
              <h3 class="severity" tabIndex={-1}>
                <SeverityMark severity={severity} />
                {severity} <span class="count">{findings.length}</span>
              </h3>
            </summary>
            {list(findings)}
          </details>
        ) : (
          <section key={severity}>
            <h3 class="severity" tabIndex={-1}>
              <SeverityMark severity={severity} />
              {severity} <span class="count">{findings.length}</span>
            </h3>
            {list(findings)}
          </section>
        ),
      )}
    </div>
  );
}

/** Clearance and creepage on the solids take some seconds: they are measured when they are asked for. */
function MeasureWays({ store: { ways } }: { store: Store }) {
  const wanted = ways.wanted.value;
  const told = ways.done ? 'Ways are measured on the solids' : 'Measuring ways on the solids …';
  return (
    <p class="measure-ways" role="status">
      {wanted ? (
        told
      ) : (
        <button type="button" class="try" onClick={() => (ways.wanted.value = true)}>
          measure ways on the solids
        </button>
      )}
    </p>
  );
}

function Item({
  finding,
  open,
  onChoose,
  onTry,
}: {
  finding: Finding;
  open: boolean;
  onChoose: () => void;
  onTry: (trial: Trial) => void;
}) {
  const { id, severity, title } = finding;
  const { measured, bound, unit, spare } = findingNumbers(finding);
  return (
    <li class={`finding ${severity}${open ? ' open' : ''}`}>
      <button type="button" data-finding={id} aria-expanded={open} onClick={onChoose}>
        <SeverityMark severity={severity} />
        <span class="title">
          <Word severity={severity} /> {title}
        </span>
        <span class="numbers">
          <b>
            {measured} {unit}
          </b>
          <span>{bound}</span>
          <span>{spare}</span>
        </span>
      </button>
      {open && <Details finding={finding} onTry={onTry} />}
    </li>
  );
}

function Word({ severity }: { severity: Severity }) {
  return <b class={`word ${severity}`}>{severity}</b>;
}

function Details({ finding, onTry }: { finding: Finding; onTry: (trial: Trial) => void }) {
  const { at, basis, status, remedy, tries = [] } = finding;
  const { measured, bound, unit, spare } = findingNumbers(finding);
  const rows: readonly (readonly [string, string])[] = [
    ['measured', `${measured} ${unit}`],
    ['required', `${bound} ${unit}`],
    ['margin', spare || 'none can be told: nothing is required'],
    ...(at && 'path' in at ? [['runs along', at.surfaces.join(' → ')] as const] : []),
    ['basis', `${basis} [${status}]`],
    ...(remedy ? [['remedy', remedy] as const] : []),
  ];
  return (
    <div class="details">
      <dl>
        {rows.map(([name, text]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      {tries.map((trial) => (
        <button key={trial.what} type="button" class="try" onClick={() => onTry(trial)}>
          try it: {trial.what}
        </button>
      ))}
    </div>
  );
}

/** Tries remedies, and once the machine is judged anew says what came of it and puts the focus where it was. */
function useOutcome(store: Store, root: { readonly current: HTMLElement | null }) {
  const tried = useRef<{ finding: Finding; on: MachineView['findings'] | undefined } | undefined>(undefined);
  const machine = store.machine.value;
  const problems = store.problems.value;
  useEffect(() => {
    const before = tried.current;
    if (!before || !root.current) return;
    const refused = problems.length > 0;
    // What is only placed anew still has the findings of before.
    if (!refused && machine?.findings === before.on) return;
    if (!refused && store.ways.awaits(before.finding.id)) return;
    tried.current = undefined;
    store.notice.value = refused
      ? `${before.finding.id}: the file was refused with the change; undo takes it back`
      : outcomeInWords(before.finding, machine?.findings ?? []);
    // The button that was pressed may be gone, and with it the focus.
    if (document.activeElement === document.body || document.activeElement === null) {
      const id = CSS.escape(before.finding.id);
      const next = root.current.querySelector<HTMLElement>(`[data-finding="${id}"]`);
      (next ?? root.current.querySelector<HTMLElement>('h3'))?.focus();
    }
  }, [machine, problems]);
  return (finding: Finding, trial: Trial) => {
    tried.current = { finding, on: store.machine.value?.findings };
    try {
      store.tryRemedy(trial);
    } catch (error) {
      tried.current = undefined;
      store.notice.value = (error as Error).message;
    }
  };
}

/** Chosen elsewhere it may lie outside of what the sheet shows. A page in one column stays with its picture. */
function bringIntoView(root: HTMLElement, id: string): void {
  const item = root.querySelector<HTMLElement>(`[data-finding="${CSS.escape(id)}"]`)?.parentElement;
  if (!item || item.contains(document.activeElement)) return;
  if (getComputedStyle(item.closest('.sheet')!).overflowY === 'visible') return;
  const calm = matchMedia('(prefers-reduced-motion: reduce)').matches;
  item.scrollIntoView({ block: 'nearest', behavior: calm ? 'instant' : 'smooth' });
}

/** The focus may be on what opened under the finding: it goes back to the finding itself. */
function letGo(store: Store, root: HTMLElement, id: string): void {
  root.querySelector<HTMLElement>(`[data-finding="${CSS.escape(id)}"]`)?.focus();
  store.chooseFinding(undefined);
}

/** Up and down lead from finding to finding. */
function moveOn(event: KeyboardEvent, root: HTMLElement): void {
  const step = { ArrowUp: -1, ArrowDown: 1 }[event.key];
  if (step === undefined || !(event.target as HTMLElement).matches('[data-finding]')) return;
  const all = [...root.querySelectorAll<HTMLElement>('[data-finding]')].filter((item) =>
    item.checkVisibility(),
  );
  all[all.indexOf(event.target as HTMLElement) + step]?.focus();
  event.preventDefault();
}
