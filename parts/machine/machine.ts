import type { BearingMatch } from '../stock/bearings.js';
import type { BeltKey } from '../stock/belts.js';
import type { PlateKey, TerminalKey } from '../stock/metals.js';
import type { PlasticKey, TubeKey } from '../stock/plastics.js';
import type { BaseLayout } from './base.js';
import type { LowerCarrier, UpperCarrier } from './carrier.js';
import type { CombDesign } from './comb.js';
import type { BELT_CHARGINGS } from './declarations-pieces.js';
import type { DriveDesign } from './drive.js';
import type { FeetDesign } from './feet.js';
import type { Calibration, Fit } from './fits.js';
import type { Grip } from './grip.js';
import type { HubDesign } from './hub.js';
import type { JigDesign } from './jigs.js';
import type { LipClip, RingSeat } from './lip-ring.js';
import type { Assumed, MachineValues } from './read.js';
import type { Reading } from './reading.js';
import type { RimDesign } from './rim.js';
import type { SeatDesign } from './seat.js';
import type { SleeveDesign } from './sleeve.js';
import type { WandDesign } from './wand.js';

/**
 * The whole machine with every dimension decided. All lengths in mm in one frame: z up along the column's axis, z = 0
 * at the plate's top face, belt in the x-z plane with its rising run at +x, roller axes along y. Everything after this
 * is a pure function of it.
 */
export interface Machine {
  readonly name: string;
  /** What was measured, so that a remedy can be tried by resolving again with one value changed. */
  readonly values: MachineValues;
  /** Values nobody wrote down, as taken. */
  readonly assumed: readonly Assumed[];
  readonly site: {
    /** m, C, %, kPa, m3 */
    readonly altitude: number;
    readonly temperature: number;
    readonly humidity: number;
    readonly pressure: number;
    readonly cleanliness: 'clean' | 'dusty' | 'damp';
    readonly room: number;
    /** Air density over that at 20 C and 101.3 kPa. */
    readonly relativeDensity: number;
  };
  /** V; undefined when the builder has no target. */
  readonly targetVoltage: number | undefined;
  /** mm, diameter of the grounded ball that sparks are drawn to. */
  readonly ball: number;
  readonly caliperError: number;
  readonly tube: Tube;
  readonly terminal: Terminal;
  readonly belt: Belt;
  readonly rollers: { readonly lower: Roller; readonly upper: Roller };
  readonly drive: DriveDesign;
  readonly feet: FeetDesign;
  readonly combs: { readonly lower: CombDesign; readonly upper: CombDesign };
  readonly plate: {
    readonly material: PlateKey;
    readonly conductive: boolean;
    readonly diameter: number;
    readonly thickness: number;
    /** Height of the feet under the plate, and of the bench over the floor. */
    readonly feet: number;
    readonly bench: number;
  };
  readonly print: Print;
  readonly grip: Grip;
  readonly base: BaseLayout;
  readonly rim: RimDesign;
  readonly carriers: { readonly lower: LowerCarrier; readonly upper: UpperCarrier };
  readonly seat: SeatDesign;
  /** Of the terminal's ring; undefined where it has none. */
  readonly lipClip: LipClip | undefined;
  /** A tool beside the machine, in a frame of its own. */
  readonly wand: WandDesign;
  readonly hubs: { readonly lower: HubDesign; readonly upper: HubDesign };
  /** Tools that are printed for cutting and drilling. */
  readonly jigs: JigDesign;
  /** Every fit between a printed and a bought piece. */
  readonly fits: readonly Fit[];
  /** Physical assumptions the builder replaced by their own; undefined where the tables' range applies. */
  readonly assume: Assume;
}

export interface Tube {
  readonly material: TubeKey;
  readonly outer: Reading;
  readonly wall: Reading;
  /** Inside diameter: worst cases of outside and wall together. */
  readonly inner: { readonly low: number; readonly likely: number; readonly high: number };
  readonly length: number;
  readonly footZ: number;
  readonly rimZ: number;
}

export interface Terminal {
  readonly shape: 'sphere' | 'shell';
  readonly material: TerminalKey;
  readonly diameter: Reading;
  /** Outside height from the lip's plane to the top; for a sphere follows from diameter and opening. */
  readonly height: number;
  readonly shell: number;
  readonly openingDiameter: Reading;
  readonly lipRadius: number;
  /** A closed ring under the cut edge makes the lip; undefined where the sheet does. */
  readonly ring: RingSeat | undefined;
  readonly insertion: number;
  readonly lipZ: number;
  /** Centre of the sphere, or of the shell's widest section. */
  readonly centreZ: number;
  readonly topZ: number;
}

export type BeltCharging = (typeof BELT_CHARGINGS)[number];

export interface Belt {
  readonly material: BeltKey;
  readonly width: number;
  readonly thickness: number;
  /** %, fitted minus free over free */
  readonly stretch: number;
  /** ohm across the belt's length when measured */
  readonly resistance: number | undefined;
  /** Where the lower comb's charge comes from. */
  readonly charging: BeltCharging;
  readonly loopLength: number;
  readonly freeLength: number;
  /** m/s */
  readonly speed: number;
  readonly wander: number;
  readonly crown: number;
  /** Electrostatic bulge of a run, and the tension it was found with (N). */
  readonly bulge: number;
  readonly tension: number;
  /** Diagonal the belt needs, and the tube's room for it. */
  readonly room: { readonly needed: number; readonly available: number };
}

export interface Roller {
  readonly end: 'lower' | 'upper';
  /** Of the shell, and of what the belt touches. */
  readonly material: PlasticKey;
  readonly surface: PlasticKey;
  /** What the belt runs on, off the crown. */
  readonly outer: Reading;
  /** The shell as bought: the same, where no sleeve is on it. */
  readonly shell: Reading;
  readonly inner: Reading;
  readonly length: number;
  readonly crown: number;
  readonly sleeve: SleeveDesign | undefined;
  readonly axisZ: number;
  readonly axle: {
    readonly kind: 'live' | 'dead';
    readonly diameter: number;
    readonly flat: number;
    /** y of its ends as cut. */
    readonly from: number;
    readonly to: number;
  };
  readonly bearing: BearingMatch;
}

export interface Print {
  readonly material: PlasticKey;
  readonly nozzle: number;
  readonly layer: number;
  readonly bed: { readonly x: number; readonly y: number; readonly z: number };
  readonly calibration: Calibration;
  readonly conductive: boolean;
}

export interface Assume {
  readonly surfaceFactor: number | undefined;
  readonly beltFraction: number | undefined;
  /** pF */
  readonly bodyCapacitance: number | undefined;
  readonly frictionLow: number;
  readonly frictionHigh: number;
  /** N, sideways at the terminal */
  readonly sidePush: number;
  /** N m */
  readonly handTorque: number;
  /** kV/cm, replaces the likely gradient along the column */
  readonly columnGradient: number | undefined;
  /** kV/cm */
  readonly streamerGradient: number | undefined;
  readonly lnN: number | undefined;
  /** mm, on each edge */
  readonly beltMargin: number | undefined;
  /** uC/m2, without sign */
  readonly rollerCharge: number | undefined;
  /** V */
  readonly combOnset: number | undefined;
  /** ohm per square */
  readonly surfaceResistivity: number | undefined;
  /** cm2/Vs */
  readonly coronaMobility: number | undefined;
  readonly sparkShare: number | undefined;
  /** g/kWh */
  readonly ozoneYield: number | undefined;
  /** 1/h */
  readonly ozoneDecay: number | undefined;
  /** 1/h */
  readonly airChanges: number | undefined;
}
