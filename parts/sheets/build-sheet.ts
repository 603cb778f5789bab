import type { Finding } from '../checks/finding.js';
import type { Printability } from '../checks/printability.js';
import { FOOT_HEIGHT, ringTurn } from '../machine/grip.js';
import type { Machine } from '../machine/machine.js';
import { plateHoles } from '../machine/plate-holes.js';
import { BOUGHT_STEPS } from '../printed/bought-piece.js';
import { drawnDown } from '../printed/carrier-places.js';
import { isTool, type PartOrder } from '../printed/catalog.js';
import { combGrooves, NEEDLE } from '../printed/comb-bar.js';
import type { Fastener } from '../printed/part.js';
import type { Vec2 } from '../solid/vector.js';
import { CAUTIONS, DISCHARGE } from './cautions.js';
import type { MadePart } from './ledger.js';
import { printTable } from './print-table.js';

/** What the sheet says beside the machine itself. */
export interface SheetContext {
  /** What stands in the output folder, by part; a part made with other dimensions is pointed out. */
  readonly made: readonly MadePart[];
  readonly findings: readonly Finding[];
  /** How the parts print whose files stand there. */
  readonly prints: readonly Printability[];
}

/** Notes for building one machine, as plain text: what to print, buy, cut and drill, and in which order it goes together. */
export function buildSheet(machine: Machine, orders: readonly PartOrder[], context: SheetContext): string {
  const open = [
    ...openFindings(context.findings, 'DANGER, accepted'),
    ...openFindings(
      context.prints.flatMap(({ findings }) => findings),
      'DANGER',
    ),
  ];
  const sections: [string, string[]][] = [
    ...(open.length > 0 ? [['KNOWN WHEN THIS WAS MADE', open] as [string, string[]]] : []),
    ['PRINT', printing(machine, orders, context)],
    ['SCREWS, NUTS, INSERTS, BEARINGS', shopping(machine, orders)],
    ['CUT AND DRILL', cutting(machine)],
    ['PUT TOGETHER', steps(machine, orders)],
    ['SET', setting(machine)],
    ['TAKE APART', apart(machine)],
    ['BEFORE TOUCHING', DISCHARGE.map((line, i) => `${i + 1}. ${line}`)],
    ['CAUTIONS', CAUTIONS.map((line) => `- ${line}`)],
  ];
  const body = sections.map(
    ([title, lines]) => `${title}\n\n${lines.map((line) => hang(line)).join('\n')}\n`,
  );
  return `${machine.name}\nNotes for the build. Lengths in mm unless said otherwise; z counts up from the plate's top face, x from the\ncolumn's axis towards the side where the belt rises.\n\n${body.join('\n')}`;
}

const WIDTH = 96;

/** Wraps a line, later lines set in under its first word. */
function hang(line: string): string {
  const lead = /^(\s*(?:\d+\. |- )?)/.exec(line)?.[1] ?? '';
  const pad = ' '.repeat(lead.length);
  const out: string[] = [];
  let current = lead;
  for (const word of line.slice(lead.length).split(' ')) {
    if (current.length > lead.length && current.length + 1 + word.length > WIDTH) {
      out.push(current);
      current = pad + word;
    } else current += current.length > lead.length ? ` ${word}` : word;
  }
  return [...out, current].join('\n').replace(/ +$/gm, '');
}

const mm = (value: number, digits = 1) => value.toFixed(digits);

/** Dangers and cautions, each with its numbers and what would mend it. */
function openFindings(findings: readonly Finding[], danger: string): string[] {
  return findings
    .filter(({ severity }) => severity !== 'ok')
    .map(({ id, severity, title, measured, required, unit, sense, remedy }) => {
      const word = severity === 'danger' ? danger : severity;
      const numbers = `${short(measured)}, ${sense === 'min' ? 'at least' : 'at most'} ${short(required)} ${unit}`;
      return `- ${word}: ${id}. ${title}: ${numbers}.${remedy ? ` Remedy: ${remedy}.` : ''}`;
    });
}

const short = (value: number) => String(Number(value.toPrecision(4)));

