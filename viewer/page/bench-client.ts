import script from 'worker:../worker/worker.ts';
import type { FieldAnswer, FieldOrder } from '../field/solved-field.js';
import type { DressedMesh, Order, PrintView, Section, WaysView, Word } from '../worker/messages.js';
import { Latest } from './latest.js';

type Work = Omit<Extract<Order, { kind: 'work' }>, 'kind' | 'revision'>;
type Cut = Pick<Extract<Order, { kind: 'cut' }>, 'angle' | 'placements'>;
type Answer = Extract<Word, { ticket: number }>;

/** The page's side of the worker. */
export class BenchClient {
  private readonly worker: Worker;
  private revision = 0;
  private ticket = 0;
  private readonly waiting = new Map<number, (answer: Answer) => void>();
  private unheard: ReadonlyMap<string, DressedMesh> = new Map();
  private readonly cuts: Latest<Cut>;
  private readonly fields: Latest<FieldOrder>;

  /**
   * @param hear told every word about the latest work, and every fault
   * @param onSection told each section that was cut
   * @param onField told what came of each field that was asked for
   */
  constructor(
    private readonly hear: (word: Exclude<Word, Answer>) => void,
    onSection: (section: Section) => void,
    onField: (order: FieldOrder, answer: FieldAnswer) => void,
  ) {
    this.cuts = new Latest(async (cut) => {
      const answer = await this.ask((ticket) => ({ kind: 'cut', ticket, ...cut }));
      if (answer.kind === 'section') onSection(answer.section);
    });
    this.fields = new Latest(async (order) => {
      const answer = await this.ask((ticket) => ({ kind: 'field', ticket, order }));
      if (answer.kind === 'field') onField(order, { picture: answer.picture });
      else if (answer.kind === 'dropped') onField(order, { dropped: true });
      else if (answer.kind === 'failed') onField(order, { message: answer.message });
    });
    // From a blob, because a page that was opened from a file may not load a worker’s script from another one.
    const address = URL.createObjectURL(new Blob([script], { type: 'text/javascript' }));
    this.worker = new Worker(address);
    URL.revokeObjectURL(address);
    this.worker.onmessage = ({ data }: MessageEvent<Word>) => this.take(data);
    this.worker.onerror = (event) => hear({ kind: 'fault', message: event.message || 'the worker stopped' });
  }

  work(work: Work): void {
    this.send({ kind: 'work', revision: ++this.revision, ...work });
  }

  cut(angle: number, placements: Cut['placements']): void {
    this.cuts.want({ angle, placements });
  }

  field(order: FieldOrder): void {
    this.fields.want(order);
  }

  /** @returns undefined where an edit overtook it */
  async prints(): Promise<readonly PrintView[] | undefined> {
    const answer = await this.ask((ticket) => ({ kind: 'prints', ticket }));
    if (answer.kind === 'failed') throw new Error(answer.message);
    return answer.kind === 'prints' ? answer.prints : undefined;
  }

  /** @returns undefined where another order overtook it */
  async ways(): Promise<WaysView | undefined> {
    const answer = await this.ask((ticket) => ({ kind: 'ways', ticket }));
    if (answer.kind === 'failed') throw new Error(answer.message);
    return answer.kind === 'ways' ? answer.ways : undefined;
  }

  /** @throws Error when the files could not be made */
  async files(part?: string): Promise<{ readonly name: string; readonly bytes: Uint8Array }> {
    const answer = await this.ask((ticket) => ({ kind: 'files', ticket, part }));
    if (answer.kind === 'files') return answer;
    throw new Error(answer.kind === 'failed' ? answer.message : 'no files came');
  }

  private ask(order: (ticket: number) => Order): Promise<Answer> {
    const ticket = ++this.ticket;
    return new Promise((resolve) => {
      this.waiting.set(ticket, resolve);
      this.send(order(ticket));
    });
  }

  private send(order: Order): void {
    this.worker.postMessage(order);
  }

  /** What was built for a text that is out of date already is sent only once, and may be wanted yet. */
  private takeBuilt(word: Extract<Word, { kind: 'built' }>): void {
    const meshes = new Map([...this.unheard, ...word.meshes]);
    this.unheard = word.revision === this.revision ? new Map() : meshes;
    if (word.revision === this.revision) this.hear({ ...word, meshes });
  }

  private take(word: Word): void {
    if ('ticket' in word) {
      this.waiting.get(word.ticket)?.(word);
      this.waiting.delete(word.ticket);
      return;
    }
    if (!('revision' in word)) this.hear(word);
    else if (word.kind === 'built') this.takeBuilt(word);
    else if (word.revision === this.revision) this.hear(word);
  }
}
