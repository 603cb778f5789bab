import { existsSync, mkdirSync, readdirSync, rmdirSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, extname, join, resolve } from 'node:path';
import { OutputError } from './exit.js';
import { reason, UNFINISHED } from './files.js';
import { LOCK, takeLock } from './lock.js';

/** Where `make` puts things when nothing else is said: a folder named after the file, beside it. */
export function defaultFolder(path: string): string {
  const end = extname(path);
  return join(dirname(path), end ? basename(path, end) : `${basename(path)}-parts`);
}

/**
 * Holds an output folder for one run at a time, made first where it is missing. What a killed run left unfinished is
 * cleared away; a folder that stays empty goes again.
 * @param isOurs whether the names found in a folder that is not empty show that it was made here
 * @throws OutputError when another run holds it or the folder cannot be used
 */
export async function withFolder<T>(
  folder: string,
  isOurs: (names: readonly string[]) => boolean,
  work: () => Promise<T>,
): Promise<T> {
  const made = prepare(folder, isOurs);
  try {
    const release = takeLock(folder);
    try {
      clearUnfinished(folder);
      return await work();
    } finally {
      release();
    }
  } finally {
    if (made !== undefined) removeEmpty(folder, made);
  }
}

/** @returns the outermost folder that had to be made, if any */
function prepare(folder: string, isOurs: (names: readonly string[]) => boolean): string | undefined {
  let made: string | undefined;
  let names: readonly string[];
  try {
    if (existsSync(folder) && !statSync(folder).isDirectory()) {
      throw new OutputError(`${folder} is a file, not a folder; choose another place`);
    }
    made = makeFolders(resolve(folder));
    names = readdirSync(folder);
  } catch (error) {
    if (error instanceof OutputError) throw error;
    throw new OutputError(`${folder} cannot be used: ${reason(error)}`);
  }
  // A lock is only ever left in a folder that was found to be ours, or empty.
  const ours = names.length === 0 || names.includes(LOCK) || isOurs(names);
  const strangers = names.filter((name) => !name.startsWith(LOCK) && !name.startsWith(UNFINISHED));
  if (!ours && strangers.length > 0) {
    throw new OutputError(
      `${folder} holds files but no ledger: it was not made by tubewright; choose another folder`,
    );
  }
  return made;
}

/** Makes a folder and what is missing above it. @returns the outermost one made, if any */
function makeFolders(folder: string): string | undefined {
  if (existsSync(folder)) return undefined;
  // Node's own way of making all of them never ends where the system denies what it asks for, as under /proc.
  const above = makeFolders(dirname(folder));
  try {
    mkdirSync(folder);
  } catch (error) {
    // Another run was quicker.
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return above;
    throw error;
  }
  return above ?? folder;
}

function clearUnfinished(folder: string): void {
  for (const name of readdirSync(folder)) {
    if (name.startsWith(UNFINISHED) || name.startsWith(`${LOCK}-`))
      rmSync(join(folder, name), { force: true });
  }
}

/** A run that failed before it wrote anything leaves no folder behind. */
function removeEmpty(folder: string, outermost: string): void {
  for (let path = resolve(folder); existsSync(path) && readdirSync(path).length === 0; path = dirname(path)) {
    rmdirSync(path);
    if (path === outermost) return;
  }
}