function printing(
  machine: Machine,
  orders: readonly PartOrder[],
  { made, prints }: Pick<SheetContext, 'made' | 'prints'>,
): string[] {
  const { print } = machine;
  const row = ({ part, code, copies }: PartOrder) => {
    const brim = part.print.brim === undefined ? '' : `, a brim of ${part.print.brim} around it`;
    const there = made.find(({ id }) => id === part.id);
    const standing =
      there === undefined
        ? ' NOT MADE YET: there is no file.'
        : there.code === code
          ? ''
          : ` THE FILE IS STILL ${there.code}: make it again.`;
    return `- ${part.id}.stl  x${copies}  code ${code}: ${print.material}, ${part.print.walls} walls, ${part.print.infill} % infill, ${part.print.orientation}${brim}, no support.${standing}`;
  };
  const tools = orders.filter(({ part }) => isTool(part));
  const { calibration } = print;
  return [
    `Nozzle ${print.nozzle}, layers ${print.layer}. Drawn for a printer whose holes come out ${error(calibration.hole, calibration.holeScale)} and outsides ${error(calibration.outside, calibration.outsideScale)} on the diameter, give or take ${calibration.scatter}.`,
    'The code of each part is engraved on it, except where a part is too small for one.',
    ...orders.filter(({ part }) => !isTool(part)).map(row),
    ...(tools.length > 0
      ? [TOOLS_TITLE, ...tools.flatMap((order) => [row(order), `  ${toolText(order.part)}`])]
      : []),
    ...printTable(orders, prints),
  ];
}

export const TOOLS_TITLE = 'Tools to print, no pieces of the machine:';

/** What a tool is for, and how it is used. */
const toolText = ({ purpose, assembly }: PartOrder['part']) =>
  `${purpose.charAt(0).toUpperCase()}${purpose.slice(1)}. ${assembly}`;

const signed = (value: number) => `${value >= 0 ? '+' : ''}${value}`;

const error = (constant: number, scale: number) =>
  `${signed(constant)}${scale === 0 ? '' : ` and ${signed(scale)} %`}`;

/** Everything to buy, the same kinds together. */
export function fastenerTotals(
  machine: Machine,
  orders: readonly PartOrder[],
): (Fastener & { uses: string[] })[] {
  const totals = new Map<string, Fastener & { uses: string[] }>();
  for (const { part } of orders) {
    for (const item of part.fasteners(machine)) {
      const key = `${item.what}|${item.size}|${item.length ?? ''}`;
      const known = totals.get(key);
      if (known)
        totals.set(key, { ...known, count: known.count + item.count, uses: [...known.uses, item.use] });
      else totals.set(key, { ...item, uses: [item.use] });
    }
  }
  return [...totals.values()];
}

function shopping(machine: Machine, orders: readonly PartOrder[]): string[] {
  return fastenerTotals(machine, orders).map((item) => {
    const size = item.length === undefined ? item.size : `${item.size} x ${item.length}`;
    return `- ${item.count} x ${item.what}, ${size} (${item.uses.join('; ')})`;
  });
}

