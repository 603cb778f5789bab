import type { Order, Word } from './messages.js';
import type { Workbench } from './workbench.js';

/** What orders are carried out on. */
export type Bench = Pick<Workbench, 'work' | 'section' | 'field' | 'prints' | 'ways' | 'files'>;

/**
 * Takes orders one after another. A later `work` overtakes one that is not done, and a field that is not begun: of a
 * machine that is being edited none is solved, so an edit waits for one at most; and for one part that is measured. Ways
 * take longest and give way to every other order.
 */
export class OrderQueue {
  private latest = 0;
  private heard = 0;
  private queue: Promise<void> = Promise.resolve();

  /** @param breathe resolves once waiting messages have been heard */
  constructor(
    private readonly bench: Bench,
    private readonly say: (word: Word) => void,
    private readonly breathe: () => Promise<void>,
  ) {}

  /** @returns when the order is done with, one way or another */
  hear(order: Order): Promise<void> {
    if (order.kind === 'work') this.latest = order.revision;
    const known = this.latest;
    const heard = ++this.heard;
    this.queue = this.queue
      .then(() => this.take(order, known, heard))
      .catch((error: unknown) => {
        this.say({
          kind: 'fault',
          message: error instanceof Error ? (error.stack ?? error.message) : String(error),
        });
      });
    return this.queue;
  }

  /** @param known the latest revision when the order came, `heard` how many orders had come */
  private async take(order: Order, known: number, heard: number): Promise<void> {
    if (order.kind === 'work') {
      const isStale = () => order.revision < this.latest;
      if (!isStale()) await this.bench.work(order, this.say, this.breathe, isStale);
      return;
    }
    const { ticket } = order;
    try {
      if (order.kind === 'cut') {
        this.say({ kind: 'section', ticket, section: this.bench.section(order.angle, order.placements) });
      } else if (order.kind === 'field') {
        await this.breathe();
        if (this.latest > known) this.say({ kind: 'dropped', ticket });
        else this.say({ kind: 'field', ticket, picture: this.bench.field(order.order) });
      } else if (order.kind === 'prints') {
        const prints = await this.bench.prints(this.breathe, () => this.latest > known);
        this.say(prints ? { kind: 'prints', ticket, prints } : { kind: 'dropped', ticket });
      } else if (order.kind === 'ways') {
        const ways = await this.bench.ways(this.breathe, () => this.heard > heard);
        this.say(ways ? { kind: 'ways', ticket, ways } : { kind: 'dropped', ticket });
      } else this.say({ kind: 'files', ticket, ...(await this.bench.files(order.part)) });
    } catch (error) {
      this.say({ kind: 'failed', ticket, message: error instanceof Error ? error.message : String(error) });
    }
  }
}
