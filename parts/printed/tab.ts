import { rectangle } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { slotFromFlat } from '../solid/sections.js';

/** The pad on which a comb’s bracket is screwed: it stands in from a ring’s bore so that the insert has wall all round. mm */
export const TAB_WIDTH = 20;
const INSERT_WALL = 7;

const tabFrom = (insertAt: number) => insertAt - INSERT_WALL;

/** A block from inside the bore into the ring’s wall, at +x; nothing when the ring is wide enough by itself. */
export const tabInside = Object.assign(
  (insertAt: number, boreRadius: number, bottom: number, top: number, k: Kernel): Solid =>
    k.extrude(
      [rectangle(tabFrom(insertAt), -TAB_WIDTH / 2, Math.max(boreRadius + 1.5, insertAt), TAB_WIDTH / 2)],
      bottom,
      top,
    ),
  {
    /** Area the block adds inside a bore of the given radius, mm2. */
    area: (insertAt: number, boreRadius: number): number =>
      slotFromFlat(tabFrom(insertAt), boreRadius, TAB_WIDTH),
  },
);

const INDEX = { from: 6.4, to: 9 };

/** The line that the bracket’s scale is read against, beside its foot on both sides. */
export const indexLine = Object.assign(
  (at: number, face: number, k: Kernel): Solid => {
    const line = (from: number, to: number) =>
      rectangle(at - MARK_STROKE / 2, from, at + MARK_STROKE / 2, to);
    return k.extrude([line(INDEX.from, INDEX.to), line(-INDEX.to, -INDEX.from)], face - MARK_DEPTH, face + 1);
  },
  { volume: 2 * MARK_DEPTH * MARK_STROKE * (INDEX.to - INDEX.from) },
);
