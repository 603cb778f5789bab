import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { type Group, leavesOf } from '../../parts/index.js';
import type { Store } from '../page/store.js';
import { type Fold, fieldId, foldsOf, inWords, NOTES } from '../session/fields.js';
import { problemAtField } from '../session/problem-words.js';
import { BearingNames } from './entries.js';
import { Field } from './field.js';

const FOLDS = foldsOf();

/** Every value of the machine file, to be read and changed in place. */
export function Stock({ store }: { store: Store }) {
  const root = useRef<HTMLDivElement>(null);
  const focused = useSignal<string | undefined>(undefined);
  const wanted = store.wantedField.value;
  useEffect(() => {
    if (wanted === undefined || !root.current) return;
    // In the next frame: who shows this page of the sheet may have to bring it up first.
    requestAnimationFrame(() => {
      if (root.current) focusField(root.current, wanted);
      store.wantedField.value = undefined;
    });
  }, [wanted]);
  return (
    <div
      class="stock"
      ref={root}
      onFocusIn={({ target }) => {
        focused.value = (target as Element).closest<HTMLElement>('[data-key]')?.dataset.key;
      }}
      onFocusOut={() => {
        focused.value = undefined;
      }}
    >
      {store.written.value.size === 0 && (
        <p class="unreadable" role="status">
          No value can be read from the text of {store.file} just now, so none can be changed here. Undo leads
          back; mended on disk, it is read again.
        </p>
      )}
      {FOLDS.map((fold) => (
        <FoldOut key={fold.name} store={store} fold={fold} />
      ))}
      <BearingNames />
      <p class="more" aria-hidden="true">
        {focused.value
          ? aboutKey(focused.value)
          : 'Arrow up and down change the number in a field by a step.'}
      </p>
    </div>
  );
}

function FoldOut({ store, fold: { name, meaning, open, group, prefix } }: { store: Store; fold: Fold }) {
  const keys = leavesOf(group).map(([key]) => `${prefix}${key}`);
  const changed = keys.filter((key) => store.changes.value.has(key)).length;
  const wrong = store.problems.value.filter(
    ({ key }) => keys.includes(key) || (prefix !== '' && `${key}.`.startsWith(prefix)),
  ).length;
  return (
    <details class="fold" id={`fold-${name.replaceAll(' ', '-')}`} open={open}>
      <summary>
        <b>{name}</b> <span class="meaning">{meaning}</span>
        {changed > 0 && <span class="mark changed">{changed} changed</span>}
        {wrong > 0 && <span class="mark wrong">{wrong} wrong</span>}
      </summary>
      <GroupProblems store={store} at={prefix.slice(0, -1)} />
      <Fields store={store} group={group} prefix={prefix} />
    </details>
  );
}

function Fields({ store, group, prefix }: { store: Store; group: Group; prefix: string }) {
  return (
    <>
      {Object.entries(group.keys).map(([name, declaration]) => {
        const key = `${prefix}${name}`;
        if (declaration.kind !== 'group')
          return <Field key={key} store={store} fullKey={key} leaf={declaration} />;
        return (
          <fieldset key={key}>
            <legend>
              {inWords(name)} <span class="meaning">{declaration.meaning}</span>
            </legend>
            <GroupProblems store={store} at={key} />
            <Fields store={store} group={declaration} prefix={`${key}.`} />
          </fieldset>
        );
      })}
    </>
  );
}

/** What is wrong with a group as a whole. */
function GroupProblems({ store, at }: { store: Store; at: string }) {
  const problems = at === '' ? [] : store.problems.value.filter(({ key }) => key === at);
  return (
    <>
      {problems.map((problem) => (
        <p class="problem" key={problem.found}>
          {problemAtField(problem)}
        </p>
      ))}
    </>
  );
}

function aboutKey(key: string): string {
  const note = NOTES.get(key)!;
  const parts = [note.meaning, note.bounds, note.default === 'required' ? '' : `without it: ${note.default}`];
  return parts.filter((part) => part !== '').join('; ');
}

/** Shows the field of a key, or the first of a group’s, and puts the focus into it. */
function focusField(root: HTMLElement, key: string): void {
  const exact = root.querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`);
  const field = exact ?? root.querySelector<HTMLElement>(`[data-key^="${CSS.escape(`${key}.`)}"]`);
  if (!field) return;
  const fold = field.closest('details');
  if (fold) fold.open = true;
  const id = fieldId(field.dataset.key!);
  field.scrollIntoView({ block: 'nearest' });
  root.querySelector<HTMLElement>(`#${id}, #${id}-1`)?.focus({ preventScroll: true });
}
