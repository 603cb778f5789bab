import { nearest } from '../stock/nearest.js';
import type { Measured, Refused } from './calibrate.js';
import { COUPON_KINDS, type CouponFeature, type CouponKind } from './coupon.js';
import { reading as declared, range, required } from './declare.js';
import { byPlace, type Problem } from './problem.js';
import { describe, readLeaf } from './read-leaf.js';
import type { Reading } from './reading.js';
import { type Place, REFUSED, readSource, type SourceMap, type SourceNode } from './source.js';
import { LENGTH_UNITS, type LengthUnit } from './units.js';

const HOW: Readonly<Record<CouponKind, string>> = {
  holes: 'between the inside jaws, turned to the largest reading, at mid height',
  outsides: 'between the outside jaws, above the bars, in two directions at right angles',
  slot: 'between its walls, inside jaws',
  wall: 'one of them, outside jaws',
};

/** The measuring list of a coupon, to be filled in: YAML, one line a feature. */
export function couponListText(code: string, features: readonly CouponFeature[]): string {
  const rows = COUPON_KINDS.flatMap((kind) => {
    const own = features.filter((each) => each.kind === kind);
    return [
      `${kind}: # ${HOW[kind]}`,
      ...own.map(
        ({ label, drawn, like }) => `  ${label}: [] # drawn ${drawn} mm${like && `, as the ${like}`}`,
      ),
    ];
  });
  return [
    '# What the fit coupon measures. Let it cool to room temperature, take off blobs and brim, and close the caliper first: does',
    '# it read zero? Put two readings or more into each list, as [5.87, 5.91]; a list left empty is left out. At least four',
    '# holes and four outsides, small and large ones.',
    `coupon: ${code} # engraved underneath`,
    'units: mm',
    ...rows,
    '',
  ].join('\n');
}

export type CouponListRead =
  | { readonly ok: true; readonly measured: readonly Measured[]; placeOf(refused: Refused): Place }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const KEYS = ['coupon', 'units', ...COUPON_KINDS];

/**
 * Reads a measuring list that was filled in. All of its errors in one run.
 * @param code of the coupon that the machine asks for
 */
export function readCouponList(
  text: string,
  file: string,
  code: string,
  features: readonly CouponFeature[],
  caliperError: number,
): CouponListRead {
  const source = readSource(text, file, {
    keys: 'a measuring list of the fit coupon',
    single: 'one list a file',
  });
  if (!source.root) return { ok: false, problems: source.problems };
  const list = new ListReader(file, source.root, caliperError, [...source.problems]);
  const measured = list.read(code, features);
  if (list.problems.length > 0) return { ok: false, problems: list.problems.sort(byPlace) };
  return { ok: true, measured, placeOf: (refused) => list.placeOf(refused) };
}

/** Whether a text that may be a measuring list holds a reading; what cannot be read counts as one, so that it is kept. */
export function holdsReadings(text: string): boolean {
  const { root, problems } = readSource(text, '');
  if (!root || problems.length > 0) return text.trim() !== '';
  return COUPON_KINDS.some((kind) => {
    const group = root.entries.get(kind)?.value;
    if (group?.kind !== 'map') return group !== undefined && !isNothing(group);
    return [...group.entries.values()].some(({ value }) => !isNothing(value));
  });
}

const isNothing = (node: SourceNode) =>
  node.kind === 'list'
    ? node.items.length === 0
    : node.kind === 'scalar' && node.value === null && node !== REFUSED;

class ListReader {
  constructor(
    private readonly file: string,
    private readonly root: SourceMap,
    private readonly caliperError: number,
    readonly problems: Problem[],
  ) {}

  read(code: string, features: readonly CouponFeature[]): Measured[] {
    this.knownKeys(this.root, KEYS, '');
    this.rightCoupon(code);
    const units = this.units();
    return COUPON_KINDS.flatMap((kind) => {
      const group = this.root.entries.get(kind);
      if (!group || isNothing(group.value) || group.value === REFUSED) return [];
      const own = features.filter((each) => each.kind === kind);
      if (group.value.kind !== 'map') {
        this.tell(
          kind,
          group,
          describe(group.value),
          `a group with ${own.map(({ label }) => label).join(', ')}`,
        );
        return [];
      }
      const map = group.value;
      this.knownKeys(
        map,
        own.map(({ label }) => label),
        kind,
      );
      return own.flatMap((feature) => this.feature(feature, map, units));
    });
  }

  /** The reading, the feature, the group or the file that a refusal means. */
  placeOf({ kind, label, reading }: Refused): Place {
    const group = kind ? this.root.entries.get(kind) : undefined;
    const entry = group?.value.kind === 'map' ? group.value.entries.get(label) : undefined;
    const items = entry?.value.kind === 'list' ? entry.value.items : entry ? [entry.value] : [];
    return (reading === undefined ? undefined : items[reading]) ?? entry ?? group ?? this.root;
  }

  private feature(feature: CouponFeature, map: SourceMap, units: LengthUnit | undefined): Measured[] {
    const entry = map.entries.get(feature.label);
    if (!entry || isNothing(entry.value) || entry.value === REFUSED) return [];
    const leaf = declared(
      `the ${feature.drawn} mm of ${feature.label}`,
      range(0.1, 1000, 'what a caliper measures'),
      required,
    );
    const read = readLeaf(leaf, entry.value, { units, caliperError: this.caliperError });
    if (read?.ok) return [{ ...feature, readings: (read.value as Reading).readings }];
    if (read)
      this.tell(
        `${feature.kind}.${feature.label}`,
        read.at ?? entry,
        read.found,
        read.expected,
        read.nearest,
      );
    return [];
  }

  private rightCoupon(code: string): void {
    const entry = this.root.entries.get('coupon');
    const expected = `coupon: ${code}, the coupon of this machine file`;
    if (!entry) this.tell('coupon', this.root, 'nothing', expected);
    else if (entry.value.kind !== 'scalar' || entry.value.text !== code) {
      const found = `${describe(entry.value)}: the list belongs to another coupon`;
      this.tell('coupon', entry, found, `${expected}; print and measure that one`);
    }
  }

  private units(): LengthUnit | undefined {
    const entry = this.root.entries.get('units');
    if (!entry) return 'mm';
    const { value } = entry;
    const known = value.kind === 'scalar' ? LENGTH_UNITS.find((unit) => unit === value.text) : undefined;
    if (!known) {
      const meant = value.kind === 'scalar' ? nearest(value.text, LENGTH_UNITS) : undefined;
      this.tell('units', entry, describe(value), `one of ${LENGTH_UNITS.join(', ')}`, meant);
    }
    return known;
  }

  private knownKeys(map: SourceMap, known: readonly string[], prefix: string): void {
    for (const [name, entry] of map.entries) {
      if (known.includes(name)) continue;
      const key = prefix ? `${prefix}.${name}` : name;
      this.tell(
        key,
        entry,
        'an unknown key',
        `one of the keys ${known.join(', ')}`,
        name.length > 1 ? nearest(name, known) : undefined,
      );
    }
  }

  private tell(key: string, at: Place, found: string, expected: string, meant?: string): void {
    const { line, column } = at;
    this.problems.push({
      file: this.file,
      line,
      column,
      key,
      found,
      expected,
      ...(meant !== undefined && { nearest: meant }),
    });
  }
}
