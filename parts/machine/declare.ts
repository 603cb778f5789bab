import type { Reading } from './reading.js';
import { baseUnit, DIMENSIONS, type DimensionName, type LengthUnit } from './units.js';

/**
 * The words in which the machine file is declared: one declaration per value. Reading, JSON Schema, comments and the
 * table of keys all follow from it.
 */

/** What happens when the file says nothing. */
export type Presence<V> =
  | { readonly kind: 'required' }
  | { readonly kind: 'default'; readonly value: V; readonly why: string }
  /** The default follows from a choice beside it. */
  | {
      readonly kind: 'default-by';
      readonly key: string;
      readonly values: Readonly<Record<string, V>>;
      readonly why: string;
    }
  | { readonly kind: 'optional'; readonly without: string }
  /** Required when a choice beside it has this value, refused otherwise. */
  | { readonly kind: 'only-when'; readonly key: string; readonly is: string };

/** Least and greatest value that make sense, in the value's unit, and why no more. */
export interface Range {
  readonly min: number;
  readonly max: number;
  readonly why: string;
}

interface Declared {
  readonly meaning: string;
}

/** A number with a unit; `value`, bounds and default are in `unit`. */
export interface QuantityLeaf<P extends Presence<number> = Presence<number>> extends Declared {
  readonly kind: 'quantity' | 'reading';
  readonly dimension: DimensionName;
  readonly unit: string;
  /** Unit of a bare number in the file: `machine` follows the file's `units`. */
  readonly bare: string;
  readonly range: Range;
  readonly presence: P;
}
export interface SingleLeaf<P extends Presence<number> = Presence<number>> extends QuantityLeaf<P> {
  readonly kind: 'quantity';
}
export interface ReadingLeaf<P extends Presence<number> = Presence<number>> extends QuantityLeaf<P> {
  readonly kind: 'reading';
}
export interface ChoiceLeaf<C extends string = string, P extends Presence<C> = Presence<C>> extends Declared {
  readonly kind: 'choice';
  readonly choices: readonly C[];
  readonly presence: P;
}
export interface BooleanLeaf extends Declared {
  readonly kind: 'boolean';
  readonly presence: Presence<boolean>;
}
export interface TextLeaf extends Declared {
  readonly kind: 'text';
  readonly maxLength: number;
  /** For schemas: no control characters, no parts of a path, no blank at either end. */
  readonly pattern: string;
  readonly presence: { readonly kind: 'required' };
}
export interface BearingLeaf extends Declared {
  readonly kind: 'bearing';
  readonly presence: { readonly kind: 'required' };
}
export type Leaf = SingleLeaf | ReadingLeaf | ChoiceLeaf | BooleanLeaf | TextLeaf | BearingLeaf;

export type Keys = Readonly<Record<string, Declaration>>;
export interface Group<K extends Keys = Keys> extends Declared {
  readonly kind: 'group';
  readonly keys: K;
}
export type Declaration = Leaf | Group;

type Maybe<T, P> = P extends { kind: 'optional' | 'only-when' } ? T | undefined : T;

/** What a checked machine file holds, from its declarations. */
export type ValuesOf<D> =
  D extends Group<infer K>
    ? { readonly [Key in keyof K]: ValuesOf<K[Key]> }
    : D extends ReadingLeaf<infer P>
      ? Maybe<Reading, P>
      : D extends SingleLeaf<infer P>
        ? Maybe<number, P>
        : D extends ChoiceLeaf<infer C, infer P>
          ? Maybe<C, P>
          : D extends BooleanLeaf
            ? boolean
            : string;

export const required = { kind: 'required' } as const;
export function byDefault<const V>(value: V, why: string) {
  return { kind: 'default', value, why } as const;
}
export function defaultBy<const V>(key: string, values: Readonly<Record<string, V>>, why: string) {
  return { kind: 'default-by', key, values, why } as const;
}
export function optional(without: string) {
  return { kind: 'optional', without } as const;
}
export function onlyWhen(key: string, is: string) {
  return { kind: 'only-when', key, is } as const;
}
export function range(min: number, max: number, why: string): Range {
  return { min, max, why };
}

