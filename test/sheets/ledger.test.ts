import { describe, expect, it } from 'vitest';
import { ordersFor } from '../../parts/printed/catalog.js';
import {
  compareOrders,
  describeChange,
  type Ledger,
  ledgerText,
  madePart,
  nextLedger,
  parseLedger,
} from '../../parts/sheets/ledger.js';
import { starterMachine } from '../helpers/machines.js';

const orders = ordersFor(starterMachine('travelling-demonstrator'));
const rows = orders.map((order) => ({
  ...madePart(order),
  file: `${order.part.id}.stl`,
  sha256: 'ab'.repeat(32),
}));
const ledger = nextLedger('Mine', undefined, rows);

it('comes back from its text as it was', () => {
  expect(parseLedger(ledgerText(ledger))).toEqual(ledger);
  expect(ledgerText(parseLedger(ledgerText(ledger)))).toBe(ledgerText(ledger));
});

it('keeps every set ever made, each once', () => {
  const old = { ...rows[0]!, code: '23456789', dimensions: { height: 1 } };
  const second = nextLedger('Mine', { ...ledger, made: [madePart(orders[0]!), old] }, rows);
  expect(second.made).toHaveLength(rows.length + 1);
  expect(nextLedger('Mine', second, rows)).toEqual(second);
  expect(second.made.map(({ code }) => code)).toContain('23456789');
});

describe('what has become of a part', () => {
  const of = (before: Ledger['parts']) => compareOrders(before, orders.slice(0, 1))[0]!;

  it('is kept while its code is the same', () => {
    expect(of(rows.slice(0, 1))).toMatchObject({ verdict: 'keep', changes: [], revised: false });
  });

  it('is new where none was', () => {
    expect(of([])).toMatchObject({ verdict: 'new', changes: [] });
  });

  it('is printed again where a dimension changed, came or went', () => {
    const row = rows[0]!;
    const [[key, value]] = Object.entries(row.dimensions) as [[string, number]];
    const { [key]: _, ...others } = row.dimensions;
    const before = { ...row, code: '23456789', dimensions: { ...others, [key]: value - 1, gone: 'word' } };
    const change = of([before]);
    expect(change).toMatchObject({ verdict: 'print again', oldCode: '23456789', revised: false });
    expect(change.changes.map(({ key: name, from, to }) => [name, from, to])).toEqual([
      [key, value - 1, value],
      ['gone', 'word', undefined],
    ]);
    expect(change.changes.map(describeChange)[1]).toBe('gone word -> nothing');
  });

  it('is printed again where its shape was revised', () => {
    const row = rows[0]!;
    const change = of([{ ...row, code: '23456789', revision: row.revision + 1 }]);
    expect(change).toMatchObject({ verdict: 'print again', changes: [], revised: true });
  });

  it('is printed once more where a machine asks for more copies of it, and no less is no loss', () => {
    const [order, row] = [orders[0]!, rows[0]!];
    const asked = (copies: number) => compareOrders([row], [{ ...order, copies }])[0]!;
    expect(asked(order.copies + 2)).toMatchObject({ verdict: 'print more', more: 2, changes: [] });
    expect(asked(order.copies)).toMatchObject({ verdict: 'keep', more: 0 });
    expect(
      compareOrders([{ ...row, copies: 9 }], [order]).map(({ verdict, more }) => [verdict, more]),
    ).toEqual([['keep', 0]]);
    // A ledger that does not say how many there are claims nothing.
    const { copies: _, ...silent } = row;
    expect(compareOrders([silent], [order])[0]).toMatchObject({ verdict: 'keep', more: 0 });
  });

  it('is not asked for twice when a machine went without some for a while', () => {
    const row = rows[0]!;
    const many = nextLedger('Mine', undefined, [{ ...row, copies: 5 }]);
    const few = nextLedger('Mine', many, [{ ...row, copies: 3 }]);
    expect(few.parts[0]!.copies).toBe(5);
    const other = nextLedger('Mine', few, [{ ...row, code: '23456789', copies: 1 }]);
    expect(nextLedger('Mine', other, [{ ...row, copies: 2 }]).parts[0]!.copies).toBe(5);
  });

  it('is no longer needed where nobody asks for it', () => {
    const gone = { ...rows[0]!, id: 'belt-guard' };
    expect(compareOrders([gone], []).map(({ id, verdict }) => [id, verdict])).toEqual([
      ['belt-guard', 'no longer needed'],
    ]);
  });
});

describe('a text that is no ledger', () => {
  const row = rows[0]!;
  const withRow = (change: object) => ({ ...ledger, parts: [{ ...row, ...change }] });
  it.each([
    ['[]', 'a ledger is not a JSON object'],
    ['null', 'a ledger is not a JSON object'],
    [{ ...ledger, kind: 'other' }, '"kind" is not'],
    [{ ...ledger, version: 2 }, 'version 2 is not known'],
    [{ ...ledger, machine: undefined }, '"machine" is missing'],
    [{ ...ledger, parts: {} }, '"parts" is not a list'],
    [{ ...ledger, made: undefined }, '"made" is not a list'],
    [withRow({ id: '../up' }), '"parts[0].id"'],
    [withRow({ file: '../../up.stl' }), '"parts[0].file"'],
    [withRow({ file: 'C:up.stl' }), '"parts[0].file"'],
    [withRow({ sha256: 'AB' }), '"parts[0].sha256"'],
    [withRow({ revision: 1.5 }), '"parts[0].revision"'],
    [withRow({ copies: 0 }), '"parts[0].copies"'],
    [withRow({ code: 'ABC0EFGH' }), '"parts[0].code"'],
    [withRow({ dimensions: { a: null } }), '"parts[0].dimensions.a"'],
    [withRow({ dimensions: { a: [1, 'b'] } }), '"parts[0].dimensions.a"'],
    [withRow({ dimensions: undefined }), 'parts[0].dimensions is not a JSON object'],
    [{ ...ledger, parts: [row, row] }, 'stands twice'],
    [{ ...ledger, made: [{ ...row, code: 1 }] }, '"made[0].code"'],
  ])('is refused: %j', (value, said) => {
    const text = typeof value === 'string' ? value : JSON.stringify(value);
    expect(() => parseLedger(text)).toThrow(SyntaxError);
    expect(() => parseLedger(text)).toThrow(said);
  });
});
