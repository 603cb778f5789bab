import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Store } from '../page/store.js';
import { type ChangedLine, lineChanges } from '../session/line-changes.js';

/** Shows what saving would change, and asks. */
export function SaveDialog({
  store,
  onClose,
}: {
  store: Store;
  /** @param write whether it is to be written */
  onClose(write: boolean): void;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => {
    dialog.current?.showModal();
  }, []);
  const lines = lineChanges(store.disk.value.text, store.text.value);
  return (
    <dialog
      class="save"
      id="save-dialog"
      aria-labelledby="save-title"
      ref={dialog}
      onClose={({ currentTarget }) => onClose(currentTarget.returnValue === 'write')}
    >
      <form method="dialog">
        <h2 id="save-title">What changes in {store.file}</h2>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a long difference is scrolled by keyboard */}
        <ol class="difference" tabIndex={0} aria-label="Line by line">
          {lines.map((line, at) => (
            <li key={`${at}`} class={line.kind}>
              <Line line={line} />
            </li>
          ))}
        </ol>
        <p class="buttons">
          <button type="submit" id="save-write" value="write">
            write to {store.file}
          </button>
          <button type="submit" id="save-not-now" value="">
            not now
          </button>
        </p>
      </form>
    </dialog>
  );
}

function Line({ line }: { line: ChangedLine }) {
  switch (line.kind) {
    case 'fold':
      return (
        <>
          {line.lines} {line.lines === 1 ? 'line' : 'lines'} as before
        </>
      );
    case 'same':
      return <span>{line.text}</span>;
    case 'out':
      return (
        <del>
          <span class="sign">− </span>
          {line.text}
        </del>
      );
    case 'in':
      return (
        <ins>
          <span class="sign">+ </span>
          {line.text}
        </ins>
      );
  }
}
