import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Start } from '../parts/index.js';
import { OutputError } from './exit.js';
import { Batch } from './files.js';
import { withFolder } from './folder.js';
import { LOCK } from './lock.js';
import { type PageFiles, pageWith } from './view-page.js';

/** What an exported page consists of; the page itself takes its name last. */
export const EXPORTED = ['viewer.js', 'viewer.css', 'index.html'] as const;

/**
 * Writes the page as files that need no server.
 * @returns the names written
 * @throws OutputError when the folder is somebody else's or a file cannot be written
 */
export async function exportPage(folder: string, page: PageFiles, start: Start): Promise<readonly string[]> {
  const contents = {
    'viewer.js': page.script,
    'viewer.css': page.style,
    'index.html': pageWith(page, start),
  };
  const isOurs = (names: readonly string[]) => {
    if (EXPORTED.every((name) => names.includes(name)) && names.length === EXPORTED.length) return true;
    throw strange(folder);
  };
  await withFolder(folder, isOurs, async () => {
    mustBeExport(folder);
    const batch = new Batch(folder);
    try {
      for (const name of EXPORTED) batch.add(name, contents[name]);
      batch.commit();
    } finally {
      batch.drop();
    }
  });
  return EXPORTED;
}

/** A run that was killed leaves its lock, which says that the folder was ours but not what for. @throws OutputError */
function mustBeExport(folder: string): void {
  const known = (name: string) => name === LOCK || EXPORTED.some((each) => each === name);
  const isFile = (name: string) => !existsSync(join(folder, name)) || statSync(join(folder, name)).isFile();
  if (!readdirSync(folder).every(known) || !EXPORTED.every(isFile)) throw strange(folder);
}

const strange = (folder: string) =>
  new OutputError(`${folder} holds something else than an exported page; choose another folder`);
