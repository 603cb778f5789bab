import { pressureAt, relativeDensity, VACUUM_PERMITTIVITY } from '../stock/air.js';
import { type BearingMatch, findBearing } from '../stock/bearings.js';
import { beltMaterial } from '../stock/belts.js';
import { plateMaterial } from '../stock/metals.js';
import {
  BELT_CHARGE,
  BELT_CROWN,
  BELT_ROOM_MARGIN,
  BELT_WANDER,
  FRICTION_HIGH,
  FRICTION_LOW,
  HAND_TORQUE,
  SIDE_PUSH,
} from './allowances.js';
import { designBase, skirtRadius } from './base.js';
import { beltRoom, beltSpeed, freeLength, openBelt } from './belt-path.js';
import { designLowerCarrier, designUpperCarrier, skirtInserts } from './carrier.js';
import { type CombDesign, designComb, INSERT_TO_EDGE, LEAST_BRACKET, planeOffset } from './comb.js';
import { designDrive, designPulleys, pulleyWidth } from './drive.js';
import { designFeet } from './feet.js';
import type { Calibration, Span } from './fits.js';
import { designGrip, FOOT_HEIGHT } from './grip.js';
import { bearingSpan, designHub, type HubDesign } from './hub.js';
import { designJigs } from './jigs.js';
import { designLipClip, polarOver, ringSeat } from './lip-ring.js';
import type { Belt, Machine, Roller, Terminal, Tube } from './machine.js';
import type { Assumed, MachineValues } from './read.js';
import { designRim, RIM_FLANGE } from './rim.js';
import { designSeat } from './seat.js';
import { designSleeve, runningSurface } from './sleeve.js';
import { designWand } from './wand.js';

/** mm over the tube’s rim: the upper axis stands a roller’s radius and this above it. */
const ABOVE_RIM = 9;
/** mm under skirt and plate: room for the carrier and for the tension screws’ travel. The axis goes down in steps of 5. */
const BELOW_SKIRT = 13.5;
const LOWER_STEP = 5;
/** mm of lower axle beyond its carrier, and beyond its pulley. */
const AXLE_BEYOND = 1;
/** mm between what goes through the terminal’s opening and its edge. Common practice asks 3. */
const OPENING_CLEARANCE = 3;

/**
 * Decides every dimension of the machine from what was measured.
 * @param values as checked by `readMachineFile`: complete, in mm, C, V, and free of contradictions
 */
