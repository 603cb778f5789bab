import { describe, expect, it } from 'vitest';
import { ozoneConcentration, ozoneParts, roomOzone } from '../../../parts/field/charge/ozone.js';
import { starterMachine } from '../../helpers/machines.js';
import { variant } from '../../helpers/variants.js';

const ROOM = { volume: 50, airChanges: 1, decay: 1.5 };
const power = { range: { low: 0.1, likely: 0.3, high: 0.6 }, what: 'power of the coronas' };

describe('ozone in a room', () => {
  // 0.36 W at 25 g/kWh make 9 mg an hour; 50 m3 changed 2.5 times an hour carry away 125 m3: 0.072 mg/m3.
  it('is what is made over what is carried away', () =>
    expect(ozoneConcentration(0.36, 25, ROOM) * 1e6).toBeCloseTo(0.072, 12));

  it('is none without corona', () => expect(ozoneConcentration(0, 25, ROOM)).toBe(0));

  // Molar volume at 25 C and 101.325 kPa 24.465 l: 1 ppm of 47.998 g/mol is 1.962 mg/m3; at 20 C 24.055 l, 1.995 mg/m3.
  it('counts parts by the law of ideal gases', () => {
    expect(ozoneParts(1.962e-6, 25, 101.325)).toBeCloseTo(1, 3);
    expect(ozoneParts(1.995e-6, 20, 101.325)).toBeCloseTo(1, 3);
  });

  it('has a range that keeps its order, and a smaller one once the yield is measured', () => {
    const table = roomOzone(starterMachine('travelling-demonstrator'), power);
    const measured = roomOzone(variant('travelling-demonstrator', { assume: { ozone_yield: 22 } }), power);
    expect(table.low).toBeLessThan(table.likely);
    expect(table.high).toBeGreaterThan(table.likely);
    expect(measured.likely).toBeCloseTo(table.likely, 12);
    expect(measured.high).toBeLessThan(table.high);
  });

  it('is less in a larger room, a ventilated one and one that takes it up', () => {
    const at = (over: Parameters<typeof variant>[1]) =>
      roomOzone(variant('travelling-demonstrator', over), power).likely;
    const table = at({});
    expect(at({ site: { room: 100 } })).toBeCloseTo(table / 2, 12);
    expect(at({ assume: { air_changes: 8 } })).toBeLessThan(table);
    expect(at({ assume: { ozone_decay: 8 } })).toBeLessThan(table);
  });

  it('refuses nonsense', () => {
    expect(() => ozoneConcentration(-1, 25, ROOM)).toThrow(/power/);
    expect(() => ozoneConcentration(1, 25, { ...ROOM, airChanges: 0, decay: 0 })).toThrow(/out of a room/);
    expect(() => ozoneConcentration(1, 25, { ...ROOM, volume: 0 })).toThrow(/volume/);
    expect(() => ozoneParts(1e-6, -300, 101.3)).toThrow(/absolute zero/);
  });
});
