import { nearest } from '../stock/nearest.js';
import { MACHINE_FILE, type MachineValues } from './declarations.js';
import { type Group, isRequired, type Keys, type Leaf, leavesOf, type Presence } from './declare.js';
import { byPlace, type Problem } from './problem.js';
import { describe, type LeafValue, type Measured, type Miss, readLeaf, wanted } from './read-leaf.js';
import { RULES } from './rules.js';
import { type Place, REFUSED, readSource, type SourceMap, type SourceNode } from './source.js';
import type { LengthUnit } from './units.js';

export type { MachineValues } from './declarations.js';

/** A default that was taken because the file does not say. */
export interface Assumed {
  readonly key: string;
  /** In `unit`, whatever the file’s own units are. */
  readonly value: number | string | boolean;
  readonly unit: string;
  readonly why: string;
}

export interface MachineFile {
  readonly ok: true;
  readonly values: MachineValues;
  readonly assumed: readonly Assumed[];
  /** Line of every key that the file states. */
  readonly lines: ReadonlyMap<string, number>;
}
export interface BadMachineFile {
  readonly ok: false;
  /** All of them, by line. */
  readonly problems: readonly Problem[];
}

/**
 * Reads and checks a machine file: form, keys, units, bounds, defaults, then the rules between values. Never throws for
 * a bad file, and finds all of its errors in one run.
 *
 * @param text YAML or JSON
 * @param fileName for messages only
 */
export function readMachineFile(text: string, fileName: string): MachineFile | BadMachineFile {
  const source = readSource(text, fileName);
  if (!source.root) return { ok: false, problems: [...source.problems].sort(byPlace) };

  const door = new Door(fileName, source.problems, measuredIn(source.root));
  const values = door.group(MACHINE_FILE, source.root, '') as unknown as MachineValues;
  for (const rule of RULES) door.rule(rule.name, () => rule.check(values));

  if (door.problems.length > 0) return { ok: false, problems: door.problems.sort(byPlace) };
  const lines = new Map([...door.places].map(([key, place]) => [key, place.line]));
  return { ok: true, values, assumed: door.assumed, lines };
}

/** What bare lengths and readings depend on is read ahead; its errors are told when its turn comes. */
function measuredIn(root: SourceMap): Measured {
  const ahead = { units: 'mm' as const, caliperError: 0 };
  const units = root.entries.get('units');
  const measuring = root.entries.get('measuring')?.value;
  const error = measuring?.kind === 'map' ? measuring.entries.get('caliper_error') : undefined;
  const leaf = MACHINE_FILE.keys.measuring.keys.caliper_error;
  const readUnits = units && readLeaf(MACHINE_FILE.keys.units, units.value, ahead);
  const readError = error && readLeaf(leaf, error.value, ahead);
  return {
    units: !units
      ? MACHINE_FILE.keys.units.presence.value
      : readUnits?.ok
        ? (readUnits.value as LengthUnit)
        : undefined,
    caliperError: readError?.ok ? (readError.value as number) : leaf.presence.value,
  };
}

type Values = Record<string, unknown>;

/** In place of a value whose problem has been told. */
const UNREAD = Symbol('unread');
const NO_KEYS: SourceMap = { kind: 'map', line: 1, column: 1, entries: new Map() };

/** Thrown when a rule asks for a value that could not be read; the rule is then not judged. */
class Unread extends Error {}

class Door {
  readonly problems: Problem[];
  readonly assumed: Assumed[] = [];
  readonly places = new Map<string, Place>();

  constructor(
    private readonly file: string,
    problems: readonly Problem[],
    private readonly measured: Measured,
  ) {
    this.problems = [...problems];
  }

  group(declared: Group, map: SourceMap, key: string): Values {
    for (const [name, entry] of map.entries) {
      if (Object.hasOwn(declared.keys, name)) this.places.set(join(key, name), entry);
      else this.unknownKey(join(key, name), name, declared.keys, entry);
    }
    const values: Values = {};
    for (const [name, declaration] of Object.entries(declared.keys)) {
      const node = map.entries.get(name)?.value;
      const full = join(key, name);
      const value =
        declaration.kind === 'group'
          ? this.subgroup(declaration, node, full)
          : this.leaf(declaration, node, full, values);
      if (value === UNREAD) unread(values, name);
      else values[name] = value;
    }
    return values;
  }

