import { existsSync } from 'node:fs';
import { join } from 'node:path';
import {
  type Calibrated,
  calibrate,
  calibrationValues,
  compareOrders,
  couponFeatures,
  couponListText,
  couponOrder,
  couponSizes,
  estimatePart,
  fitsBed,
  holdsReadings,
  LEDGER_FILE,
  type Machine,
  madePart,
  number,
  openWorkshop,
  ordersFor,
  type PartChange,
  type PartOrder,
  type PrintEstimate,
  proveStl,
  readCouponList,
  stlFile,
  withValue,
} from '../../parts/index.js';
import { COUPON_LIST } from '../coupon-files.js';
import { EXIT, InputError, OutputError } from '../exit.js';
import { Batch, readText, replaceFile } from '../files.js';
import { defaultFolder, withFolder } from '../folder.js';
import { FileProblems, machineFromText } from '../machine-file.js';
import { block, paint, printJson, printText, table, wrap } from '../print.js';
import { changesText, estimateTold } from '../report-text.js';
import { provenBytes } from '../write-parts.js';

export interface CouponOptions {
  readonly measured?: string;
  readonly out?: string;
  readonly tell?: boolean;
  readonly json?: boolean;
}

/** Writes the fit coupon and its measuring list; given the measurements, the printer's calibration into the machine file. */
export async function coupon(path: string, options: CouponOptions): Promise<number> {
  const text = readText(path);
  const { machine } = machineFromText(path, text);
  const order = couponOrder(machine);
  if (options.measured !== undefined) {
    if (options.out !== undefined)
      throw new InputError('--out is where the coupon is written; with --measured nothing is written there');
    return measured(path, text, machine, order, { ...options, measured: options.measured });
  }
  if (options.tell) throw new InputError('--tell goes with --measured: there is no calibration to tell yet');
  return written(path, machine, order, options);
}

async function written(
  path: string,
  machine: Machine,
  order: PartOrder,
  options: CouponOptions,
): Promise<number> {
  const bed = fitsBed(machine, order);
  if (bed.severity !== 'ok')
    throw new InputError(`${path}: the fit coupon does not fit the printer: ${bed.basis}`);
  const folder = options.out ?? defaultFolder(path);
  const files = [stlFile(order.part.id), COUPON_LIST];
  const isOurs = (names: readonly string[]) => names.includes(LEDGER_FILE) || names.includes(COUPON_LIST);
  const estimate = await withFolder(folder, isOurs, async () => {
    mustBeEmpty(join(folder, COUPON_LIST));
    const workshop = await openWorkshop();
    const batch = new Batch(folder);
    try {
      const bytes = provenBytes(batch, workshop, order);
      batch.add(COUPON_LIST, couponListText(order.code, couponFeatures(couponSizes(machine))));
      batch.commit();
      return estimatePart(machine, order.part, order.stated.volume, proveStl(bytes, order.stated).facts.area);
    } finally {
      batch.drop();
    }
  });
  if (options.json) printJson({ ...headOf(machine, order), folder, files, estimate: estimateTold(estimate) });
  else printText(writtenText(path, folder, order, estimate));
  return EXIT.done;
}

/** @throws OutputError where a list is filled in, or is none */
function mustBeEmpty(list: string): void {
  if (!existsSync(list)) return;
  let text: string;
  try {
    text = readText(list);
  } catch (error) {
    throw new OutputError(`${(error as Error).message}; nothing was written`);
  }
  if (holdsReadings(text))
    throw new OutputError(
      `${list} holds readings; it is not written over. Use it with --measured, or move it away`,
    );
}

const headOf = (machine: Machine, { code }: PartOrder) => ({ machine: machine.name, code });

function writtenText(path: string, folder: string, { code }: PartOrder, estimate: PrintEstimate): string[] {
  const { minutes: time, filament, mass } = estimateTold(estimate);
  const list = join(folder, COUPON_LIST);
  return [
    [
      paint(`Fit coupon ${code} in ${folder}`, 'bold'),
      block(
        [
          `About ${time.likely} min to print (${time.low} to ${time.high}; printers differ), ${number(filament)} m of filament${mass === null ? '' : `, ${number(mass)} g`}.`,
          `Print it with the filament and settings of the parts, measure it and put the readings into ${list}, then:`,
        ],
        2,
      ),
      `  tubewright coupon ${path} --measured ${list}`,
    ].join('\n'),
  ];
}

