import { useSignal, useSignalEffect } from '@preact/signals';
import type { ComponentType } from 'preact';
import { isToPrint } from '../../parts/index.js';
import { Cautions } from '../panels/cautions.js';
import { Clash } from '../panels/clash.js';
import { FileBar } from '../panels/file-bar.js';
import { Findings } from '../panels/findings.js';
import { Forecast } from '../panels/forecast.js';
import { PrintList } from '../panels/print-list.js';
import { Problems } from '../panels/problems.js';
import { Stock } from '../panels/stock.js';
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
  { id: 'stock', title: 'stock', state: stockState, component: Stock },
  { id: 'print', title: 'print', state: printState, component: PrintList },
  { id: 'cautions', title: 'cautions', state: () => 'read first', component: Cautions },
];

/** Beside the picture: what the machine is, what it is expected to do, and what there is to know and to change. */
export function Sheet({ store }: { store: Store }) {
  const page = useSignal('findings');
  const machine = store.machine.value;
  useSignalEffect(() => {
    if (store.finding.value !== undefined) page.value = 'findings';
  });
  useSignalEffect(() => {
    if (store.wantedField.value !== undefined) page.value = 'stock';
  });
  return (
    <section class="side" aria-label="Notebook">
      {/* Stays in sight however far the sheet is scrolled: what concerns the file as a whole. */}
      <div class="file-head">
        <FileBar store={store} />
        <Clash store={store} />
        <Problems store={store} />
      </div>
      <div class="sheet">
        <header>
          <h1>{machine?.name ?? store.file}</h1>
        </header>
        {machine && <Forecast store={store} machine={machine} />}
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

function stockState({ changes, problems }: Store): string {
  const wrong = problems.value.length;
  if (wrong > 0) return `${wrong} wrong`;
  const count = changes.value.size;
  return count > 0 ? `${count} edited` : 'as in file';
}

function printState({ machine }: Store): string {
  const parts = machine.value?.parts ?? [];
  const again = parts.filter(({ change }) => isToPrint(change)).length;
  return again > 0 ? `${again} to print` : 'all kept';
}
