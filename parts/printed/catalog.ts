import { round } from '../machine/fits.js';
import type { Machine } from '../machine/machine.js';
import { axleBlock } from './axle-block.js';
import { axleSpacer } from './axle-spacer.js';
import { baseCollar } from './base-collar.js';
import { baseSkirt } from './base-skirt.js';
import { lowerCarrier } from './bearing-carrier-lower.js';
import { upperCarrier } from './bearing-carrier-upper.js';
import { lowerBar, upperBar } from './comb-bar.js';
import { lowerBracket, upperBracket } from './comb-bracket.js';
import { drillJig } from './drill-jig.js';
import { drillJigArm } from './drill-jig-arm.js';
import { motorPulley, rollerPulley } from './drive-pulley.js';
import { fitCoupon } from './fit-coupon.js';
import { foot } from './foot.js';
import type { Dimension, Dimensions } from './identity.js';
import { lipRingClip } from './lip-ring-clip.js';
import { lockRing } from './lock-ring.js';
import { motorBracket } from './motor-bracket.js';
import { openingJig } from './opening-jig.js';
import { codeFor, type PrintedPart, type Stated } from './part.js';
import { rimRing } from './rim-ring.js';
import { lowerHub } from './roller-hub-lower.js';
import { upperHub } from './roller-hub-upper.js';
import { lowerSleeve, upperSleeve } from './roller-sleeve.js';
import { terminalSeatHead } from './terminal-seat-head.js';
import { terminalSeatLeg } from './terminal-seat-leg.js';
import { tubeEndGuide } from './tube-end-guide.js';
import { tubeMount } from './tube-mount.js';
import { wandGrip } from './wand-grip.js';
import { wandGuard } from './wand-guard.js';
import { wandHead } from './wand-head.js';
import { wandPin } from './wand-pin.js';
import { wandPlug } from './wand-plug.js';
import { wandSegment } from './wand-segment.js';

/** Every printed part, in the order they go together, and after them the tools for it. Adding a part means adding it here. */
export const PARTS: readonly PrintedPart[] = [
  listed(baseSkirt),
  listed(lowerCarrier),
  listed(lowerBracket),
  listed(lowerBar),
  listed(motorBracket),
  listed(tubeMount),
  listed(baseCollar),
  listed(lockRing),
  listed(rimRing),
  listed(lowerSleeve),
  listed(upperSleeve),
  listed(upperHub),
  listed(upperCarrier),
  listed(axleBlock),
  listed(lowerHub),
  listed(axleSpacer),
  listed(upperBracket),
  listed(upperBar),
  listed(motorPulley),
  listed(rollerPulley),
  listed(foot),
  listed(terminalSeatLeg),
  listed(terminalSeatHead),
  listed(lipRingClip),
  listed(wandGrip),
  listed(wandGuard),
  listed(wandPlug),
  listed(wandSegment),
  listed(wandPin),
  listed(wandHead),
  listed(tubeEndGuide),
  listed(drillJig),
  listed(drillJigArm),
  listed(openingJig),
];

/** Each part knows the type of its own dimensions; a list of parts hands back to each only what it asked for. */
function listed<D extends Dimensions>(part: PrintedPart<D>): PrintedPart {
  return part as unknown as PrintedPart;
}

/** Whether a part is a tool for building the machine and no piece of it. */
export const isTool = ({ role }: Pick<PrintedPart, 'role'>): boolean => role === 'tool';

/** A part as one machine asks for it. */
export interface PartOrder {
  readonly part: PrintedPart;
  readonly dimensions: Dimensions;
  readonly code: string;
  readonly copies: number;
  readonly stated: Stated;
}

/** Dimensions of a part for a machine, rounded as they are hashed and built. */
export function dimensionsOf(part: PrintedPart, machine: Machine): Dimensions {
  const rounded = (value: Dimension): Dimension => {
    if (typeof value === 'number') return round(value);
    return typeof value === 'string' ? value : value.map(round);
  };
  const entries = Object.entries(part.dimensions(machine)).map(([key, value]) => [key, rounded(value)]);
  return Object.fromEntries(entries) as Dimensions;
}

/** All parts of a machine, with the code each will carry. */
export function ordersFor(machine: Machine): PartOrder[] {
  return PARTS.filter((part) => part.wanted?.(machine) ?? true).map((part) => orderFor(part, machine));
}

/** The coupon that its printer is measured with: printed before any part, and no part of the machine. */
export function couponOrder(machine: Machine): PartOrder {
  return orderFor(listed(fitCoupon), machine);
}

function orderFor(part: PrintedPart, machine: Machine): PartOrder {
  const dimensions = dimensionsOf(part, machine);
  const copies = typeof part.copies === 'number' ? part.copies : part.copies(machine);
  return { part, dimensions, code: codeFor(part, dimensions), copies, stated: part.stated(dimensions) };
}
