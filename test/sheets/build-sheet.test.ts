import { describe, expect, it } from 'vitest';
import { plateHoles } from '../../parts/machine/plate-holes.js';
import { isTool, ordersFor } from '../../parts/printed/catalog.js';
import { buildSheet, fastenerTotals, TOOLS_TITLE } from '../../parts/sheets/build-sheet.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

describe.each(STARTERS)('notes for the build of %s', (starter) => {
  const machine = starterMachine(starter);
  const orders = ordersFor(machine);
  const text = buildSheet(machine, orders, { made: [], findings: [], prints: [] }).replace(/\s+/g, ' ');

  it('tell where every hole of the plate is', () => {
    const { bracketHoles, feetHoles } = plateHoles(machine);
    expect([bracketHoles.length, feetHoles.length]).toEqual([4, 4]);
    for (const [x, y] of [...bracketHoles, ...feetHoles])
      expect(text).toContain(`${x.toFixed(1)}, ${y.toFixed(1)}`);
  });

  it('tell where the pins of the drill jig’s arm stand', () => {
    expect(text).toContain('150 and 210 degrees, letters up, for the four bracket holes');
    for (const angle of machine.feet.angles) expect(text).toContain(`for the foot at ${angle} degrees`);
  });

  it('have a step for each part, and list what is to be bought for them', () => {
    for (const { part } of orders.filter(({ part }) => !isTool(part)))
      expect(text).toMatch(new RegExp(` \\d+\\. ${part.id}: `));
    const from = text.indexOf('SCREWS, NUTS');
    const bought = text.slice(from, text.indexOf('CUT AND DRILL', from));
    for (const item of ['strip of copper foil', 'metal ball']) expect(bought).toContain(item);
    expect(text).not.toContain('STILL YOUR OWN');
  });

  it('list the tools apart, what for and how they are used, and in no step', () => {
    const tools = orders.filter(({ part }) => isTool(part));
    expect(tools.length).toBeGreaterThan(0);
    const from = text.indexOf(TOOLS_TITLE);
    const list = text.slice(from, text.indexOf('STILL YOUR OWN'));
    expect(from).toBeGreaterThan(0);
    for (const { part, code, copies } of tools) {
      expect(list).toContain(`- ${part.id}.stl x${copies} code ${code}: `);
      expect(list).toContain(`${part.purpose.slice(1)}. ${part.assembly.replace(/\s+/g, ' ')}`);
      expect(text).not.toMatch(new RegExp(` \\d+\\. ${part.id}: `));
    }
    for (const { part } of orders.filter(({ part }) => !isTool(part)))
      expect(list).not.toContain(`- ${part.id}.stl`);
  });

  it('put the lower roller in after ring and belt, and take it out before them', () => {
    const at = (words: string) => {
      const place = text.indexOf(words);
      expect(place, words).toBeGreaterThan(0);
      return place;
    };
    expect(at('. lower roller: put it together')).toBeGreaterThan(at('. rim-ring: Heat'));
    expect(at('draw the lower roller down')).toBeLessThan(at('Lift the rim ring out'));
  });

  it('count each kind of fastener once', () => {
    const kinds = fastenerTotals(machine, orders).map(
      ({ what, size, length }) => `${what} ${size} ${length}`,
    );
    expect(new Set(kinds).size).toBe(kinds.length);
    expect(kinds.filter((kind) => kind.startsWith('heat-set insert M3'))).toHaveLength(1);
    expect(kinds.join()).not.toContain('set collar');
  });
});
