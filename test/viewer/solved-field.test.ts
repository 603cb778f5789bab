import { signal } from '@preact/signals';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type FieldAnswer, type FieldOrder, SolvedField } from '../../viewer/field/solved-field.js';
import type { MachineView } from '../../viewer/worker/messages.js';

type Picture = Extract<FieldAnswer, { picture: unknown }>['picture'];

/** As much of a machine as the field asks for. */
const machine = (discharge: number) => ({ prediction: { discharge } }) as unknown as MachineView;
const picture = (voltage: number) => ({ voltage }) as unknown as Picture;

function page(first = machine(170)) {
  const asked: FieldOrder[] = [];
  const host = {
    shown: signal<MachineView | undefined>(first),
    busy: signal(false),
    wanted: signal(false),
    ask: (order: FieldOrder) => {
      asked.push(order);
    },
  };
  return { host, asked, field: new SolvedField(host) };
}

/** As long as nothing has to change before it is asked for again. */
const quiet = () => vi.runAllTimers();

describe('the solved field', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('is asked for only where it is to be seen, for the voltage of the discharge', () => {
    const { host, asked, field } = page();
    expect(asked).toEqual([]);
    host.wanted.value = true;
    expect(asked).toEqual([{ voltage: 170_000, bound: 'polarised' }]);
    expect(field.solving.value).toBe(true);
    const solved = picture(170_000);
    field.hear(asked[0]!, { picture: solved });
    expect(field.picture.value).toBe(solved);
    expect(field.solving.value).toBe(false);
    host.wanted.value = false;
    host.wanted.value = true;
    expect(asked).toHaveLength(1);
  });

  it('is asked for again after a rebuild, not while one is under way', () => {
    const { host, asked, field } = page();
    host.wanted.value = true;
    field.hear(asked[0]!, { picture: picture(170_000) });
    host.busy.value = true;
    host.shown.value = machine(200);
    expect(asked).toHaveLength(1);
    quiet();
    expect(asked).toHaveLength(1);
    host.busy.value = false;
    expect(field.solving.value).toBe(true);
    quiet();
    expect(asked).toHaveLength(2);
    expect(asked[1]!.voltage).toBe(200_000);
  });

  it('waits until edits have come to rest, and is not asked for when it is put away meanwhile', () => {
    const { host, asked, field } = page();
    host.wanted.value = true;
    field.hear(asked[0]!, { picture: picture(170_000) });
    for (const discharge of [180, 190, 200]) host.shown.value = machine(discharge);
    quiet();
    expect(asked.map(({ voltage }) => voltage)).toEqual([170_000, 200_000]);
    field.hear(asked[1]!, { picture: picture(200_000) });
    host.shown.value = machine(210);
    host.wanted.value = false;
    expect(field.solving.value).toBe(false);
    quiet();
    expect(asked).toHaveLength(2);
  });

  it('is shown scaled for another voltage until it is there for that one', () => {
    const { host, asked, field } = page();
    host.wanted.value = true;
    field.hear(asked[0]!, { picture: picture(170_000) });
    expect(field.voltage.value).toBe(170);
    expect(field.scale.value).toBe(1);
    field.chosenVoltage.value = 85;
    expect(field.scale.value).toBe(0.5);
    quiet();
    expect(asked[1]).toEqual({ voltage: 85_000, bound: 'polarised' });
    field.chosenVoltage.value = 34;
    expect(field.scale.value).toBe(0.2);
    quiet();
    field.hear(asked[1]!, { picture: picture(85_000) });
    expect(field.scale.value).toBe(0.2);
    field.hear(asked[2]!, { picture: picture(34_000) });
    expect(field.scale.value).toBe(1);
    field.chosenVoltage.value = undefined;
    quiet();
    expect(asked).toHaveLength(4);
    expect(asked[3]!.voltage).toBe(170_000);
  });

  it('listens to the answer to its last order only', () => {
    const { host, asked, field } = page();
    host.wanted.value = true;
    field.bound.value = 'graded';
    expect(asked.map(({ bound }) => bound)).toEqual(['polarised', 'graded']);
    field.hear(asked[0]!, { picture: picture(1) });
    expect(field.picture.value).toBeUndefined();
    expect(field.solving.value).toBe(true);
    field.hear(asked[1]!, { picture: picture(2) });
    expect(field.picture.value?.voltage).toBe(2);
  });

  it('is asked for again when an edit overtook it, once the edit is done with', () => {
    const { host, asked, field } = page();
    host.wanted.value = true;
    host.busy.value = true;
    field.hear(asked[0]!, { dropped: true });
    expect(asked).toHaveLength(1);
    // The edit is refused: the machine shown stays.
    host.busy.value = false;
    expect(asked).toHaveLength(2);
    // And when the edit came to its end before the answer.
    field.hear(asked[1]!, { dropped: true });
    expect(asked).toHaveLength(3);
  });

  it('says why there is none, and does not ask for the same in vain', () => {
    const { host, asked, field } = page();
    host.wanted.value = true;
    field.hear(asked[0]!, { message: 'conductors touch' });
    expect(field.failure.value).toBe('conductors touch');
    expect(field.picture.value).toBeUndefined();
    host.wanted.value = false;
    host.wanted.value = true;
    expect(asked).toHaveLength(1);
    host.shown.value = machine(180);
    quiet();
    field.hear(asked[1]!, { picture: picture(180_000) });
    expect(field.failure.value).toBeUndefined();
  });
});
