import { existsSync, readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

/** Every file and package that a module loads at run time, itself among them. */
function loaded(file: string, seen = new Set<string>()): Set<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  if (!existsSync(file)) return seen;
  const text = readFileSync(file, 'utf8').replace(/^(?:import|export) type [^;]*;/gm, '');
  for (const [, specifier] of text.matchAll(/^(?:import|export)[^;']*from '([^']+)';/gm)) {
    if (specifier!.startsWith('.')) loaded(resolve(dirname(file), specifier!.replace(/\.js$/, '.ts')), seen);
    else seen.add(specifier!);
  }
  return seen;
}

it('predicts and checks without loading a library for solids', () => {
  const all = [...loaded(fileURLToPath(new URL('../../parts/checks/index.ts', import.meta.url)))];
  expect(all.some((file) => file.endsWith('parts/field/predict.ts'))).toBe(true);
  expect(all.some((file) => file.endsWith('parts/printed/catalog.ts'))).toBe(true);
  expect(all.filter((file) => /^(manifold-3d|@jscad)/.test(file))).toEqual([]);
  // The walk does find them where they are.
  const kernel = [...loaded(fileURLToPath(new URL('../../parts/solid/manifold-kernel.ts', import.meta.url)))];
  expect(kernel).toContain('manifold-3d');
});
