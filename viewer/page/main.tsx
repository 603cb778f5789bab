import { effect } from '@preact/signals';
import { render } from 'preact';
import type { FileWord, LedgerWord, Start } from '../../parts/index.js';
import { textIn } from '../session/link.js';
import { App } from './app.js';
import { Store } from './store.js';

// The page's beginning: reads what it was given, and listens to the program behind it where there is one.

const start = JSON.parse(document.getElementById('start')!.textContent) as Start;
const store = new Store(start, carriedIn(location.hash));
render(<App store={store} />, document.getElementById('page')!);
// For tests and benchmarks; nothing on the page depends on it.
(globalThis as { tubewright?: Store }).tubewright = store;
if (start.served) listen();
effect(() => {
  const drawable = store.noScene.value === undefined || store.section.value !== undefined;
  if (store.shown.value === undefined || !drawable) return;
  // In the frame after the one in which it is drawn.
  requestAnimationFrame(() =>
    requestAnimationFrame(() => {
      document.documentElement.dataset.ready = 'yes';
    }),
  );
});

function carriedIn(fragment: string): string | undefined {
  try {
    return textIn(fragment);
  } catch (error) {
    // Said on the page; the file itself is shown.
    queueMicrotask(() => {
      store.notice.value = (error as Error).message;
    });
    return undefined;
  }
}

function listen(): void {
  const events = new EventSource('changes');
  const told = <T,>(type: string, hear: (word: T) => void) =>
    events.addEventListener(type, ({ data }: MessageEvent<string>) => hear(JSON.parse(data) as T));
  told<FileWord>('file', (word) => store.hearFile(word));
  told<LedgerWord>('ledger', ({ ledger }) => store.hearLedger(ledger));
  events.onopen = () => {
    store.followed.value = true;
  };
  events.onerror = () => {
    store.followed.value = false;
  };
  window.addEventListener('pagehide', () => events.close());
}
