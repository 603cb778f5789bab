import { describe, expect, it } from 'vitest';
import type { FieldOrder } from '../../viewer/field/solved-field.js';
import type { Order, WaysView, Word } from '../../viewer/worker/messages.js';
import { type Bench, OrderQueue } from '../../viewer/worker/order-queue.js';

const work = (revision: number): Order => ({
  kind: 'work',
  revision,
  text: '',
  file: 'machine.yaml',
  ledger: null,
  opened: '',
});
const field = (ticket: number, bound: FieldOrder['bound'] = 'polarised'): Order => ({
  kind: 'field',
  ticket,
  order: { voltage: 100_000, bound },
});
const NO_WAYS: WaysView = { findings: [], metal: { pieces: [], meshes: new Map() } };
const cut = (ticket: number): Order => ({ kind: 'cut', ticket, angle: 0, placements: new Map() });

/** A queue over a bench that only notes what it is asked to do; `meanwhile` is heard at the next breath. */
function queueOver(bench: Partial<Bench> = {}) {
  const done: string[] = [];
  const said: Word[] = [];
  const meanwhile: Order[] = [];
  const queue: OrderQueue = new OrderQueue(
    {
      work: async ({ revision }, _say, breathe, isStale) => {
        done.push(`judge ${revision}`);
        await breathe();
        done.push(`${isStale() ? 'leave' : 'build'} ${revision}`);
      },
      section: (angle) => {
        done.push('cut');
        return { angle, faces: [], fits: [] };
      },
      field: ({ bound }) => {
        done.push(`solve ${bound}`);
        return {} as ReturnType<Bench['field']>;
      },
      prints: async (breathe, isStale) => {
        await breathe();
        done.push(isStale() ? 'leave prints' : 'measure prints');
        return isStale() ? undefined : [];
      },
      ways: async (breathe, isStale) => {
        await breathe();
        done.push(isStale() ? 'leave ways' : 'measure ways');
        return isStale() ? undefined : NO_WAYS;
      },
      files: async () => ({ name: 'a.stl', bytes: new Uint8Array() }),
      ...bench,
    },
    (word) => said.push(word),
    async () => {
      for (const order of meanwhile.splice(0)) void queue.hear(order);
    },
  );
  const ended = () => queue.hear(cut(999));
  return { queue, done, said, meanwhile, ended };
}

describe('the worker’s orders', () => {
  it('are done one after another, and answered by their tickets', async () => {
    const { queue, done, said, ended } = queueOver();
    for (const order of [work(1), field(7), cut(8), field(9, 'graded')]) void queue.hear(order);
    await ended();
    expect(done).toEqual(['judge 1', 'build 1', 'solve polarised', 'cut', 'solve graded', 'cut']);
    const answers = said.map((word) => ('ticket' in word ? `${word.kind} ${word.ticket}` : word.kind));
    expect(answers).toEqual(['field 7', 'section 8', 'field 9', 'section 999']);
  });

  it('solve no field of a machine that is being edited', async () => {
    const { queue, done, said, meanwhile, ended } = queueOver();
    // The edit comes after the field was asked for and before it is begun.
    void queue.hear(work(1));
    void queue.hear(field(7));
    void queue.hear(work(2));
    void queue.hear(field(8));
    await ended();
    expect(done.filter((each) => each.startsWith('solve'))).toEqual(['solve polarised']);
    expect(said.map(({ kind }) => kind)).toEqual(['dropped', 'field', 'section']);
    expect(said[0]).toEqual({ kind: 'dropped', ticket: 7 });

    // Or it waits to be heard when the field’s turn comes.
    done.length = 0;
    meanwhile.push(work(3));
    await queue.hear(field(9));
    await ended();
    expect(done).toEqual(['judge 3', 'build 3', 'cut']);
  });

  it('measure no prints of a machine that is being edited', async () => {
    const { queue, done, said, meanwhile, ended } = queueOver();
    await queue.hear({ kind: 'prints', ticket: 7 });
    meanwhile.push(work(1));
    await queue.hear({ kind: 'prints', ticket: 8 });
    await ended();
    expect(done).toEqual(['measure prints', 'leave prints', 'judge 1', 'build 1', 'cut']);
    expect(said.slice(0, 2)).toEqual([
      { kind: 'prints', ticket: 7, prints: [] },
      { kind: 'dropped', ticket: 8 },
    ]);
  });

  it('give way to a later edit while one is built', async () => {
    const { queue, done, meanwhile, ended } = queueOver();
    meanwhile.push(work(2));
    await queue.hear(work(1));
    await ended();
    expect(done).toEqual(['judge 1', 'leave 1', 'judge 2', 'build 2', 'cut']);
  });

  it('go on after one that failed: an answer to its ticket, or a fault of the program', async () => {
    const { queue, said, ended } = queueOver({
      field: () => {
        throw new RangeError('conductors touch');
      },
      work: async () => {
        throw new TypeError('a fault');
      },
    });
    await queue.hear(field(7));
    await queue.hear(work(1));
    await ended();
    expect(said).toEqual([
      { kind: 'failed', ticket: 7, message: 'conductors touch' },
      { kind: 'fault', message: expect.stringContaining('TypeError: a fault') },
      { kind: 'section', ticket: 999, section: expect.anything() },
    ]);
  });

  it('measure ways only while nothing else is asked for', async () => {
    const { queue, done, said, meanwhile, ended } = queueOver();
    void queue.hear({ kind: 'ways', ticket: 1 });
    meanwhile.push(cut(2));
    await ended();
    await ended();
    expect(done.slice(0, 2)).toEqual(['leave ways', 'cut']);
    expect(said).toContainEqual({ kind: 'dropped', ticket: 1 });

    const alone = queueOver();
    await alone.queue.hear({ kind: 'ways', ticket: 3 });
    expect(alone.done).toEqual(['measure ways']);
    expect(alone.said).toEqual([{ kind: 'ways', ticket: 3, ways: NO_WAYS }]);
  });
});
