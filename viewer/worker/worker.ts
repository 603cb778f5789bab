import wasm from 'manifold-3d/manifold.wasm';
import { openWorkshop, type Workshop } from '../../parts/index.js';
import type { Order, Word } from './messages.js';
import { OrderQueue } from './order-queue.js';
import { Workbench } from './workbench.js';

// The worker itself: orders come in as messages, words go out as such.

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
const orders = new OrderQueue(bench, (word) => scope.postMessage(word), breathe);

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

scope.onmessage = ({ data }) => {
  void orders.hear(data);
};
