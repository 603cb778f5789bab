import wasm from 'manifold-3d/manifold.wasm';
import { openWorkshop, type Workshop } from '../../parts/index.js';
import type { Order, Word } from './messages.js';
import { Workbench } from './workbench.js';

// The worker's own loop: it takes orders one after another, and lets a later `work` overtake one that is not done.

interface WorkerScope {
  onmessage: ((event: MessageEvent<Order>) => void) | null;
  postMessage(word: Word): void;
}
const scope = globalThis as unknown as WorkerScope;

let workshop: Promise<Workshop> | undefined;
const bench = new Workbench(() => {
  workshop ??= openWorkshop(wasm);
  return workshop;
});
const say = (word: Word): void => scope.postMessage(word);

let latest = 0;
let queue: Promise<void> = Promise.resolve();

/** Resolves after messages that wait have been heard. A timer would be slowed down when it is set again and again. */
function breathe(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

async function take(order: Order): Promise<void> {
  if (order.kind === 'work') {
    const isStale = () => order.revision < latest;
    if (!isStale()) await bench.work(order, say, breathe, isStale);
    return;
  }
  const { ticket } = order;
  try {
    if (order.kind === 'cut') {
      say({ kind: 'section', ticket, section: bench.section(order.angle, order.placements) });
    } else say({ kind: 'files', ticket, ...(await bench.files(order.part)) });
  } catch (error) {
    say({ kind: 'failed', ticket, message: error instanceof Error ? error.message : String(error) });
  }
}

scope.onmessage = ({ data }) => {
  if (data.kind === 'work') latest = data.revision;
  queue = queue
    .then(() => take(data))
    .catch((error: unknown) => {
      say({
        kind: 'fault',
        message: error instanceof Error ? (error.stack ?? error.message) : String(error),
      });
    });
};
