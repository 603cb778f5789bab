import { coneSlope } from '../machine/grip.js';
import type { HubDesign } from '../machine/hub.js';
import type { Machine } from '../machine/machine.js';
import { convexOverlap, cutBeyond } from '../solid/clip.js';
import { circumscribed, holeLoop, polygon, shaftLoop, sidesFor } from '../solid/facets.js';
import { teardrop } from '../solid/outline.js';
import { integrate, loopArea, slotThroughRing } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { SPIGOT_LEAD_IN } from './part.js';
import { opensToBore } from './rim-ring.js';
import { SEAT_LEAD_IN } from './roller-hub-upper.js';
import { sleeveSides } from './roller-sleeve.js';

/** Two placed pieces that are meant to overlap as drawn: a press fit, or fingers closed by their ring. */
export interface Overlap {
  readonly a: string;
  readonly b: string;
  /** mm3 for each pair; every other pair of pieces may only touch. */
  readonly volume: number;
  /** How many pairs of copies overlap so. */
  readonly pairs: number;
  readonly why: string;
}

/** Overlaps declared by the fits of a machine, from closed forms of the polygons as drawn. */
export function declaredOverlaps(machine: Machine): Overlap[] {
  return [closedFingers(machine), ...pressFits(machine), ...driveFits(machine)].filter(
    (overlap) => overlap.volume > 0,
  );
}

/** Fingers are drawn open; at the ring’s place its cone stands in them by as much as they bend in. */
function closedFingers({ grip }: Machine): Overlap {
  const { mount, ring } = grip;
  const ringAt = ring.openAt - grip.stroke.likely;
  const mountSides = sidesFor(mount.footRadius);
  const ringSides = sidesFor(ring.outerRadius);
  const head = (z: number) =>
    z < mount.headBottom
      ? mount.headRadius - (mount.headBottom - z)
      : mount.headRadius - (z - mount.headBottom) * coneSlope;
  const cone = (z: number) => ring.coneRadius - (z - ringAt - ring.coneBottom) * coneSlope;
  const section = (z: number) => {
    const [shaft, hole] = [head(z), cone(z)];
    if (shaft <= hole) return 0;
    const solid =
      loopArea(polygon(shaft, mountSides)) - loopArea(polygon(circumscribed(hole, ringSides), ringSides));
    return Math.max(0, solid - grip.fingers * slotThroughRing(hole, shaft, grip.slotWidth));
  };
  const depth = mount.headRadius - cone(mount.headBottom);
  const neck = mount.headBottom - Math.max(0, depth) / (1 + coneSlope);
  const volume =
    integrate(section, neck, mount.headBottom) + integrate(section, mount.headBottom, mount.headTop);
  return { a: 'tube-mount', b: 'lock-ring', volume, pairs: 1, why: 'fingers closed on the likely tube' };
}

function pressFits({ hubs, rollers, tube, rim, grip }: Machine): Overlap[] {
  const result: Overlap[] = [];
  const tubeOuter = shaftLoop(tube.outer.mean / 2);
  const pilot = drawnHole(grip.mount.pilotRadius, sidesFor(grip.mount.footRadius));
  result.push({
    a: 'tube-mount',
    b: 'tube',
    volume: standOut(tubeOuter, pilot) * (grip.mount.pilotTop - grip.mount.pilotBottom),
    pairs: 1,
    why: 'pilot pressed on the tube',
  });
  const spigot = polygon(rim.spigotFit.drawn / 2, sidesFor(rim.flangeRadius));
  result.push({
    a: 'rim-ring',
    b: 'tube',
    volume:
      standOut(spigot, holeLoop(tube.inner.likely / 2)) *
      (rim.spigotLength - SPIGOT_LEAD_IN) *
      (1 - recessed(rim)),
    pairs: 1,
    why: 'spigot pressed into the tube',
  });
  for (const end of ['lower', 'upper'] as const) {
    const hub = hubs[end];
    const shaft = polygon(hub.spigotFit.drawn / 2, sidesFor(hub.flangeRadius));
    const shell = holeLoop(rollers[end].inner.mean / 2);
    result.push({
      a: `roller-hub-${end}`,
      b: `roller-shell-${end}`,
      volume:
        standOut(shaft, shell) *
        (hub.spigotLength - SPIGOT_LEAD_IN - hub.notch.depth * notched(hub, hub.spigotFit.drawn / 2)),
      pairs: 2,
      why: 'spigot pressed into the shell',
    });
    const { sleeve, shell: bare } = rollers[end];
    if (sleeve) {
      const bore = drawnHole(sleeve.fit.drawn / 2, sleeveSides(sleeve));
      result.push({
        a: `roller-sleeve-${end}`,
        b: `roller-shell-${end}`,
        volume:
          standOut(shaftLoop(bare.mean / 2), bore) *
          (sleeve.length - 2 * hub.notch.depth * notched(hub, bare.mean / 2)),
        pairs: 1,
        why: 'sleeve pressed on the shell',
      });
    }
    if (hub.dead) {
      const { seatFit, seatDepth } = hub.dead;
      const ring = shaftLoop(seatFit.bought.likely / 2);
      const seat = (widened: number) => standOut(ring, drawnHole(seatFit.drawn / 2 + widened));
      const foot = seatDepth - rollers[end].bearing.width;
      result.push({
        a: `roller-hub-${end}`,
        b: `bearing-${end}`,
        volume:
          seat(0) * (seatDepth - SEAT_LEAD_IN) + integrate((z) => seat(SEAT_LEAD_IN - z), foot, SEAT_LEAD_IN),
        pairs: 2,
        why: 'bearing pressed into its seat',
      });
    }
    if (hub.live) {
      const axle = cutBeyond(
        shaftLoop(rollers[end].axle.diameter / 2),
        0,
        rollers[end].axle.diameter / 2 - rollers[end].axle.flat,
      );
      const bore = cutBeyond(
        drawnHole(hub.live.boreFit.drawn / 2, sidesFor(hub.flangeRadius)),
        0,
        hub.live.flatDistance,
      );
      result.push({
        a: `roller-hub-${end}`,
        b: `axle-${end}`,
        volume:
          standOut(axle, bore) * (hub.flangeThickness + hub.spigotLength) -
          screwMouth(hub.live, rollers[end].axle),
        pairs: 2,
        why: 'hub pressed on its axle',
      });
    }
  }
  return result;
}

