import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { OutputError } from './exit.js';
import { reason } from './files.js';

/** Name of the lock in an output folder. */
export const LOCK = '.tubewright-lock';

/** A lock without an owner is being written; older than this its writer died (ms). */
const UNWRITTEN_FOR = 10_000;

/**
 * Takes a folder for this run. A lock whose process is gone is taken over.
 * @returns what gives the folder free again
 * @throws OutputError when another run holds it or the folder cannot be written to
 */
export function takeLock(folder: string): () => void {
  const lock = join(folder, LOCK);
  const mine = ownerText(process.pid);
  const release = (): void => {
    if (textOf(lock) === mine) rmSync(lock, { force: true });
  };
  if (claim(lock, mine, folder)) return release;

  const held = textOf(lock);
  if (isHeld(lock, held)) throw inUse(folder, held);
  // Moved aside first: of two runs that find the same dead lock only one succeeds, and it checks what it moved.
  const aside = `${lock}-${randomBytes(6).toString('hex')}`;
  try {
    renameSync(lock, aside);
  } catch {
    throw inUse(folder, undefined);
  }
  const moved = textOf(aside);
  if (moved !== held) {
    if (!existsSync(lock)) renameSync(aside, lock);
    throw inUse(folder, moved);
  }
  rmSync(aside, { force: true });
  if (!claim(lock, mine, folder)) throw inUse(folder, textOf(lock));
  return release;
}

function claim(lock: string, mine: string, folder: string): boolean {
  try {
    writeFileSync(lock, mine, { flag: 'wx' });
    return true;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') return false;
    // On a full disk the lock can be there without an owner in it.
    if (textOf(lock) === '') rmSync(lock, { force: true });
    throw new OutputError(`${folder} cannot be written to: ${reason(error)}`);
  }
}

/** A process by its number and, where the system tells, when it began: numbers are used again. */
function ownerText(pid: number): string {
  return [pid, startOf(pid)].join(' ').trim();
}

/** When a process began, in the kernel’s ticks; empty where there is no /proc. */
function startOf(pid: number): string {
  try {
    // The second field, the program's name in brackets, may hold spaces; the start is the 22nd.
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)!.split(' ');
    return fields[19] ?? '';
  } catch {
    return '';
  }
}

function textOf(lock: string): string | undefined {
  try {
    return readFileSync(lock, 'utf8');
  } catch {
    return undefined;
  }
}

function isHeld(lock: string, text: string | undefined): boolean {
  if (!text) return ageOf(lock) < UNWRITTEN_FOR;
  const pid = Number(text.split(' ')[0]);
  if (!Number.isInteger(pid) || pid <= 0 || pid === process.pid) return false;
  return isRunning(pid) && ownerText(pid) === text;
}

function ageOf(path: string): number {
  try {
    return Date.now() - statSync(path).mtimeMs;
  } catch {
    return 0;
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

function inUse(folder: string, owner: string | undefined): OutputError {
  const who = owner ? `another run (process ${owner.split(' ')[0]})` : 'another run';
  return new OutputError(`${folder} is in use by ${who}; wait for it to end, then run again`);
}