export function group<const K extends Keys>(meaning: string, keys: K): Group<K> {
  return { kind: 'group', meaning, keys };
}

/** A dimension of the machine in mm whose bare number follows `units`. */
export function length<const P extends Presence<number>>(
  meaning: string,
  within: Range,
  presence: P,
): SingleLeaf<P> {
  return {
    kind: 'quantity',
    meaning,
    dimension: 'length',
    unit: 'mm',
    bare: 'machine',
    range: within,
    presence,
  };
}

/** A measured dimension in mm: one value or several, a bare number follows `units`. */
export function reading<const P extends Presence<number>>(
  meaning: string,
  within: Range,
  presence: P,
): ReadingLeaf<P> {
  return {
    kind: 'reading',
    meaning,
    dimension: 'length',
    unit: 'mm',
    bare: 'machine',
    range: within,
    presence,
  };
}

/**
 * Any other number, in a unit of its own.
 * @param bare the unit of a bare number when it is not `unit`
 */
export function quantity<const P extends Presence<number>>(
  meaning: string,
  unit: string,
  within: Range,
  presence: P,
  bare: string = unit,
): SingleLeaf<P> {
  return { kind: 'quantity', meaning, dimension: dimensionWith(unit), unit, bare, range: within, presence };
}

/** A number without a unit. */
export function number<const P extends Presence<number>>(
  meaning: string,
  within: Range,
  presence: P,
): SingleLeaf<P> {
  return { kind: 'quantity', meaning, dimension: 'number', unit: '', bare: '', range: within, presence };
}

export function choice<const C extends string, const P extends Presence<NoInfer<C>>>(
  meaning: string,
  choices: readonly C[],
  presence: P,
): ChoiceLeaf<C, P> {
  return { kind: 'choice', meaning, choices, presence };
}

export function yesNo(meaning: string, presence: Presence<boolean>): BooleanLeaf {
  return { kind: 'boolean', meaning, presence };
}

/** No control or invisible characters, no parts of a path, no blank at either end. */
export const PLAIN_TEXT = /^(?!.*\.\.)(?!\s)[^\p{C}/\\]*(?<!\s)$/u;

export function text(meaning: string, maxLength: number): TextLeaf {
  return { kind: 'text', meaning, maxLength, pattern: PLAIN_TEXT.source, presence: required };
}

export function bearing(meaning: string): BearingLeaf {
  return { kind: 'bearing', meaning, presence: required };
}

function dimensionWith(unit: string): DimensionName {
  const names = Object.keys(DIMENSIONS) as DimensionName[];
  const found = names.find((name) => Object.hasOwn(DIMENSIONS[name].units, unit));
  if (!found) throw new RangeError(`no dimension is measured in ${unit}`);
  return found;
}

/** The unit a bare number of this leaf is in, in a file with these `units`. */
export function bareUnitOf(leaf: QuantityLeaf, units: LengthUnit): string {
  if (leaf.bare === 'machine') return units;
  return leaf.bare || baseUnit(leaf.dimension);
}

/** Every leaf with its full key, in the order of declaration. */
export function leavesOf(root: Group, prefix = ''): readonly (readonly [key: string, leaf: Leaf])[] {
  return Object.entries(root.keys).flatMap(([name, declaration]) => {
    const key = prefix ? `${prefix}.${name}` : name;
    return declaration.kind === 'group' ? leavesOf(declaration, key) : [[key, declaration] as const];
  });
}

/** Whether the file must state something here. */
export function isRequired(declaration: Declaration): boolean {
  return declaration.kind === 'group'
    ? Object.values(declaration.keys).some(isRequired)
    : declaration.presence.kind === 'required';
}
