import { nearest } from '../../parts/stock/nearest.js';

/** One machine to be solved: mm, along z from the foot of the column, which stands on the plate's top at z = 0. */
export interface CaseInput {
  readonly name: string;
  readonly note?: string | undefined;
  /** A sphere, the free radius of its opening, the radius of the bead around it, and the sheet's thickness. */
  readonly terminal: { sphereRadius: number; openingRadius: number; lipRadius: number; shell: number };
  readonly column: { outerRadius: number; wall: number; length: number; epsr: number; insertion: number };
  readonly base: {
    plateRadius: number;
    plateThickness: number;
    /** From the plate's underside down to the floor. */
    floorGap: number;
    /** Of a grounded disc without thickness in place of the endless floor. */
    groundPlaneRadius: number | undefined;
    floor: boolean;
  };
  /** A ring at the terminal's potential. */
  readonly combRing: { ringRadius: number; z: number; minorRadius: number } | undefined;
  /** Dielectric rings that touch the tube's outside. */
  readonly collars: readonly { outerRadius: number; z0: number; z1: number; epsr: number }[];
}

export interface Case {
  readonly input: CaseInput;
  readonly result: Readonly<Record<string, unknown>>;
}

/** What keeps a file of cases from being used; the message says where and what was expected. */
export class CaseError extends Error {
  override readonly name = 'CaseError';
}

type Bag = Readonly<Record<string, unknown>>;

function bagAt(value: unknown, path: string): Bag {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new CaseError(`${path}: expected an object, found ${told(value)}`);
  return value as Bag;
}

const told = (value: unknown) => (value === undefined ? 'nothing' : JSON.stringify(value)?.slice(0, 40));

function refuseUnknown(bag: Bag, known: readonly string[], path: string): void {
  for (const key of Object.keys(bag)) {
    if (known.includes(key)) continue;
    const meant = nearest(key, known);
    throw new CaseError(
      `${path}: unknown key "${key}"${meant === undefined ? '' : `; nearest known "${meant}"`}`,
    );
  }
}

/** Numbers of an object, each a finite one and at least (or, where `above` is told, above) its bound. */
function numbersAt<K extends string>(
  value: unknown,
  path: string,
  bounds: Readonly<Record<K, { readonly above?: number; readonly least?: number }>>,
  others: readonly string[] = [],
): Record<K, number> {
  const bag = bagAt(value, path);
  const keys = Object.keys(bounds) as K[];
  refuseUnknown(bag, [...keys, ...others], path);
  return Object.fromEntries(
    keys.map((key) => [key, numberAt(bag[key], `${path}.${key}`, bounds[key])]),
  ) as Record<K, number>;
}

function numberAt(
  value: unknown,
  path: string,
  { above, least }: { above?: number; least?: number },
): number {
  const expected = `a number${above === undefined ? '' : ` above ${above}`}${least === undefined ? '' : ` of at least ${least}`}`;
  const fits =
    typeof value === 'number' &&
    Number.isFinite(value) &&
    value > (above ?? Number.NEGATIVE_INFINITY) &&
    value >= (least ?? Number.NEGATIVE_INFINITY);
  if (!fits) throw new CaseError(`${path}: expected ${expected}, found ${told(value)}`);
  return value;
}

/** @throws CaseError */
export function readCases(text: string): Case[] {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    throw new CaseError(`not JSON: ${(error as Error).message}`);
  }
  const { cases } = bagAt(parsed, 'the file');
  if (!Array.isArray(cases) || cases.length === 0)
    throw new CaseError(`cases: expected a list of at least one case, found ${told(cases)}`);
  return cases.map((each: unknown, i) => {
    const path = `cases[${i}]`;
    const bag = bagAt(each, path);
    refuseUnknown(bag, ['input', 'result'], path);
    const input = readInput(bag.input, `${path}.input`);
    refuseImpossible(input, `${path}.input`);
    return { input, result: bagAt(bag.result, `${path}.result`) };
  });
}

const ABOVE_0 = { above: 0 };

