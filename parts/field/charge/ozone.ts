import type { Machine } from '../../machine/machine.js';
import type { Constant } from '../../stock/row.js';
import { measuredOr, type Propagated, propagated, rangeOf, type Uncertain } from '../range.js';
import { AIR_CHANGES, OZONE_DECAY, OZONE_YIELD } from './assumptions.js';
import { mustBePositive, mustNotBeNegative } from './door.js';

/** Limit for people at work, averaged over eight hours. */
export const OZONE_LIMIT: Constant = {
  value: 0.1,
  unit: 'ppm',
  meaning: 'ozone in air, average over a working day',
  source: 'OSHA permissible exposure limit, chemical sampling sheet: 0.1 ppm, 0.2 mg/m3',
  status: 'verified',
};

const GAS_CONSTANT: Constant = {
  value: 8.314462618,
  unit: 'J/(mol K)',
  meaning: 'molar gas constant',
  source: 'CODATA 2018',
  status: 'from-memory',
};

const OZONE_MOLAR_MASS: Constant = {
  value: 0.047998,
  unit: 'kg/mol',
  meaning: 'molar mass of ozone, three oxygen atoms of 15.9994 g/mol',
  source: 'IUPAC atomic weight of oxygen',
  status: 'from-memory',
};

const JOULES_PER_KILOWATT_HOUR = 3.6e6;
const SECONDS_PER_HOUR = 3600;

/** A room that ozone is made in. */
export interface Room {
  /** m3 */
  readonly volume: number;
  /** 1/h */
  readonly airChanges: number;
  /** 1/h, taken up by surfaces */
  readonly decay: number;
}

/**
 * Ozone (kg/m3) that a room settles at, after some hours and well mixed: made over taken away, P y/(V (n + k)).
 * @param power W that coronas take
 * @param perKilowattHour g/kWh
 */
export function ozoneConcentration(power: number, perKilowattHour: number, room: Room): number {
  mustNotBeNegative(power, 'a corona’s power');
  mustNotBeNegative(perKilowattHour, 'an ozone yield');
  mustBePositive(room.volume, 'a room’s volume');
  mustBePositive(room.airChanges + room.decay, 'what takes ozone out of a room');
  const perSecond = power * (perKilowattHour / 1000 / JOULES_PER_KILOWATT_HOUR);
  return perSecond / (room.volume * ((room.airChanges + room.decay) / SECONDS_PER_HOUR));
}

/** Volume share (ppm) of ozone in air, by the law of ideal gases. @param density kg/m3 @param temperature C @param pressure kPa */
export function ozoneParts(density: number, temperature: number, pressure: number): number {
  mustNotBeNegative(density, 'a concentration');
  mustBePositive(temperature + 273.15, 'a temperature above absolute zero');
  mustBePositive(pressure, 'an air pressure');
  const molarVolume = (GAS_CONSTANT.value * (temperature + 273.15)) / (pressure * 1000);
  return (density / OZONE_MOLAR_MASS.value) * molarVolume * 1e6;
}

/** Ozone (ppm) in the machine's room while its coronas take a power (W). */
export function roomOzone({ site, assume }: Machine, power: Uncertain): Propagated {
  const exactly = (value: number) => ({ low: value, likely: value, high: value });
  return propagated(
    {
      power,
      yield: {
        range: measuredOr(rangeOf(OZONE_YIELD), assume.ozoneYield),
        what: 'ozone made for the energy',
      },
      airChanges: {
        range: measuredOr(rangeOf(AIR_CHANGES), assume.airChanges),
        what: 'air changes of the room',
      },
      decay: {
        range: measuredOr(exactly(OZONE_DECAY.value), assume.ozoneDecay),
        what: 'ozone taken up by the room’s surfaces',
      },
    },
    (at) =>
      ozoneParts(
        ozoneConcentration(at.power, at.yield, {
          volume: site.room,
          airChanges: at.airChanges,
          decay: at.decay,
        }),
        site.temperature,
        site.pressure,
      ),
  );
}
