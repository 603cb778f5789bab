import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';

const FOLDER = fileURLToPath(new URL('../../cli/schemas/', import.meta.url));
const END = '.schema.json';

/** Names of the schemas that are shipped: one for each verb, and those for errors, ledgers and machine files. */
export const SCHEMAS = readdirSync(FOLDER)
  .filter((name) => name.endsWith(END))
  .map((name) => name.slice(0, -END.length))
  .sort();

export function schemaOf(name: string): Record<string, unknown> {
  return JSON.parse(readFileSync(`${FOLDER}${name}${END}`, 'utf8'));
}

const ajv = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true });
for (const name of SCHEMAS) ajv.addSchema(schemaOf(name), `${name}${END}`);

/** What a schema says against a value; empty when nothing. */
export function against(name: string, value: unknown): readonly string[] {
  const validate = ajv.getSchema(`${name}${END}`);
  if (!validate) throw new Error(`no schema ${name}`);
  validate(value);
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}
