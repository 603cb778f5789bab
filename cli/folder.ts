import { randomBytes } from 'node:crypto';
import { existsSync, linkSync, mkdirSync, readdirSync, readFileSync, renameSync, rmdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { OutputError } from './exit.js';
import { reason, UNFINISHED } from './files.js';

const LOCK = '.tubewright-lock';

/**
 * Holds an output folder for one run at a time. A lock whose process is gone is taken over, and what that run left
 * unfinished is cleared away.
 * @param isOurs whether the names found in a folder that is not empty show that it was made here
 * @throws OutputError when another run holds it or the folder cannot be used
 */
export async function withFolder<T>(
  folder: string,
  isOurs: (names: readonly string[]) => boolean,
  work: () => Promise<T>,
): Promise<T> {
  const fresh = !existsSync(folder);
  try {
    mkdirSync(folder, { recursive: true });
    const names = readdirSync(folder).filter((name) => !name.startsWith(LOCK) && !name.startsWith(UNFINISHED));
    if (names.length > 0 && !isOurs(names)) {
      throw new OutputError(`${folder} holds files but no ledger: it was not made by tubewright; choose another folder`);
    }
  } catch (error) {
    if (error instanceof OutputError) throw error;
    throw new OutputError(`${folder} cannot be used: ${reason(error)}`);
  }
  const lock = join(folder, LOCK);
  takeLock(lock, folder);
  try {
    for (const name of readdirSync(folder)) {
      if (name.startsWith(UNFINISHED)) rmSync(join(folder, name), { force: true });
    }
    return await work();
  } finally {
    rmSync(lock, { force: true });
    if (fresh) removeIfEmpty(folder);
  }
}

/** A run that failed before it wrote anything leaves no folder behind. */
function removeIfEmpty(folder: string): void {
  if (readdirSync(folder).length === 0) rmdirSync(folder);
}

function takeLock(lock: string, folder: string): void {
  if (claim(lock, folder)) return;
  const owner = ownerOf(lock);
  if (owner !== undefined && isRunning(owner)) throw inUse(folder, owner);
  // Moved aside first: of two runs that find the same dead lock only one succeeds, and it checks what it moved.
  const aside = `${lock}-${randomBytes(6).toString('hex')}`;
  try {
    renameSync(lock, aside);
  } catch {
    throw inUse(folder, undefined);
  }
  const moved = ownerOf(aside);
  if (moved !== owner) {
    if (!existsSync(lock)) renameSync(aside, lock);
    throw inUse(folder, moved);
  }
  rmSync(aside, { force: true });
  if (!claim(lock, folder)) throw inUse(folder, ownerOf(lock));
}

/** Makes the lock with this process’s number in it, at once or not at all. */
function claim(lock: string, folder: string): boolean {
  const draft = `${lock}-${randomBytes(6).toString('hex')}`;
  try {
    writeFileSync(draft, String(process.pid), { flag: 'wx' });
    linkSync(draft, lock);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw new OutputError(`${folder} cannot be written to: ${reason(error)}`);
  } finally {
    rmSync(draft, { force: true });
  }
}

function ownerOf(lock: string): number | undefined {
  try {
    const owner = Number(readFileSync(lock, 'utf8'));
    return Number.isInteger(owner) && owner > 0 ? owner : undefined;
  } catch {
    return undefined;
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

function inUse(folder: string, owner: number | undefined): OutputError {
  const who = owner === undefined ? 'another run' : `another run (process ${owner})`;
  return new OutputError(`${folder} is in use by ${who}; wait for it to end`);
}