  rule(name: string, check: () => (Miss & { readonly keys: readonly string[] }) | undefined): void {
    try {
      const miss = check();
      if (miss) this.tell(miss.keys[0] ?? '', miss, name);
    } catch (error) {
      if (!(error instanceof Unread)) throw error;
    }
  }

  private subgroup(declared: Group, node: SourceNode | undefined, key: string): Values | typeof UNREAD {
    if (node?.kind === 'map') return this.group(declared, node, key);
    if (node === REFUSED) return UNREAD;
    // A heading whose keys are all left out, or commented out, says nothing.
    if (isNothing(node) && !isRequired(declared)) return this.group(declared, NO_KEYS, key);
    const keys = Object.keys(declared.keys).join(', ');
    const found = node ? describe(node) : 'nothing';
    this.tell(key, { found, expected: `${declared.meaning}: a group with ${keys}` });
    return UNREAD;
  }

  private leaf(
    leaf: Leaf,
    node: SourceNode | undefined,
    key: string,
    beside: Values,
  ): LeafValue | undefined | typeof UNREAD {
    if (node === REFUSED) return UNREAD;
    const presence: Presence<string | number | boolean> = leaf.presence;
    const other = 'key' in presence ? peek(beside, presence.key) : undefined;
    const unsure = 'key' in presence && other === undefined;
    if (unsure && (!node || presence.kind === 'only-when')) return UNREAD;
    const unwanted = presence.kind === 'only-when' && other !== presence.is;
    if (!node) {
      if (presence.kind === 'optional' || unwanted) return undefined;
      if (presence.kind === 'default') return this.assume(key, leaf, presence.value, presence.why);
      if (presence.kind === 'default-by')
        return this.assume(key, leaf, presence.values[String(other)]!, presence.why);
      this.tell(key, { found: 'nothing', expected: `${leaf.meaning}: ${wanted(leaf)}` });
      return UNREAD;
    }
    if (unwanted) {
      this.tell(key, {
        found: describe(node),
        expected: `no such key: only with ${presence.key} ${presence.is}`,
      });
      return UNREAD;
    }
    const read = readLeaf(leaf, node, this.measured);
    if (read?.ok) return read.value;
    if (read) this.tell(key, read, undefined, read.at ?? node);
    return UNREAD;
  }

  private assume(
    key: string,
    leaf: Leaf,
    value: string | number | boolean,
    why: string,
  ): string | number | boolean {
    this.assumed.push({ key, value, unit: 'unit' in leaf ? leaf.unit : '', why });
    return value;
  }

  private unknownKey(key: string, name: string, beside: Keys, at: Place): void {
    const elsewhere = () => leavesOf(MACHINE_FILE).map(([full]) => full);
    const meant = nearest(name, Object.keys(beside)) ?? elsewhere().find((full) => lastPart(full) === name);
    const expected = `one of the keys ${Object.keys(beside).join(', ')}`;
    const miss = { found: 'an unknown key', expected, ...(meant !== undefined && { nearest: meant }) };
    this.places.set(key, at);
    this.tell(key, miss);
  }

  /** Where a key stands, or the group it is missing from. */
  private placeOf(key: string): Place {
    const { line, column } =
      this.places.get(key) ?? (key ? this.placeOf(parentOf(key)) : { line: 1, column: 1 });
    return { line, column };
  }

  private tell(key: string, { found, expected, nearest: meant }: Miss, rule?: string, at?: Place): void {
    const { line, column } = at ?? this.placeOf(key);
    this.problems.push({
      file: this.file,
      line,
      column,
      key,
      found,
      expected,
      ...(meant !== undefined && { nearest: meant }),
      ...(rule !== undefined && { rule }),
    });
  }
}

const isNothing = (node: SourceNode | undefined) => !node || (node.kind === 'scalar' && node.value === null);
const join = (prefix: string, name: string) => (prefix ? `${prefix}.${name}` : name);
const parentOf = (key: string) => key.slice(0, Math.max(0, key.lastIndexOf('.')));
const lastPart = (key: string) => key.slice(key.lastIndexOf('.') + 1);

function unread(values: Values, name: string): void {
  Object.defineProperty(values, name, {
    get() {
      throw new Unread(name);
    },
    enumerable: true,
    configurable: true,
  });
}

/** A choice that was read before; undefined when it could not be. */
function peek(values: Values, name: string): LeafValue | undefined {
  const property = Object.getOwnPropertyDescriptor(values, name);
  return property && 'value' in property ? (property.value as LeafValue) : undefined;
}
