import type { Item } from '../../parts/distances/scene.js';
import type { Way } from '../../parts/distances/way.js';
import type { Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { AT_ORIGIN, type Placement, type Vec3 } from '../../parts/solid/vector.js';

export const kernel = await loadKernel();

/** A box from its least to its greatest corner, mm. */
export const box = ([ax, ay, az]: Vec3, [bx, by, bz]: Vec3): Solid =>
  kernel.extrude(
    [
      [
        [ax, ay],
        [bx, ay],
        [bx, by],
        [ax, by],
      ],
    ],
    az,
    bz,
  );

/** Sides of what is turned: its polygon differs from the circle by less than 0.03 % in length. */
export const SIDES = 180;

/** A cylinder about z. */
export const cylinder = (radius: number, from: number, to: number): Solid =>
  kernel.revolve(
    [
      [0, from],
      [radius, from],
      [radius, to],
      [0, to],
    ],
    SIDES,
  );

/** Something to stand in a scene; with a net a conductor. */
export const item = (name: string, solid: Solid, net?: string, placement: Placement = AT_ORIGIN): Item => ({
  name,
  key: name,
  mesh: kernel.mesh(solid),
  placement,
  net,
});

/** A metal block of 2 mm, at terminal side `a` or ground side `b`, by its least corner. */
export const block = (name: string, net: string, [x, y, z]: Vec3): Item =>
  item(name, box([x, y, z], [x + 2, y + 2, z + 2]), net);

/** What runs along what, in short: `surface:plate`. */
export const legsOf = (way: Way): string[] => way.legs.map(({ kind, on }) => `${kind}:${on}`);

/** X of pollution degree 2, default spacing. */
export const OPTIONS = { bridge: 1, spacing: 5, upTo: 1.1 };

/** The accuracy that is stated. */
export const ACCURACY = 0.01;