export function resolveMachine(values: MachineValues, assumed: readonly Assumed[]): Machine {
  const { site, print, fits, assume } = values;
  const { hole, outside, hole_scale, outside_scale, scatter } = print.calibration;
  const calibration: Calibration = {
    hole,
    outside,
    holeScale: hole_scale,
    outsideScale: outside_scale,
    scatter,
  };
  const pressure = site.pressure ?? pressureAt(site.altitude);
  const tube = resolveTube(values);
  const { plate } = values.base;
  const caliperError = values.measuring.caliper_error;

  const grip = designGrip(
    { outer: tube.outer, innerRadius: tube.inner.likely / 2 },
    fits.pilot,
    caliperError,
    calibration,
  );
  const base = designBase(grip, plate.thickness, calibration);

  const surfaces = {
    lower: runningSurface(values.rollers.lower, scatter),
    upper: runningSurface(values.rollers.upper, scatter),
  };
  const lowerRadius = surfaces.lower.mean / 2;
  const skirtBottom = plate.thickness + base.skirt.thickness;
  const lowerAxis = -Math.ceil((skirtBottom + lowerRadius + BELOW_SKIRT) / LOWER_STEP) * LOWER_STEP;
  const upperAxis = tube.rimZ + Math.round(upperAxisOverRim(values, surfaces.upper.mean));
  const axes = { lower: lowerAxis, upper: upperAxis };
  const found = { lower: bearingOf('lower', values), upper: bearingOf('upper', values) };

  const hub = (end: 'lower' | 'upper'): HubDesign => {
    const { axle, inner, bearing_outer: bearingOuter } = values.rollers[end];
    return designHub(
      {
        end,
        kind: axle.kind,
        shell: { outer: surfaces[end], inner },
        axle,
        bearing: found[end],
        bearingOuter,
        classes: fits,
        layer: print.layer,
      },
      calibration,
    );
  };
  const hubs = { lower: hub('lower'), upper: hub('upper') };
  const carried = (end: 'lower' | 'upper') => ({
    hubFace: values.rollers[end].length / 2 + hubs[end].flangeThickness,
    axle: values.rollers[end].axle,
    bearing: found[end],
    calibration,
  });
  const terminal = resolveTerminal(values, tube.rimZ);
  const lipClip =
    terminal.ring &&
    designLipClip(
      terminal.ring,
      {
        sheet: terminal.shell,
        equatorial: terminal.diameter.mean / 2,
        polar: polarOver(terminal.ring, terminal.diameter.mean / 2, terminal.height),
      },
      calibration,
    );
  const reach = values.terminal.opening.diameter.low / 2 - (lipClip?.inside ?? 0) - OPENING_CLEARANCE;
  const standsAt = tube.rimZ + RIM_FLANGE;
  const carriers = {
    lower: designLowerCarrier({
      ...carried('lower'),
      bearingOuter: bearingSpan(found.lower, values.rollers.lower.bearing_outer),
      axisBelow: -lowerAxis - skirtBottom,
    }),
    upper: designUpperCarrier({ ...carried('upper'), axisOver: upperAxis - standsAt, reach }),
  };
  const pulley = designPulleys(values, calibration);
  const ends = {
    lower: {
      from: -(carriers.lower.outerFace + AXLE_BEYOND),
      to: carriers.lower.outerFace + pulleyWidth(pulley.roller) + AXLE_BEYOND,
    },
    upper: { from: -carriers.upper.outerFace, to: carriers.upper.outerFace },
  };
  const roller = (end: 'lower' | 'upper'): Roller => {
    const { material, outer, inner, length, crown, axle, sleeve } = values.rollers[end];
    return {
      end,
      material,
      surface: sleeve === undefined ? material : print.material,
      outer: surfaces[end],
      shell: outer,
      inner,
      length,
      crown,
      axisZ: axes[end],
      axle: { ...axle, ...ends[end] },
      bearing: found[end],
      sleeve: designSleeve(end, values.rollers[end], fits.sleeve, calibration),
    };
  };
  const rollers = { lower: roller('lower'), upper: roller('upper') };
  const belt = resolveBelt(values, rollers, tube);

  const comb = (end: 'lower' | 'upper', seat: number): CombDesign =>
    designComb({
      end,
      ...values.combs[end],
      axis: rollers[end].axisZ,
      rollerDiameter: rollers[end].outer.mean + 2 * rollers[end].crown,
      beltThickness: belt.thickness,
      seat,
      calibration,
    });
  const upperComb = comb('upper', standsAt);
  const rim = designRim(
    { inner: tube.inner, outerHigh: tube.outer.high },
    upperComb.screwAt,
    carriers.upper,
    {
      diameter: openingSpan(terminal),
      below: tube.rimZ - terminal.lipZ - terminal.lipRadius,
    },
    fits.rim,
    calibration,
  );
  const lowerComb = comb('lower', -skirtBottom);
  const skirt = skirtRadius(base, skirtInserts(lowerComb, carriers.lower), INSERT_TO_EDGE);
  const drive = designDrive({
    values,
    pulley,
    axis: lowerAxis,
    carrierFace: carriers.lower.outerFace,
    skirtRadius: skirt,
    beltRadius: lowerRadius + belt.thickness,
    calibration,
  });
  const feet = designFeet({ plate, height: values.base.feet, drive, calibration });
  const seat = designSeat({
    carrier: carriers.upper,
    standsAt,
    terminal: { ...terminal, radius: terminal.diameter.mean / 2 },
    reach,
    bed: print.bed,
    calibration,
  });

  const hubFits = [hubs.lower, hubs.upper].flatMap((each) => [
    each.spigotFit,
    ...(each.live ? [each.live.boreFit] : []),
    ...(each.dead ? [each.dead.seatFit] : []),
  ]);

  return {
    name: values.machine,
    values,
    assumed,
    site: { ...site, pressure, relativeDensity: relativeDensity(pressure, site.temperature) },
    targetVoltage: values.target?.voltage,
    ball: values.target.ball,
    caliperError,
    tube,
    terminal,
    belt,
    rollers,
    drive,
    feet,
    combs: { lower: lowerComb, upper: upperComb },
    plate: {
      ...plate,
      conductive: plateMaterial(plate.material).conductive,
      feet: values.base.feet,
      bench: values.base.bench,
    },
    print: { ...print, calibration },
    grip,
    base,
    rim,
    carriers,
    seat,
    lipClip,
    wand: designWand({
      wand: values.wand,
      target: values.target?.voltage,
      terminalDiameter: terminal.diameter.mean,
      bed: print.bed,
      calibration,
    }),
    hubs,
    jigs: designJigs({ tube, base, drive, feet, terminal, calibration }),
    fits: [
      grip.pilotFit,
      rim.spigotFit,
      rim.guideFit,
      ...hubFits,
      ...[rollers.lower, rollers.upper].flatMap(({ sleeve }) => (sleeve ? [sleeve.fit] : [])),
      carriers.lower.pocketFit,
      carriers.upper.axleFit,
    ],
    assume: {
      surfaceFactor: assume.surface_factor,
      beltFraction: assume.belt_fraction,
      bodyCapacitance: assume.body_capacitance,
      frictionLow: assume.friction_low ?? FRICTION_LOW.value,
      frictionHigh: assume.friction_high ?? FRICTION_HIGH.value,
      sidePush: assume.side_push ?? SIDE_PUSH.value,
      handTorque: assume.hand_torque ?? HAND_TORQUE.value,
      columnGradient: assume.column_gradient,
      streamerGradient: assume.streamer_gradient,
      lnN: assume.ln_n,
      beltMargin: assume.belt_margin,
      rollerCharge: assume.roller_charge,
      combOnset: assume.comb_onset,
      surfaceResistivity: assume.surface_resistivity,
      coronaMobility: assume.corona_mobility,
      sparkShare: assume.spark_share,
      ozoneYield: assume.ozone_yield,
      ozoneDecay: assume.ozone_decay,
      airChanges: assume.air_changes,
    },
  };
}

