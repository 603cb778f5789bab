import { BEARING_NAMES } from '../stock/bearings.js';
import { MACHINE_FILE } from './declarations.js';
import { type Group, isRequired, type Leaf, type QuantityLeaf } from './declare.js';
import { quantityPattern } from './units.js';

export type JsonSchema = { readonly [key: string]: unknown };

const DRAFT = 'https://json-schema.org/draft/2020-12/schema';

/**
 * The machine file as a JSON Schema (draft 2020-12), so that editors complete and check it. It holds what a schema can
 * say: keys, kinds, units, choices, and bounds of bare numbers that don't depend on `units`.
 */
export function machineFileSchema(): JsonSchema {
  return { $schema: DRAFT, title: 'Machine file', ...groupSchema(MACHINE_FILE) };
}

function groupSchema(group: Group): JsonSchema {
  const entries = Object.entries(group.keys);
  const names = entries.filter(([, declaration]) => isRequired(declaration)).map(([name]) => name);
  const conditions = entries.flatMap(([name, declaration]) =>
    declaration.kind === 'group' ? [] : conditionOn(name, declaration),
  );
  return {
    // A heading alone, its keys commented out, is null to YAML.
    type: names.length > 0 ? 'object' : ['object', 'null'],
    description: group.meaning,
    properties: Object.fromEntries(
      entries.map(([name, declaration]) => [
        name,
        declaration.kind === 'group' ? groupSchema(declaration) : leafSchema(declaration),
      ]),
    ),
    ...(names.length > 0 && { required: names }),
    ...(conditions.length > 0 && { allOf: conditions }),
    additionalProperties: false,
  };
}

/** A key that goes with one value of a choice beside it. */
function conditionOn(name: string, { presence }: Leaf): JsonSchema[] {
  if (presence.kind !== 'only-when') return [];
  return [
    {
      // A choice that is left out has not been made: what it then is, goes without this key.
      if: { properties: { [presence.key]: { const: presence.is } }, required: [presence.key] },
      // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
      then: { required: [name] },
      else: { properties: { [name]: false } },
    },
  ];
}

function leafSchema(leaf: Leaf): JsonSchema {
  return { description: leaf.meaning, ...defaultOf(leaf), ...kindOf(leaf) };
}

function kindOf(leaf: Leaf): JsonSchema {
  switch (leaf.kind) {
    case 'quantity':
      return { anyOf: quantityForms(leaf) };
    case 'reading':
      return {
        anyOf: [
          ...quantityForms(leaf),
          { type: 'array', minItems: 1, items: { anyOf: quantityForms(leaf) } },
        ],
      };
    case 'choice':
      return { enum: leaf.choices };
    case 'boolean':
      return { type: 'boolean' };
    case 'text':
      return { type: 'string', minLength: 1, maxLength: leaf.maxLength, pattern: leaf.pattern };
    case 'bearing':
      return { type: ['string', 'integer'], examples: BEARING_NAMES };
  }
}

function quantityForms(leaf: QuantityLeaf): JsonSchema[] {
  const ownUnit = leaf.bare === leaf.unit;
  const bounds = ownUnit && { minimum: leaf.range.min, maximum: leaf.range.max };
  const pattern = quantityPattern(leaf.dimension);
  return [{ type: 'number', ...bounds }, ...(pattern ? [{ type: 'string', pattern }] : [])];
}

/** Written the way it would stand in a file, whatever its `units`. */
function defaultOf(leaf: Leaf): JsonSchema {
  const { presence } = leaf;
  if (presence.kind !== 'default') return {};
  const follows = leaf.kind === 'quantity' && leaf.bare === 'machine';
  return { default: follows ? `${presence.value} ${leaf.unit}` : presence.value };
}
