import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { saveAs } from '../page/save-as.js';
import type { Store } from '../page/store.js';
import { saveInWords } from '../session/save.js';
import { LinkField } from './link-field.js';
import { SaveDialog } from './save-dialog.js';
import { useUndoKeys } from './undo-keys.js';

/** The machine file as a whole: how it stands against the disk, undo and redo, and the ways out of the page. */
export function FileBar({ store }: { store: Store }) {
  const asking = useSignal(false);
  const linking = useSignal(false);
  const said = useSignal('');
  useUndoKeys(store);
  useLeaveWarning(store);
  const text = store.text.value;
  useEffect(() => {
    said.value = '';
  }, [text]);
  const why = whyNotSaved(store);
  const edited = store.edited.value;

  const close = async (write: boolean) => {
    asking.value = false;
    if (!write) return;
    said.value = 'writing';
    said.value = saveInWords(await store.save(), store.file);
  };
  return (
    <section class="file-bar" aria-label="Machine file">
      <p class="file-state" id="file-state" role="status" tabIndex={-1}>
        <b>{store.file}</b> <span>{stateOf(store)}</span>
        {said.value && <span class="said">{said.value}</span>}
      </p>
      <div class="file-buttons">
        <button type="button" id="undo" disabled={!store.canUndo.value} onClick={() => store.undo()}>
          undo
        </button>
        <button type="button" id="redo" disabled={!store.canRedo.value} onClick={() => store.redo()}>
          redo
        </button>
        <button type="button" id="back-to-file" disabled={!edited} onClick={() => store.backToFile()}>
          back to the file
        </button>
        {store.served && (
          <button
            type="button"
            id="save"
            disabled={why !== undefined}
            aria-describedby={why === undefined ? undefined : 'save-why-not'}
            onClick={() => {
              store.flush();
              said.value = '';
              asking.value = true;
            }}
          >
            save…
          </button>
        )}
        <button type="button" id="download" onClick={() => download(store)}>
          machine file
        </button>
        <button
          type="button"
          id="link"
          aria-expanded={linking.value}
          onClick={() => {
            linking.value = !linking.value;
          }}
        >
          link
        </button>
      </div>
      {store.served && why !== undefined && edited && (
        <p class="why-not" id="save-why-not">
          Not to be saved now: {why}.
        </p>
      )}
      {linking.value && <LinkField store={store} />}
      {asking.value && <SaveDialog store={store} onClose={close} />}
    </section>
  );
}

/** How the page’s text stands against the file. */
function stateOf(store: Store): string {
  const { gone } = store.disk.value;
  const count = store.changes.value.size;
  const values = count === 0 ? 'no value differs' : count === 1 ? '1 value' : `${count} values`;
  const own = store.edited.value ? `edited, ${values}` : store.served ? 'as on disk' : 'as it was opened';
  const trouble = [
    gone !== undefined && `the file can’t be read: ${gone}`,
    store.served && store.followed.value === false && 'the program behind this page has stopped',
  ].filter((each) => each !== false);
  return [own, ...trouble].join('; ');
}

/** Why the text can’t be saved just now. */
function whyNotSaved(store: Store): string | undefined {
  if (!store.edited.value) return 'nothing is changed';
  if (store.sending.value !== undefined) return 'it is being written';
  if (store.clash.value) return 'the file was changed too, see the question about it';
  if (store.disk.value.gone !== undefined) return 'the file can’t be read';
  if (store.followed.value === false) return 'the program behind this page has stopped';
  const count = store.problems.value.length;
  if (count > 0) return count === 1 ? 'something is wrong in it' : `${count} things are wrong in it`;
  return undefined;
}

function download(store: Store): void {
  store.flush();
  saveAs(store.file, new Blob([store.text.value], { type: 'text/plain;charset=utf-8' }));
}

/** Unsaved edits are not lost by closing the page unasked. Only where they could have been saved. */
function useLeaveWarning(store: Store): void {
  useEffect(() => {
    if (!store.served) return undefined;
    const ask = (event: BeforeUnloadEvent) => {
      store.flush();
      if (store.edited.value) event.preventDefault();
    };
    window.addEventListener('beforeunload', ask);
    return () => window.removeEventListener('beforeunload', ask);
  }, [store]);
}