function measured(
  path: string,
  text: string,
  machine: Machine,
  order: PartOrder,
  options: CouponOptions & { readonly measured: string },
): number {
  const result = calibrationFrom(options.measured, machine, order);
  const changes = calibrationValues(machine.print.calibration, result.calibration);
  const changed = changes.reduce((now, { key, to }) => withValue(now, key, to), text);
  const after = machineFromText(path, changed).machine;
  const parts = compareOrders(ordersFor(machine).map(madePart), ordersFor(after));
  const isWritten = !options.tell && changed !== text;
  if (isWritten && !replaceFile(path, changed, () => readText(path) === text))
    throw new OutputError(`${path} was changed by somebody else meanwhile; nothing was written`);
  if (options.json) {
    const { calibration, hole, outside, controls, notes } = result;
    const side = ({ constant, scale, constantError, scaleError }: Calibrated['hole']) => ({
      constant,
      scale,
      constantError: Number(constantError.toFixed(3)),
      scaleError: Number(scaleError.toFixed(3)),
    });
    printJson({
      ...headOf(machine, order),
      measured: options.measured,
      written: isWritten,
      calibration: { hole: side(hole), outside: side(outside), scatter: calibration.scatter },
      controls: controls.map((each) => ({ ...each, off: Number(each.off.toFixed(3)) })),
      notes,
      values: changes,
      parts,
    });
  } else printText(measuredText(path, order, result, changes, parts, isWritten));
  return EXIT.done;
}

/** @throws FileProblems where the list cannot be used, and where its readings make no calibration */
function calibrationFrom(list: string, machine: Machine, { code }: PartOrder): Calibrated {
  const features = couponFeatures(couponSizes(machine));
  const read = readCouponList(readText(list), list, code, features, machine.caliperError);
  if (!read.ok) throw new FileProblems(read.problems);
  const result = calibrate(read.measured, machine.caliperError);
  if ('calibration' in result) return result;
  const { line, column } = read.placeOf(result);
  const { kind, label, found, expected } = result;
  throw new FileProblems([
    { file: list, line, column, key: [kind, label].filter(Boolean).join('.'), found, expected },
  ]);
}

function measuredText(
  path: string,
  { code }: PartOrder,
  { hole, outside, calibration, controls, notes }: Calibrated,
  changes: ReturnType<typeof calibrationValues>,
  parts: readonly PartChange[],
  isWritten: boolean,
): string[] {
  const row = (what: string, side: Calibrated['hole']) => [
    what,
    side.constant.toFixed(2),
    side.constantError.toFixed(2),
    side.scale.toFixed(2),
    side.scaleError.toFixed(2),
  ];
  const again = parts.filter(({ verdict }) => verdict !== 'keep');
  return [
    [
      paint(`Printed minus drawn, from coupon ${code}`, 'bold'),
      table(['', 'mm', '+-', '% of size', '+-'], [row('holes', hole), row('outsides', outside)]),
      block(
        [
          `Scatter ${calibration.scatter} mm to either side. The errors are those of 95 % intervals; growth with the size is used only where it is larger than its error.`,
          ...controls.map(
            ({ label, kind, off }) =>
              `Control: the ${kind} ${label} is ${off.toFixed(2)} mm off what this foretells.`,
          ),
          ...notes.map((note) => `Note: ${note}`),
        ],
        2,
      ),
    ].join('\n'),
    [
      paint(isWritten ? `Written into ${path}` : `For ${path}, not written`, 'bold'),
      changes.length === 0
        ? '  nothing changes'
        : changes.map(({ key, from, to, unit }) => `  ${key}: ${from} -> ${to} ${unit}`).join('\n'),
    ].join('\n'),
    again.length === 0
      ? wrap('No printed part changes.')
      : [paint(`${again.length} of ${parts.length} parts change`, 'bold'), changesText(again)].join('\n'),
  ];
}
