import { OZONE_LIMIT } from '../field/charge/ozone.js';
import { attempt } from './change.js';
import type { Check } from './check.js';
import { judge } from './judge.js';

/** Ozone that the room settles at after hours of running, beside the limit for people who work in it all day. */
export const checkOzone: Check = (machine, { prediction: { ozone } }) => {
  const needed = Math.ceil(machine.site.room * (ozone.high / OZONE_LIMIT.value));
  return [
    judge({
      id: 'air/ozone',
      title: `Ozone in a room of ${machine.site.room} m3 after hours of running`,
      measured: ozone.likely,
      worst: ozone.high,
      required: OZONE_LIMIT.value,
      unit: OZONE_LIMIT.unit,
      sense: 'max',
      basis: `${OZONE_LIMIT.meaning}, ${OZONE_LIMIT.source}; ${ozone.low.toPrecision(2)}, ${ozone.likely.toPrecision(2)}, ${ozone.high.toPrecision(2)} ppm (low, likely, high), all that the belt brings up taken to end in corona or sparks; depends most on ${ozone.dominated_by}`,
      // The yield behind it is from memory.
      status: 'from-memory',
      remedy: () => ({
        text: `open windows, run it for minutes instead of hours, or use a room of ${needed} m3`,
        tries: attempt(machine, `a room of ${needed} m3`, { 'site.room': needed }, () => true),
      }),
      at: { point: [0, 0, machine.terminal.topZ] },
    }),
  ];
};
