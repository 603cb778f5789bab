import {
  bareUnitOf,
  convert,
  DECIMAL_TEXT,
  type LengthUnit,
  parseQuantity,
  type QuantityLeaf,
} from '../../parts/index.js';

/** A length of the machine goes by this much of its own unit: about what a caliper is read to on a round thing. */
const LENGTH_STEPS: Readonly<Record<string, number>> = {
  mm: 0.1,
  cm: 0.01,
  m: 0.0001,
  in: 0.005,
  '"': 0.005,
  '″': 0.005,
  ft: 0.0005,
  "'": 0.0005,
  '′': 0.0005,
  um: 100,
  '\u00b5m': 100,
  '\u03bcm': 100,
};

/** Decimals of a fraction that becomes a decimal, and of a step that had to be converted. */
const MOST_DECIMALS = 6;

export interface Step {
  readonly amount: number;
  readonly unit: string;
}

/** A number as written: what it is, what stands behind it, and its unit. */
interface WrittenNumber {
  readonly number: string;
  /** With the blank before it. */
  readonly tail: string;
  readonly unit: string;
}

/** The step by which an item goes up and down: of machine lengths about 0.1 mm, of others one of the last decimal. */
export function stepOf(item: string, leaf: QuantityLeaf, units: LengthUnit): Step | undefined {
  const now = numberIn(item, leaf, units);
  if (!now) return undefined;
  const { unit } = now;
  const length = leaf.bare === 'machine' ? LENGTH_STEPS[unit] : undefined;
  return { amount: length ?? 10 ** -decimalsOf(now.number), unit };
}

/**
 * An item one step up or down, written as it was: with its unit and at least its decimals; a fraction becomes a decimal.
 * @param by steps, negative for down
 * @param step by default the item’s own
 * @returns undefined for what is no number
 */
export function nudged(
  item: string,
  leaf: QuantityLeaf,
  units: LengthUnit,
  by: number,
  step: Step | undefined = stepOf(item, leaf, units),
): string | undefined {
  const now = numberIn(item, leaf, units);
  if (!now || !step) return undefined;
  const amount =
    now.unit === step.unit || leaf.dimension === 'number'
      ? step.amount
      : Number(convert(step.amount, leaf.dimension, step.unit, now.unit).toFixed(MOST_DECIMALS));
  const decimals = Math.max(decimalsOf(now.number), decimalsOf(plain(amount)));
  const scale = 10 ** decimals;
  const sum = Math.round(Number(now.number) * scale) + Math.round(by * amount * scale);
  return `${(sum / scale + 0).toFixed(decimals)}${now.tail}`;
}

/** All readings of a key shifted by the step of the first. Undefined when one of them is no number. */
export function shifted(
  items: readonly string[],
  leaf: QuantityLeaf,
  units: LengthUnit,
  by: number,
): readonly string[] | undefined {
  const step = stepOf(items[0] ?? '', leaf, units);
  const moved = items.map((item) => nudged(item, leaf, units, by, step));
  return step && moved.every((item) => item !== undefined) ? moved : undefined;
}

export interface Summary {
  readonly mean: string;
  readonly spread: string;
  readonly unit: string;
}

/** Mean and spread of readings in the unit of a bare number; undefined when one of them is no number. */
export function summaryOf(
  items: readonly string[],
  leaf: QuantityLeaf,
  units: LengthUnit,
): Summary | undefined {
  const unit = bareUnitOf(leaf, units);
  const values = items.map((item) => parseQuantity(asRead(item), leaf.dimension, unit, unit));
  const numbers = values.flatMap((value) => (value.ok ? [value.value] : []));
  if (numbers.length === 0 || numbers.length < items.length) return undefined;
  const mean = numbers.reduce((sum, value) => sum + value, 0) / numbers.length;
  const decimals = decimalsOf(plain(LENGTH_STEPS[unit] ?? 0.1)) + 1;
  const scale = 10 ** decimals;
  // Twelve digits first: a mean of 79.975 is a little less in binary, and is still rounded up.
  const shown = (value: number) => String(Math.round(Number((value * scale).toPrecision(12))) / scale);
  return { mean: shown(mean), spread: shown(Math.max(...numbers) - Math.min(...numbers)), unit };
}

const asRead = (item: string): string | number => (DECIMAL_TEXT.test(item.trim()) ? Number(item) : item);

const NUMBER = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+))([eE][+-]?\d+)?(\s*[^\d\s.,/-].*)?$/;

function numberIn(item: string, leaf: QuantityLeaf, units: LengthUnit): WrittenNumber | undefined {
  const text = item.trim();
  const bare = bareUnitOf(leaf, units);
  if (!parseQuantity(asRead(text), leaf.dimension, bare).ok) return undefined;
  const [, number, power = '', behindIt = ''] = NUMBER.exec(text) ?? [];
  const unit = behindIt.trim().replace(/\s+/g, ' ');
  const goesByDecimals = power === '' || leaf.bare !== 'machine';
  // A digit that something follows is a second number: feet and inches.
  if (number !== undefined && goesByDecimals && !/\d./.test(unit))
    return { number, tail: `${power}${behindIt}`, unit: unit || bare };

  const [, behind = ''] = /(\s*[^\d\s./-]+)$/.exec(text) ?? [];
  const into = behind.trim() || bare;
  const read = parseQuantity(asRead(text), leaf.dimension, bare, leaf.dimension === 'number' ? '' : into);
  return read.ok ? { number: plain(read.value), tail: behind, unit: into } : undefined;
}

/** Without an exponent and without trailing zeros. */
const plain = (value: number): string =>
  value
    .toFixed(MOST_DECIMALS)
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '');

const decimalsOf = (number: string): number => /\.(\d*)/.exec(number)?.[1]?.length ?? 0;
