import { useEffect } from 'preact/hooks';
import type { Store } from './store.js';

/** ms that something said in passing stays. */
const PASSING = 12_000;

/** One line over the picture that says what is going on; read out without interrupting. */
export function Status({ store }: { store: Store }) {
  const progress = store.progress.value;
  const fault = store.fault.value;
  const notice = store.notice.value;
  useEffect(() => {
    if (notice === undefined) return undefined;
    const timer = setTimeout(() => {
      if (store.notice.value === notice) store.notice.value = undefined;
    }, PASSING);
    return () => clearTimeout(timer);
  }, [notice]);
  const lines = [
    fault && `a fault of this program: ${fault.split('\n')[0]}`,
    progress && `building ${progress.what} ${progress.number}/${progress.of}`,
    notice,
  ].filter((line) => line !== undefined);
  return (
    <div class={`status${fault ? ' fault' : ''}`} role="status" aria-live="polite">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}