/** Share of the rim ring's spigot that the recesses of the cheeks' screws take away, on both sides. */
function recessed({ screws, headRadius, spigotFit, spigotInnerRadius }: Machine['rim']): number {
  const radius = spigotFit.drawn / 2;
  const half = (from: number) => {
    if (opensToBore(from, headRadius, spigotInnerRadius)) return Math.asin(headRadius / radius);
    const cos = (radius ** 2 + from ** 2 - headRadius ** 2) / (2 * radius * from);
    return cos >= 1 ? 0 : Math.acos(cos);
  };
  return screws.reduce((sum, [x, y]) => sum + (4 * half(Math.hypot(x, y))) / (2 * Math.PI), 0);
}

/** Pulleys on shaft and axle, and the motor's pilot in its bracket, where a hole is drawn narrower than what it takes. */
function driveFits({ drive, rollers }: Machine): Overlap[] {
  const { motor, bracket, pulley, place } = drive;
  const { shaft } = motor.face;
  const shaftEnd = bracket.face - bracket.faceThickness + shaft.length;
  const onShaft = (
    on: 'motor' | 'roller',
    piece: string,
    rod: { diameter: number; flat: number },
    long: number,
  ) => {
    const own = pulley[on];
    const bore = cutBeyond(
      drawnHole(own.boreFit.drawn / 2, sidesFor(Math.max(own.rimRadius, own.hubRadius))),
      0,
      own.flatDistance,
    );
    const solid = cutBeyond(shaftLoop(rod.diameter / 2), 0, rod.diameter / 2 - rod.flat);
    return {
      a: `drive-pulley-${on}`,
      b: piece,
      volume: standOut(solid, bore) * long - screwMouth(own, rod),
      pairs: 1,
      why: 'pulley pressed on its shaft',
    };
  };
  const pilot = standOut(
    shaftLoop(bracket.pilotFit.bought.likely / 2),
    drawnHole(bracket.pilotFit.drawn / 2),
  );
  return [
    onShaft(
      'motor',
      'motor',
      shaft,
      Math.min(pulley.motor.width, shaftEnd - (place.motor - pulley.motor.width)),
    ),
    onShaft('roller', 'axle-lower', rollers.lower.axle, pulley.roller.width),
    {
      a: 'motor-bracket',
      b: 'motor',
      volume: pilot * Math.min(motor.face.pilot_height, bracket.faceThickness),
      pairs: 1,
      why: 'pilot pressed into the bracket',
    },
  ];
}

/** Share of a shell’s bore that its two notches take away. */
function notched(hub: HubDesign, radius: number): number {
  return (2 * Math.asin(hub.notch.width / 2 / radius)) / Math.PI;
}

const drawnHole = (radius: number, sides = sidesFor(radius)): Loop =>
  polygon(circumscribed(radius, sides), sides);

/** Where the set screw’s hole opens in the flat, nothing presses on the axle. mm3 */
function screwMouth(
  live: { readonly flatDistance: number; readonly screwHole: number },
  axle: { diameter: number; flat: number },
): number {
  const pressed = Math.max(0, axle.diameter / 2 - axle.flat - live.flatDistance);
  return loopArea(teardrop(live.screwHole / 2, [0, 0])) * pressed;
}

/** Area (mm2) by which a shaft stands out of its hole. */
export function standOut(shaft: Loop, hole: Loop): number {
  return Math.max(0, loopArea(shaft) - convexOverlap(shaft, hole));
}
