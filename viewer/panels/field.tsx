import type { Leaf } from '../../parts/index.js';
import type { Store } from '../page/store.js';
import {
  canBeLeftOut,
  fieldId,
  isQuantity,
  isWanted,
  labelOf,
  mended,
  NOTES,
  unstated,
} from '../session/fields.js';
import { problemAtField } from '../session/problem-words.js';
import { ChoiceEntry, TextEntry, YesNoEntry } from './entries.js';
import { ReadingsEntry } from './readings.js';

export interface FieldProps {
  readonly store: Store;
  readonly fullKey: string;
  readonly leaf: Leaf;
}

/** What an entry needs to know to stand for a key’s value. */
export interface EntryProps extends FieldProps {
  /** As it stands in the fields; none while the key is not stated. */
  readonly items: readonly string[];
  /** What is taken while it is not stated. */
  readonly instead: string | undefined;
  readonly locked: boolean;
  readonly invalid: boolean;
  /** Ids of what describes it. */
  readonly describedBy: string;
}

/** One value of the machine file: what is written, what is wrong with it, what it was. */
export function Field({ store, fullKey, leaf }: FieldProps) {
  const written = store.written.value;
  const stated = written.get(fullKey);
  const draft = store.draft.value;
  const items = draft?.key === fullKey ? draft.items : (stated?.items ?? []);
  if (!isWanted(fullKey, leaf, written) && items.length === 0) return null;

  const problems = store.problems.value.filter(({ key }) => key === fullKey);
  const locked = written.size === 0;
  const missing = unstated(fullKey, leaf, written);
  const id = fieldId(fullKey);
  const entry: EntryProps = {
    store,
    fullKey,
    leaf,
    items,
    instead: missing.item,
    locked,
    invalid: problems.length > 0,
    describedBy: `note-${id} bounds-${id}${problems.length > 0 ? ` problem-${id}` : ''}`,
  };
  const Entry = ENTRIES[leaf.kind];
  const { meaning, bounds } = NOTES.get(fullKey)!;
  return (
    <div class="field" data-key={fullKey} data-changed={store.changes.value.has(fullKey)}>
      <p class="head">
        <label for={leaf.kind === 'reading' ? `${id}-1` : id}>{labelOf(fullKey)}</label>{' '}
        <span class="meaning" id={`note-${id}`} hidden={meaning === labelOf(fullKey)}>
          {meaning}
        </span>
      </p>
      <span id={`bounds-${id}`} hidden>
        {bounds}
      </span>
      <div class="values">
        <Entry {...entry} />
        {stated && canBeLeftOut(fullKey, leaf, written) && (
          <button
            type="button"
            id={`leave-${id}`}
            aria-label={`leave out ${labelOf(fullKey)}`}
            onClick={() => change(store, fullKey, undefined)}
          >
            leave out
          </button>
        )}
      </div>
      {items.length === 0 && !locked && <Assumed {...entry} why={missing.why} value={missing.value} />}
      <Was store={store} fullKey={fullKey} />
      {problems.length > 0 && (
        <div class="problem" id={`problem-${id}`}>
          {problems.map((problem) => {
            const better = mended(leaf, items, problem);
            return (
              <p key={`${problem.line}:${problem.column}:${problem.found}`}>
                {problemAtField(problem)}
                {better !== undefined && (
                  <button type="button" onClick={() => change(store, fullKey, [better])}>
                    put in {better}
                  </button>
                )}
              </p>
            );
          })}
        </div>
      )}
    </div>
  );
}

const ENTRIES = {
  quantity: TextEntry,
  reading: ReadingsEntry,
  choice: ChoiceEntry,
  boolean: YesNoEntry,
  text: TextEntry,
  bearing: TextEntry,
} as const;

/** What is taken for a value that the file does not state. */
function Assumed({
  store,
  fullKey,
  leaf,
  instead,
  why,
  value,
}: EntryProps & { readonly why: string; readonly value: unknown }) {
  if (leaf.presence.kind === 'required' || leaf.presence.kind === 'only-when') return null;
  const unit = isQuantity(leaf) && leaf.unit ? ` ${leaf.unit}` : '';
  const shown = typeof value === 'boolean' ? (value ? 'yes' : 'no') : `${value}${unit}`;
  const id = fieldId(fullKey);
  return (
    <p class="assumed">
      <span>
        {instead === undefined ? 'not stated' : `assumed ${shown}`}: {why}
      </span>
      {instead !== undefined && (
        <button type="button" id={`state-${id}`} onClick={() => change(store, fullKey, [instead])}>
          state it
        </button>
      )}
    </p>
  );
}

/** What the file says where the page says otherwise. */
function Was({ store, fullKey }: { store: Store; fullKey: string }) {
  const changed = store.changes.value.get(fullKey);
  if (!changed) return null;
  const before = store.writtenBefore.value.get(fullKey)?.items;
  return (
    <p class="was">
      <span>
        <b>changed</b>, was {changed.from === undefined ? 'not stated' : changed.from || 'empty'}
      </span>
      <button type="button" id={`back-${fieldId(fullKey)}`} onClick={() => change(store, fullKey, before)}>
        take it back
      </button>
    </p>
  );
}

/** A change by a button: one step to undo. The button may go with it, so the focus goes to the value. */
function change(store: Store, key: string, items: readonly string[] | undefined): void {
  store.seal();
  store.write(key, items);
  store.seal();
  store.wantedField.value = key;
}
