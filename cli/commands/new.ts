import { existsSync, readdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { commentedTemplate, inBlocks, nearest } from '../../parts/index.js';
import { EXIT, InputError } from '../exit.js';
import { readText, writeNew } from '../files.js';
import { printJson } from '../print.js';

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
    throw new InputError(
      `no starter "${like}"${near ? `; did you mean ${near}?` : `; known: ${names.join(', ')}`}`,
    );
  }
  writeNew(path, commentedTemplate(inBlocks(readText(join(startersFolder(), `${like}.yaml`)))));
  if (options.json) printJson({ file: path, like });
  else
    process.stdout.write(
      `${path} written, like ${like}. Put your own readings in, then:  tubewright check ${path}\n`,
    );
  return EXIT.done;
}
