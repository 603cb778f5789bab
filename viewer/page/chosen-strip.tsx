import { SeverityMark } from './severity.js';
import type { Store } from './store.js';

/** Where the sheet lies below the picture: the chosen finding in one line over it, and the way down to its words. */
export function ChosenStrip({ store }: { store: Store }) {
  const finding = store.chosenFinding.value;
  if (!finding) return null;
  const { id, severity, title } = finding;
  return (
    <button
      type="button"
      class="chosen-strip"
      onClick={() => {
        const item = document.querySelector<HTMLElement>(`[data-finding="${CSS.escape(id)}"]`);
        item?.focus({ preventScroll: true });
        item?.parentElement?.scrollIntoView({ block: 'start' });
      }}
    >
      <SeverityMark severity={severity} />
      <span>
        <b class={`word ${severity}`}>{severity}</b> {title}
      </span>
      <u>read</u>
    </button>
  );
}