/** mm from the tube's rim up to the upper axis: the roller clears the rim, and the comb's bracket has its least height. */
function upperAxisOverRim(values: MachineValues, diameter: number): number {
  const beltRadius = diameter / 2 + values.rollers.upper.crown + values.belt.thickness;
  const offset = planeOffset(beltRadius, values.combs.upper.gap);
  return Math.max(diameter / 2 + ABOVE_RIM, RIM_FLANGE + LEAST_BRACKET + 0.5 - offset);
}

function resolveTube(values: MachineValues): Tube {
  const { material, outer, wall, length } = values.column.tube;
  const inner: Span = {
    low: outer.low - 2 * wall.high,
    likely: outer.mean - 2 * wall.mean,
    high: outer.high - 2 * wall.low,
  };
  const footZ = FOOT_HEIGHT.value;
  return { material, outer, wall, inner, length, footZ, rimZ: footZ + length };
}

function bearingOf(end: 'lower' | 'upper', values: MachineValues): BearingMatch {
  const name = values.rollers[end].bearing;
  const match = findBearing(name);
  if (!match) throw new RangeError(`no bearing ${name} in stock`);
  return match;
}

function openingSpan({ openingDiameter: { low, mean, high } }: Terminal): Span {
  return { low, likely: mean, high };
}