function readInput(value: unknown, path: string): CaseInput {
  const bag = bagAt(value, path);
  refuseUnknown(bag, ['name', 'note', 'terminal', 'column', 'base', 'combRing', 'collars'], path);
  const { name, note, combRing, collars } = bag;
  if (typeof name !== 'string') throw new CaseError(`${path}.name: expected a text, found ${told(name)}`);
  const base = bagAt(bag.base, `${path}.base`);
  const { floor, groundPlaneRadius: ground } = base;
  if (typeof floor !== 'boolean')
    throw new CaseError(`${path}.base.floor: expected true or false, found ${told(floor)}`);
  const list = collars ?? [];
  if (!Array.isArray(list)) throw new CaseError(`${path}.collars: expected a list, found ${told(collars)}`);
  return {
    name,
    note: typeof note === 'string' ? note : undefined,
    terminal: numbersAt(bag.terminal, `${path}.terminal`, {
      sphereRadius: ABOVE_0,
      openingRadius: ABOVE_0,
      lipRadius: ABOVE_0,
      shell: ABOVE_0,
    }),
    column: numbersAt(bag.column, `${path}.column`, {
      outerRadius: ABOVE_0,
      wall: ABOVE_0,
      length: ABOVE_0,
      epsr: { least: 1 },
      insertion: ABOVE_0,
    }),
    base: {
      ...numbersAt(
        base,
        `${path}.base`,
        { plateRadius: ABOVE_0, plateThickness: ABOVE_0, floorGap: { least: 0 } },
        ['floor', 'groundPlaneRadius'],
      ),
      floor,
      groundPlaneRadius:
        ground === null || ground === undefined
          ? undefined
          : numberAt(ground, `${path}.base.groundPlaneRadius`, ABOVE_0),
    },
    combRing:
      combRing === null || combRing === undefined
        ? undefined
        : numbersAt(combRing, `${path}.combRing`, { ringRadius: ABOVE_0, z: ABOVE_0, minorRadius: ABOVE_0 }),
    collars: list.map((collar: unknown, i) =>
      numbersAt(collar, `${path}.collars[${i}]`, {
        outerRadius: ABOVE_0,
        z0: { least: 0 },
        z1: ABOVE_0,
        epsr: { least: 1 },
      }),
    ),
  };
}

function refuseImpossible({ terminal, column, base, combRing, collars }: CaseInput, path: string): void {
  const refuse = (key: string, what: string): never => {
    throw new CaseError(`${path}.${key}: ${what}`);
  };
  const { sphereRadius, openingRadius, lipRadius, shell } = terminal;
  const beadRing = openingRadius + lipRadius;
  if (beadRing >= sphereRadius - lipRadius)
    refuse(
      'terminal.lipRadius',
      `a bead of radius ${lipRadius} around an opening of radius ${openingRadius} finds no room in a sphere of radius ${sphereRadius}`,
    );
  if (shell + Math.max(0, 2 * lipRadius - shell) >= sphereRadius)
    refuse('terminal.shell', `${shell} thick in a sphere of radius ${sphereRadius}`);
  if (column.outerRadius >= openingRadius)
    refuse('column.outerRadius', `${column.outerRadius} does not pass an opening of radius ${openingRadius}`);
  if (column.wall > column.outerRadius)
    refuse('column.wall', `${column.wall} in a tube of radius ${column.outerRadius}`);
  if (column.insertion >= column.length)
    refuse('column.insertion', `${column.insertion} of a column ${column.length} long`);
  if (base.plateRadius <= rimRadius(base))
    refuse('base.plateRadius', `${base.plateRadius} leaves no room for a rim of radius ${rimRadius(base)}`);
  if (combRing && combRing.ringRadius <= combRing.minorRadius)
    refuse('combRing.minorRadius', `${combRing.minorRadius} on a ring of radius ${combRing.ringRadius}`);
  for (const [i, { outerRadius, z0, z1 }] of collars.entries()) {
    if (outerRadius <= column.outerRadius)
      refuse(`collars[${i}].outerRadius`, `${outerRadius} around a tube of radius ${column.outerRadius}`);
    if (z0 >= z1 || z1 > column.length)
      refuse(`collars[${i}].z1`, `from ${z0} to ${z1} on a column ${column.length} long`);
  }
}

/** mm; the radius of the upper rim of a plate that lies on the floor. */
const ON_FLOOR_RIM = 3;

export const liesOnFloor = ({ floor, floorGap }: CaseInput['base']): boolean => floor && floorGap === 0;

/** mm: half-round all over, or a quarter-round upper edge where the plate lies on the floor. */
export const rimRadius = (base: CaseInput['base']): number =>
  liesOnFloor(base) ? Math.min(ON_FLOOR_RIM, base.plateThickness) : base.plateThickness / 2;
