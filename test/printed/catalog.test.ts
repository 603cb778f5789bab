import { describe, expect, it } from 'vitest';
import { assembly } from '../../parts/printed/assembly.js';
import { isTool, ordersFor, PARTS } from '../../parts/printed/catalog.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

describe.each(STARTERS)('%s', (starter) => {
  const machine = starterMachine(starter);

  it('has a place for every copy of every part that is no tool, and none for a tool', () => {
    const pieces = assembly(machine);
    for (const { part } of ordersFor(machine)) {
      const placed = pieces.filter(({ of }) => of === part.id).length;
      expect(placed, part.id).toBe(isTool(part) ? 0 : part.copies);
    }
  });
});

it('lists the tools after the parts, no id twice', () => {
  const tools = PARTS.map(isTool);
  expect(tools.indexOf(true)).toBe(tools.lastIndexOf(false) + 1);
  const ids = PARTS.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
});
