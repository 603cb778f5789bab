import { describe, expect, it } from 'vitest';
import { lookUp, STOCK_KINDS, type StockEntry, UnknownStockError } from '../../parts/stock/lookup.js';
import { STATUSES } from '../../parts/stock/row.js';

const fact = (entry: StockEntry | undefined, label: string) =>
  entry?.facts.find((each) => each.label === label);

function failure(kind: string, name?: string): UnknownStockError {
  try {
    lookUp(kind, name);
  } catch (error) {
    if (error instanceof UnknownStockError) return error;
    throw error;
  }
  throw new Error(`${kind} ${name} was found`);
}

describe('looking stock up', () => {
  it.each(STOCK_KINDS)('%s: every entry is complete and sourced, every name finds its entry', (kind) => {
    const entries = lookUp(kind);
    expect(entries.length).toBeGreaterThan(0);
    for (const entry of entries) {
      expect(entry.kind).toBe(kind);
      expect(entry.facts.length).toBeGreaterThan(0);
      for (const each of entry.facts) {
        expect(each.source, `${entry.name}: ${each.label}`).not.toBe('');
        expect(STATUSES).toContain(each.status);
        if (typeof each.value === 'number') expect(Number.isFinite(each.value)).toBe(true);
      }
      expect(lookUp(kind, entry.name.toUpperCase())).toEqual([entry]);
    }
    expect(new Set(entries.map((entry) => entry.name)).size).toBe(entries.length);
  });

  it('finds a bearing by the name on its box, with source and shoulders', () => {
    const [entry, ...others] = lookUp('bearing', 'r4a shielded');
    expect(others).toEqual([]);
    expect(entry?.name).toBe('R4A');
    expect(fact(entry, 'width, open')).toMatchObject({
      value: 5.558,
      unit: 'mm',
      source: 'ZEN bearing catalogue',
    });
    expect(fact(entry, 'width, shielded')).toMatchObject({ value: 7.142, status: 'verified' });
    expect(fact(entry, 'chamfer, smallest printed')?.status).toBe('from-memory');
    expect(fact(entry, 'housing shoulder, largest bore')).toMatchObject({
      value: 15.05,
      status: 'common-practice',
    });
    expect(entry?.missing).toEqual(['published abutment', 'load ratings']);
  });

  it('says what is missing of a material', () => {
    expect(lookUp('plastic', 'pom')[0]?.missing).toContain('triboelectric');
    expect(lookUp('plastic', 'pvc')[0]?.missing).toContain('sustained stress');
    expect(lookUp('belt', 'neoprene')[0]?.missing).toEqual(['triboelectric charge density']);
  });

  it('gives all that hold a part of a name', () => {
    expect(lookUp('plastic', 'acrylic').map((entry) => entry.name)).toEqual([
      'acrylic-extruded',
      'acrylic-cast',
    ]);
    expect(lookUp('plastic', 'glass').map((entry) => entry.name)).toEqual(['borosilicate-glass']);
  });

  it('prefers the whole name to a part of it', () => {
    expect(lookUp('bearing', 'R4').map((entry) => entry.name)).toEqual(['R4']);
    expect(lookUp('tube', 'nps 2').map((entry) => entry.name)).toEqual(['NPS 2']);
  });

  it.each([
    ['beering', undefined, 'kind', 'bearing'],
    ['plastics', undefined, 'kind', 'plastic'],
    ['cheese', undefined, 'kind', undefined],
    ['bearing', '696A', 'name', '696'],
    ['belt', 'neopreen', 'name', 'neoprene'],
    ['plastic', 'bakelite', 'name', undefined],
    ['metal', '', 'name', undefined],
  ])('%s %s: unknown %s, nearest %s', (kind, name, asked, meant) => {
    const error = failure(kind, name);
    expect(error).toMatchObject({ asked, nearest: meant, found: name ?? kind });
    expect(error.message).toMatch(meant === undefined ? /known are/ : new RegExp(`did you mean ${meant}\\?`));
  });
});
