import { useEffect } from 'preact/hooks';
import type { Store } from './store.js';

/** ms that something said in passing stays once the page has come to rest. */
const PASSING = 12_000;

/** One line over the picture that says what is going on; read out without interrupting. */
export function Status({ store }: { store: Store }) {
  const progress = store.progress.value;
  const fault = store.fault.value;
  const notice = store.notice.value;
  const busy = store.busy.value;
  useEffect(() => {
    // On a slow machine a build outlasts it, and nobody reads a line that comes and goes behind a build.
    if (notice === undefined || busy) return undefined;
    const timer = setTimeout(() => {
      if (store.notice.value === notice) store.notice.value = undefined;
    }, PASSING);
    return () => clearTimeout(timer);
  }, [notice, busy]);
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
