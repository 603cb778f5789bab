import type { Constant } from '../stock/row.js';

export const practice = (value: number, unit: string, meaning: string): Constant => ({
  value,
  unit,
  meaning,
  source: 'common practice, no source',
  status: 'common-practice',
});

/** What is taken where the builder has not measured it; each can be replaced under `assume`. */
export const BELT_WANDER = practice(2, 'mm', 'how far a tracked belt wanders to either side');
export const BELT_CROWN = practice(0.8, 'mm', 'how far a crown lifts the belt off the roller’s plain radius');
export const FRICTION_LOW = practice(
  0.15,
  '',
  'friction of a printed part on plastic at its least: what a grip may count on',
);
export const FRICTION_HIGH = practice(
  0.5,
  '',
  'friction of a printed part on plastic at its most: what a hand has to turn',
);
export const SIDE_PUSH = practice(20, 'N', 'sideways push at the terminal');
export const HAND_TORQUE = practice(6, 'N m', 'torque that a hand puts on a ring');
export const BELT_CHARGE = practice(16, 'uC/m2', 'charge density that pushes the belt’s runs apart');
/** What must stay free beyond the belt's diagonal for a belt to pass a tube. */
export const BELT_ROOM_MARGIN = practice(2, 'mm', 'room beyond the diagonal of the belt’s two runs');
/** What must stand around what a hub holds. */
export const HUB_WALL = practice(2, 'mm', 'wall of a hub around its bearing, its axle, and its nut');
/** What a roller's shell must be thick for two dogs to drive it. */
export const SHELL_WALL = practice(2.5, 'mm', 'wall of a shell that is driven by dogs in its notches');
/** How far an axle may be from the bore of its bearing before it is another size. */
export const AXLE_MISMATCH = practice(
  0.1,
  'mm',
  'difference of axle and bearing bore that a polish or a shim takes up',
);
/** How far a bearing's measured outside may be from its catalogue before it is another bearing. */
export const BEARING_MISMATCH = practice(
  0.2,
  'mm',
  'difference between a bearing’s measured outside and its catalogue',
);
/** What a collar with its screws needs on the plate beside the tube, both sides together. */
export const PLATE_BEYOND_TUBE = practice(
  80,
  'mm',
  'plate diameter beyond the tube’s, for collar and screws',
);
/** How much longer a round drive belt is on its pulleys than off them. */
export const ROUND_STRETCH = practice(7, '%', 'stretch of a round drive belt on its pulleys, of 5 to 10');
