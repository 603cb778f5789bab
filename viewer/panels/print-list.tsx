import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { hoursText, isToPrint, type Verdict } from '../../parts/index.js';
import { saveAs } from '../page/save-as.js';
import type { Store } from '../page/store.js';
import type { MachineView, PartView, PrintView } from '../worker/messages.js';

/** In the order in which they matter. */
const VERDICTS: readonly Verdict[] = ['print again', 'print more', 'new', 'keep'];

/** One shape for each verdict, in a box from -8 to 8. */
const SHAPES: Readonly<Record<Verdict, string>> = {
  'print again': 'M-6 0 A6 6 0 1 0 0 -6 H4 M1 -9 L4.5 -6 L1 -3',
  'print more': 'M-3 -7 V3 M-8 -2 H2 M4 0 V8 M0 4 H8',
  new: 'M0 -7 V7 M-7 0 H7',
  keep: 'M-6 0 L-2 4.5 L6 -5',
  'no longer needed': 'M-5 -5 L5 5 M5 -5 L-5 5',
};

const CLASSES: Readonly<Record<Verdict, string>> = {
  'print again': 'again',
  'print more': 'more',
  new: 'new',
  keep: 'keep',
  'no longer needed': 'gone',
};

/** Every part to be printed: what it is, whether it has to be printed again, and its file. */
export function PrintList({ store }: { store: Store }) {
  const said = useSignal('');
  const machine = store.machine.value;
  const shown = store.shown.value;
  useEffect(() => {
    if (shown) void store.measurePrints();
  }, [store, shown]);
  if (!machine) return <p class="nothing">No machine yet.</p>;
  const parts = VERDICTS.flatMap((verdict) =>
    machine.parts.filter(({ change }) => change.verdict === verdict),
  );
  const fetch = async (part: string | undefined) => {
    const name = part === undefined ? 'the zip' : `${part}.stl`;
    said.value = `making ${name}`;
    try {
      const file = await store.files(part);
      saveAs(file.name, new Blob([file.bytes as Uint8Array<ArrayBuffer>]));
      said.value = `${file.name} is made, see the browser’s downloads`;
    } catch (error) {
      said.value = `${name} could not be made: ${(error as Error).message}`;
    }
  };
  return (
    <div class="print-list">
      <p>{againstInWords(machine, store.file)}</p>
      {store.problems.value.length > 0 && (
        <p class="stale">Something is wrong in the values: these parts are the last right machine’s.</p>
      )}
      <p class="all-files">
        <button type="button" id="stl-all" onClick={() => void fetch(undefined)}>
          all as zip
        </button>
        <span role="status">{said.value}</span>
      </p>
      <ul>
        {parts.map((part) => (
          <PartItem key={part.id} store={store} part={part} onFile={() => void fetch(part.id)} />
        ))}
        {machine.gone.map((id) => (
          <li key={id} class="part gone">
            <p class="head">
              <Mark verdict="no longer needed" /> <b>{id}</b> <span class="verdict">no longer needed</span>
            </p>
          </li>
        ))}
      </ul>
    </div>
  );
}

function PartItem({ store, part, onFile }: { store: Store; part: PartView; onFile: () => void }) {
  const { id, copies, tool, code, size, mass, purpose, assembly, change, changes } = part;
  const { verdict, oldCode, revised, more } = change;
  const piece = store.shown.value?.pieces.find(({ of }) => of === id);
  const print = store.prints.value.find((each) => each.part === id);
  const facts = [
    copies === 1 ? 'once' : `${copies} times`,
    `${size.map((value) => value.toFixed(0)).join(' × ')} mm`,
    ...takes(print?.estimate.mass ?? mass, print),
  ];
  return (
    <li class={`part ${CLASSES[verdict]}`} data-part={id}>
      <p class="head">
        <Mark verdict={verdict} />
        {tool ? (
          <b class="name">{id}</b>
        ) : (
          <button
            type="button"
            class="name"
            id={`part-${id}`}
            aria-pressed={piece !== undefined && store.chosenPiece.value?.of === id}
            disabled={!piece}
            onClick={() => store.choosePiece(store.chosenPiece.value?.of === id ? undefined : piece?.id)}
          >
            {id}
          </button>
        )}
        <span class="verdict">{more > 0 ? `print ${more} more` : verdict}</span>
        <button type="button" class="stl" id={`stl-${id}`} aria-label={`STL of ${id}`} onClick={onFile}>
          STL
        </button>
      </p>
      <p class="facts">
        {facts.join(', ')}, <span class="code">code {code}</span>
      </p>
      {print?.open.map((finding) => (
        <p key={finding.id} class="open">
          {finding.severity}: {finding.title}. {finding.remedy}
        </p>
      ))}
      <p class="purpose">{tool ? `A tool, no piece of the machine: ${purpose}. ${assembly}` : purpose}</p>
      {verdict === 'print again' && (
        <ul class="changes">
          <li>
            code was {oldCode}, is {code}
          </li>
          {revised && <li>the part itself was revised</li>}
          {changes.map((line) => (
            <li key={line}>{line.replace(' -> ', ' → ')}</li>
          ))}
        </ul>
      )}
    </li>
  );
}

/** What a copy takes: as it is printed once that was measured, until then what it weighs when it is solid. */
function takes(mass: number | undefined, print: PrintView | undefined): string[] {
  const grams = mass === undefined ? [] : [`${mass < 10 ? mass.toFixed(1) : mass.toFixed(0)} g`];
  if (!print) return grams.map((text) => `${text} if solid`);
  const { filament, seconds } = print.estimate;
  return [...grams, `${filament.toFixed(1)} m of filament`, `about ${hoursText(seconds.likely)} h`];
}

function Mark({ verdict }: { verdict: Verdict }) {
  return (
    <svg class="verdict-mark" viewBox="-10 -10 20 20" width="18" height="18" aria-hidden="true">
      <path d={SHAPES[verdict]} />
    </svg>
  );
}

function againstInWords({ against, parts }: MachineView, file: string): string {
  const again = parts.filter(({ change }) => isToPrint(change)).length;
  const what = against === 'ledger' ? 'the ledger in the output folder' : `${file} as it was opened`;
  return again === 0
    ? `Compared with ${what}, every part stays as it is.`
    : `Compared with ${what}, ${again} of ${parts.length} parts ${again === 1 ? 'has' : 'have'} to be printed.`;
}
