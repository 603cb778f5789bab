import { existsSync, readdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { annotate, nearest } from '../../parts/index.js';
import { EXIT, InputError } from '../exit.js';
import { readText, writeNew } from '../files.js';

const DEFAULT_STARTER = 'travelling-demonstrator';

/** The folder of starters: beside the sources, also when the program runs from its build. */
export function startersFolder(): string {
  const here = dirname(fileURLToPath(import.meta.url));
  const places = [join(here, '..', 'starters'), join(here, '..', '..', '..', 'cli', 'starters')];
  return places.find(existsSync) ?? places[0]!;
}

export function starterNames(): string[] {
  return readdirSync(startersFolder())
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => basename(name, '.yaml'))
    .sort();
}

/** Writes a commented machine file to start from. Never over one that is there. */
export function newFile(path: string, options: { readonly like?: string; readonly json?: boolean }): number {
  const like = options.like ?? DEFAULT_STARTER;
  const names = starterNames();
  if (!names.includes(like)) {
    const near = nearest(like, names);
    throw new InputError(`no starter "${like}"${near ? `; did you mean "${near}"?` : ''} Known: ${names.join(', ')}`);
  }
  writeNew(path, annotate(readText(join(startersFolder(), `${like}.yaml`))));
  if (options.json) process.stdout.write(`${JSON.stringify({ file: path, like }, null, 1)}\n`);
  else process.stdout.write(`${path} written, like ${like}. Put your own readings in, then:  tubewright check ${path}\n`);
  return EXIT.done;
}