function cutting(machine: Machine): string[] {
  const { tube, belt, base, plate, hubs, rollers } = machine;
  const { bracketHoles, feetHoles } = plateHoles(machine);
  const places = (holes: readonly Vec2[]) => holes.map(([x, y]) => `${mm(x)}, ${mm(y)}`).join('; ');
  const angles = [...base.boltAngles, ...base.skirtBoltAngles].sort((a, b) => a - b);
  const notches = (end: 'lower' | 'upper') =>
    `- ${end} roller shell, ${mm(rollers[end].length)} long${rollers[end].sleeve ? ' (its sleeve is printed with the same notches)' : ''}: file two notches opposite each other into each end, ${mm(hubs[end].notch.width)} wide and ${mm(hubs[end].notch.depth)} deep, both ends in line.`;
  return [
    `- Tube: ${mm(tube.length)} long, ends square and deburred.`,
    `- Belt: cut ${mm(belt.freeLength)} free length (joined loop, unstretched); it runs as a loop of ${mm(belt.loopLength)} at ${belt.stretch} % stretch.`,
    `- Plate, ${mm(plate.diameter)} across: belt opening ${mm(2 * base.plate.openingRadius)} in diameter in the middle, its edges rounded.`,
    `- Plate: ${angles.length} holes ${mm(base.plate.boltHole)} on a circle of ${mm(2 * base.boltRadius)}, at ${angles.join(', ')} degrees from the direction in which the belt rises; those at ${base.skirtBoltAngles.join(' and ')} are for the skirt's own two screws.`,
    `- Plate: one hole ${mm(base.plate.studHole)} on the same circle at ${base.stud.angle} degrees for the ground stud${plate.conductive ? '; bare metal around it on both sides' : ''}.`,
    `- Plate: ${bracketHoles.length} holes ${mm(base.plate.boltHole)} for the motor's bracket, x and y from the middle: ${places(bracketHoles)}; ${feetHoles.length} holes ${mm(machine.feet.plateHole)} for the feet: ${places(feetHoles)}. Hold bracket and feet in place and mark through them first.`,
    `- With the drill-jig-arm, its pins in the bolt holes at ${armUses(machine)}.`,
    ...(plate.conductive
      ? []
      : [
          `- Ground electrode, since the plate is ${plate.material}: metal sheet as large as the plate, with the same opening and holes, between plate and skirt; it is joined to everything else at the ground stud. The checks count on it.`,
        ]),
    ...lipRing(machine),
    ...combs(machine),
    notches('lower'),
    notches('upper'),
    `- Lower axle: ${rollers.lower.axle.diameter} in diameter, ${mm(rollers.lower.axle.to - rollers.lower.axle.from)} long with a pulley at one end; file a flat ${rollers.lower.axle.flat} deep along it where hubs and pulley sit.`,
    `- Drive belt, ${driveBelt(machine)}.`,
    `- Upper axle: ${rollers.upper.axle.diameter} in diameter, ${mm(rollers.upper.axle.to - rollers.upper.axle.from)} long; file a flat ${rollers.upper.axle.flat} deep and ${mm(rollers.upper.axle.to - machine.carriers.upper.innerFace)} long on each end, both on the same side: it lies on them in its blocks and cannot wander past their ends.`,
  ];
}

/** The ring that makes the lip, and the opening that is cut for it. */
function lipRing({ terminal, lipClip }: Machine): string[] {
  const { ring } = terminal;
  if (!ring || !lipClip) return [];
  return [
    `- Lip ring: rod ${mm(2 * ring.rodRadius)} thick, bent to ${mm(2 * (ring.centreRadius - ring.rodRadius))} inside, its joint welded or brazed, filed flush and polished.`,
    `- Terminal: an opening of ${mm(2 * ring.holeRadius)} across, a millimetre more or less, in the middle of its underside, edge broken with a file; the ring lies under it. Clips at ${lipClip.angles.join(', ')} degrees.`,
  ];
}

/** Where the arm's pins stand for what it guides. */
function armUses({ jigs: { arm } }: Machine): string {
  return arm.uses
    .map(({ what, angle, pins, up }) => {
      const guided = what === 'bracket' ? 'the four bracket holes' : `the foot at ${angle} degrees`;
      return `${pins.join(' and ')} degrees, letters ${up ? 'up' : 'down'}, for ${guided}`;
    })
    .join('; ');
}

function driveBelt({ drive: { belt } }: Machine): string {
  const long = `${mm(belt.boughtLength)} on its pitch line as bought, ${mm(belt.fittedLength)} as fitted`;
  return belt.kind === 'round'
    ? `round, ${mm(belt.section)} thick: a loop of ${long}`
    : `toothed, pitch ${belt.pitch}, ${mm(belt.section)} wide: ${long}`;
}

/** What the builder makes of mesh or needles. */
function combs({ combs: both }: Machine): string[] {
  return (['lower', 'upper'] as const).map((end) => {
    const { style, width, bracket } = both[end];
    if (style === 'mesh') {
      const deep = Math.ceil(bracket.protrusion + bracket.headDepth);
      return `- ${end} comb: a strip of fine metal mesh ${mm(width)} x ${deep}, cut so that its wires stand out as points along one edge; that edge ${mm(bracket.protrusion)} out of the bracket's head.`;
    }
    const places = combGrooves.places(width);
    return `- ${end} comb: ${places.length} needles 0.7 to 1 thick, ${NEEDLE.spacing} apart in the grooves of the bracket, points ${mm(bracket.protrusion)} out of its head, all in one line and joined by the wire.`;
  });
}