function resolveTerminal(values: MachineValues, rimZ: number): Terminal {
  const { shape, material, diameter, height, shell, opening, insertion } = values.terminal;
  const lipZ = rimZ - insertion;
  const radius = diameter.mean / 2;
  const common = {
    shape,
    material,
    diameter,
    shell,
    openingDiameter: opening.diameter,
    lipRadius: opening.lip,
    insertion,
    lipZ,
  };
  // The lip's bead lies inside the sphere and touches it; its lowest point is the lip's plane.
  const beadRadius = opening.diameter.mean / 2 + opening.lip;
  const sphereCentre =
    lipZ + opening.lip + Math.sqrt(Math.max(0, (radius - opening.lip) ** 2 - beadRadius ** 2));
  const ring = opening.edge === 'ring' ? ringSeat(opening.diameter.mean / 2, opening.lip) : undefined;
  if (ring) {
    // A sphere of this radius, cut where its edge rests on the ring.
    const sphere = ring.edgeZ + Math.sqrt(Math.max(0, radius ** 2 - ring.holeRadius ** 2)) + radius;
    const tall = shape === 'sphere' || !height ? sphere : height.mean;
    return {
      ...common,
      ring,
      height: tall,
      centreZ: lipZ + tall - polarOver(ring, radius, tall),
      topZ: lipZ + tall,
    };
  }
  const tall = shape === 'sphere' || !height ? sphereCentre + radius - lipZ : height.mean;
  return {
    ...common,
    ring,
    height: tall,
    centreZ: shape === 'sphere' ? sphereCentre : lipZ + tall / 2,
    topZ: lipZ + tall,
  };
}

function resolveBelt(values: MachineValues, rollers: { lower: Roller; upper: Roller }, tube: Tube): Belt {
  const { material, width, thickness, stretch, resistance, charging } = values.belt;
  const { assume } = values;
  const run = (roller: Roller) => roller.outer.mean + thickness;
  const path = openBelt(run(rollers.lower), run(rollers.upper), rollers.upper.axisZ - rollers.lower.axisZ);
  const speed = beltSpeed(
    values.drive.motor.speed,
    values.drive.pulleys.motor,
    values.drive.pulleys.roller,
    run(rollers.lower),
  );

  const row = beltMaterial(material);
  const tension = row.youngsModulus.value * (stretch / 100) * width * thickness;
  const massPerMetre = row.density.value * 1000 * (width / 1000) * (thickness / 1000);
  const beltCharge = (assume.belt_charge ?? BELT_CHARGE.value) * 1e-6;
  const bulge = electrostaticBulge({
    density: beltCharge,
    width: width / 1000,
    span: path.centreDistance / 1000,
    tension: tension - massPerMetre * speed ** 2,
  });
  const wander = assume.belt_wander ?? BELT_WANDER.value;
  const crown = assume.belt_crown ?? BELT_CROWN.value;
  const rollerDiameter = Math.max(rollers.lower.outer.high, rollers.upper.outer.high);
  return {
    material,
    width,
    thickness,
    stretch,
    resistance,
    charging,
    loopLength: path.loopLength,
    freeLength: freeLength(path.loopLength, stretch),
    speed,
    wander,
    crown,
    bulge,
    tension,
    room: {
      needed: beltRoom({ width, thickness, wander, crown, bulge, rollerDiameter }),
      available: tube.inner.low - BELT_ROOM_MARGIN.value,
    },
  };
}

/**
 * How far (mm) the middle of a charged run is pushed out: q L^2 / (8 T), q = sigma^2 w / (2 eps0), a taut string under
 * even load. SI inside; infinite when speed has used up the tension.
 */
function electrostaticBulge(run: { density: number; width: number; span: number; tension: number }): number {
  const load = (run.density ** 2 * run.width) / (2 * VACUUM_PERMITTIVITY.value);
  return run.tension > 0 ? ((load * run.span ** 2) / (8 * run.tension)) * 1000 : Number.POSITIVE_INFINITY;
}
