import { describe, expect, it } from 'vitest';
import { MACHINE_FILE } from '../../parts/machine/declarations.js';
import { type Leaf, leavesOf, type QuantityLeaf } from '../../parts/machine/declare.js';
import { convert } from '../../parts/machine/units.js';

const leaves = leavesOf(MACHINE_FILE);
const isQuantity = (leaf: Leaf): leaf is Extract<Leaf, QuantityLeaf> => 'range' in leaf;

describe.each(leaves)('%s', (_key, leaf) => {
  it('says what it means', () => expect(leaf.meaning.length).toBeGreaterThan(3));

  it('has a default that it would accept', () => {
    const { presence } = leaf;
    const defaults: unknown[] =
      presence.kind === 'default'
        ? [presence.value]
        : presence.kind === 'default-by'
          ? Object.values(presence.values)
          : [];
    for (const value of defaults) {
      if (isQuantity(leaf)) {
        expect(value).toBeGreaterThanOrEqual(leaf.range.min);
        expect(value).toBeLessThanOrEqual(leaf.range.max);
      } else if (leaf.kind === 'choice') {
        expect(leaf.choices).toContain(value);
      } else {
        expect(typeof value).toBe('boolean');
      }
    }
    if ('why' in presence) expect(presence.why.length).toBeGreaterThan(3);
  });
});

const quantities = leaves.flatMap(([key, leaf]) => (isQuantity(leaf) ? [[key, leaf] as const] : []));

it.each(quantities)('%s has bounds with a reason, and a bare unit of its own kind', (_key, leaf) => {
  expect(leaf.range.min).toBeLessThan(leaf.range.max);
  expect(Number.isFinite(leaf.range.min) && Number.isFinite(leaf.range.max)).toBe(true);
  expect(leaf.range.why.length).toBeGreaterThan(3);
  if (leaf.bare !== 'machine' && leaf.dimension !== 'number') {
    expect(convert(leaf.range.max, leaf.dimension, leaf.unit, leaf.bare)).toBeGreaterThan(0);
  }
});

it('refers only to choices that stand beside, before it', () => {
  const keys = leaves.map(([key]) => key);
  for (const [key, { presence }] of leaves) {
    if (!('key' in presence)) continue;
    const beside = [...key.split('.').slice(0, -1), presence.key].join('.');
    const choice = leaves.find(([other]) => other === beside)?.[1];
    if (choice?.kind !== 'choice') throw new Error(`${key} refers to ${beside}`);
    expect(keys.indexOf(beside)).toBeLessThan(keys.indexOf(key));
    const named = presence.kind === 'only-when' ? [presence.is] : Object.keys(presence.values);
    for (const value of named) expect(choice.choices).toContain(value);
    if (presence.kind === 'default-by') expect(named.sort()).toEqual([...choice.choices].sort());
  }
});

it('lets only readings take a list', () => {
  const readings = leaves.filter(([, leaf]) => leaf.kind === 'reading').map(([key]) => key);
  expect(readings).toEqual([
    'terminal.diameter',
    'terminal.height',
    'terminal.opening.diameter',
    'column.tube.outer',
    'column.tube.wall',
    'rollers.lower.outer',
    'rollers.lower.inner',
    'rollers.lower.bearing_outer',
    'rollers.upper.outer',
    'rollers.upper.inner',
    'rollers.upper.bearing_outer',
  ]);
});