function steps(machine: Machine, orders: readonly PartOrder[]): string[] {
  const parts = orders
    .filter(({ part }) => !isTool(part))
    .map(({ part }) => ({ step: part.step, text: `${part.id}: ${part.assembly}` }));
  const others = [
    {
      step: BOUGHT_STEPS.groundStud,
      text: `ground stud: up through the skirt's well and the plate, head with washer and the lower comb's lug on the ${machine.plate.conductive ? "plate's bare underside" : 'ground electrode'}, washer and thin nut on top; over these another lug, washer and nut. Lower comb, lower axle (the foil at its bearings), motor frame${machine.plate.conductive ? ' and plate' : ''} go to it by wire.`,
    },
    {
      step: BOUGHT_STEPS.tube,
      text: `tube: down into the open mount until it stands on the stop, ${FOOT_HEIGHT.value} above the plate; close the lock ring by about ${Math.round(ringTurn(machine.grip, machine.grip.stroke.likely))} degrees from open.`,
    },
    {
      step: BOUGHT_STEPS.belt,
      text: 'belt: its upper end through the rim ring, still on the bench; the upper roller goes into it there.',
    },
    {
      step: BOUGHT_STEPS.lowerBearings + 0.1,
      text: `lower roller: put it together in the belt's lower end, draw it ${mm(drawnDown(machine))} down beyond its place and up again until both bearings click into the carrier; the belt's pull holds it there. The upper blocks are at their lowest meanwhile.`,
    },
    {
      step: BOUGHT_STEPS.terminal,
      text: `terminal: last, over the rim ring; the lip ${mm(machine.terminal.insertion)} below the rim, its dome on the seat's pads, whose spring touches it; wires from the upper comb and the upper axle go to that spring.`,
    },
  ];
  return [...parts, ...others].sort((a, b) => a.step - b.step).map(({ text }, i) => `${i + 1}. ${text}`);
}

function setting(machine: Machine): string[] {
  const gap = (end: 'lower' | 'upper') => {
    const comb = machine.combs[end];
    return `- ${end} comb: ${comb.gap} from the belt's surface where it lies on the roller, edge at x ${mm(comb.tip)}, plane at z ${mm(comb.plane)}; stops at ${comb.gapRange.least} and ${comb.gapRange.most}.${
      end === 'upper' ? ' Set it with the terminal off.' : ' Set it from below the plate.'
    }`;
  };
  return [
    gap('lower'),
    gap('upper'),
    `- Axes: lower ${mm(machine.rollers.lower.axisZ)}, upper ${mm(machine.rollers.upper.axisZ)} from the plate's top face. The upper one goes ${mm(machine.carriers.upper.travel.down)} down and ${mm(machine.carriers.upper.travel.up)} up on its jack screws, 0.5 a turn: both together for the pull, one against the other for the tilt; the locking patch on their threads keeps them there. Tighten the belt again after a day: it sets.`,
    '- Azimuth: with the belt slack, turn the rim ring in the tube by a degree or two until the belt runs in the middle of both rollers; the belt’s pull holds the ring.',
  ];
}

function apart({ grip }: Machine): string[] {
  return [
    '1. Discharge (below), lift the terminal off, and the seat out of its rails: head and legs come together.',
    '2. Take the drive belt off, draw the lower roller down until its bearings click out of the carrier, and push it out of the belt’s loop to the side.',
    '3. Lift the rim ring out of the tube with all that stands on it, the belt hanging from it.',
    `4. Turn the lock ring back by up to ${Math.round(ringTurn(grip, grip.stroke.full))} degrees; the tube lifts out. No tool, no glue.`,
    '5. For another tube: unscrew the collar, exchange the mount, screw the collar down again. The skirt stays.',
  ];
}
