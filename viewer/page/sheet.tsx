import { useSignal, useSignalEffect } from '@preact/signals';
import type { ComponentType } from 'preact';
import { Cautions } from '../panels/cautions.js';
import { Findings } from '../panels/findings.js';
import { Forecast } from '../panels/forecast.js';
import type { Store } from './store.js';
import { Tabs } from './tabs.js';

/** One page of the sheet. Adding a page means adding it here. */
export interface SheetPage {
  readonly id: string;
  readonly title: string;
  /** Under the title: how things stand on that page. */
  state(store: Store): string;
  readonly component: ComponentType<{ readonly store: Store }>;
}

const PAGES: readonly SheetPage[] = [
  { id: 'findings', title: 'findings', state: findingsState, component: Findings },
  { id: 'cautions', title: 'cautions', state: () => 'read first', component: Cautions },
];

/** Beside the picture: what the machine is, what it is expected to do, and what there is to know and to change. */
export function Sheet({ store }: { store: Store }) {
  const page = useSignal('findings');
  const machine = store.machine.value;
  useSignalEffect(() => {
    if (store.finding.value !== undefined) page.value = 'findings';
  });
  return (
    <section class="side" aria-label="Notebook">
      <div class="sheet">
        {/* Above the name: what concerns the file as a whole. */}
        <header>
          <h1>{machine?.name ?? store.file}</h1>
        </header>
        {machine && <Forecast machine={machine} />}
        <Tabs store={store} pages={PAGES} page={page} />
      </div>
      <p class="always">
        <span class="says">These machines shock and can hurt.</span>
        <button
          type="button"
          onClick={() => {
            page.value = 'cautions';
            requestAnimationFrame(() => document.getElementById('tab-cautions')?.focus());
          }}
        >
          cautions
        </button>
      </p>
    </section>
  );
}

function findingsState({ machine }: Store): string {
  if (!machine.value) return 'none yet';
  const { findings } = machine.value;
  const count = (severity: string) => findings.filter((finding) => finding.severity === severity).length;
  const grave = ['danger', 'caution'].flatMap((severity) =>
    count(severity) > 0 ? [`${count(severity)} ${severity}`] : [],
  );
  return (grave.length > 0 ? grave : [`${count('ok')} ok`]).join(', ');
}
