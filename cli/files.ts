import { createHash, randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fchmodSync,
  fchownSync,
  fsyncSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { InputError, OutputError } from './exit.js';

/** Machine files and ledgers are small; anything larger was named by mistake. */
const MOST_BYTES = 16 * 1024 * 1024;

/** @throws InputError when the file cannot be read */
export function readText(path: string): string {
  return readWhole(path).text;
}

/** A text and the bytes it is of, from one reading. @throws InputError when the file cannot be read or is no text */
export function readWhole(path: string): { readonly bytes: Uint8Array; readonly text: string } {
  try {
    if (statSync(path).size > MOST_BYTES)
      throw new InputError(`${path}: larger than 16 MiB, not a file of ours`);
    const bytes = new Uint8Array(readFileSync(path));
    const text = textOf(bytes);
    if (text === undefined) throw new InputError(`${path}: not UTF-8 text; save it as UTF-8`);
    return { bytes, text };
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(`${path}: ${reason(error)}`);
  }
}

/**
 * Bytes as text that gives the same bytes again when written (a byte order mark stays); undefined when they are not UTF-8.
 */
export function textOf(bytes: Uint8Array): string | undefined {
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    // UTF-16 reads as every other character being nothing.
    return text.includes('\0') ? undefined : text;
  } catch {
    return undefined;
  }
}

/** What the system says about a failed file operation, in words. */
export function reason(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  const words: Record<string, string> = {
    ENOENT: 'no such file or folder',
    EACCES: 'not permitted',
    EPERM: 'not permitted',
    EROFS: 'the disk is read-only',
    ENOSPC: 'the disk is full',
    EDQUOT: 'the disk quota is used up',
    EISDIR: 'is a folder',
    ENOTDIR: 'is not a folder',
    EEXIST: 'exists already',
    EFBIG: 'larger than files may be here',
    EIO: 'the disk failed',
    ELOOP: 'links lead in a circle',
    EMFILE: 'too many files are open',
    ENAMETOOLONG: 'the name is too long',
    ENOTEMPTY: 'is not empty',
    EBUSY: 'in use by another program',
  };
  return (code && words[code]) || message || String(error);
}

export function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** What an output file holds now. @throws OutputError when something is there that cannot be read */
export function readBytes(path: string): Uint8Array | undefined {
  if (!existsSync(path)) return undefined;
  try {
    return new Uint8Array(readFileSync(path));
  } catch (error) {
    throw new OutputError(`${path} cannot be read: ${reason(error)}`);
  }
}

/** Marks names that are not finished yet; left over only when a run was killed. */
export const UNFINISHED = '.unfinished-';

/**
 * Files that appear together: each is written whole under a passing name, and only when all are on the disk do they take
 * their final names, in the order given.
 */
export class Batch {
  private readonly pending: { readonly from: string; readonly to: string }[] = [];

  constructor(private readonly folder: string) {}

  /**
   * Writes one file under its passing name and gives back what is on the disk.
   * @param like whose owner and permissions it gets; else those of any new file
   * @throws OutputError
   */
  add(name: string, content: Uint8Array | string, like?: Stats): Uint8Array {
    const to = join(this.folder, name);
    const from = join(this.folder, `${UNFINISHED}${randomBytes(6).toString('hex')}`);
    try {
      this.pending.push({ from, to });
      writeThrough(from, content, like);
      return new Uint8Array(readFileSync(from));
    } catch (error) {
      this.drop();
      throw new OutputError(`${to} could not be written: ${reason(error)}`);
    }
  }

  /** Gives every file its final name. @throws OutputError */
  commit(): void {
    while (this.pending.length > 0) {
      const { from, to } = this.pending[0]!;
      try {
        renameSync(from, to);
      } catch (error) {
        this.drop();
        throw new OutputError(`${to} could not be written: ${reason(error)}`);
      }
      this.pending.shift();
    }
    syncFolder(this.folder);
  }

  /** Takes back what has no final name yet. */
  drop(): void {
    for (const { from } of this.pending.splice(0)) rmSync(from, { force: true });
  }
}

/** Puts the new names themselves on the disk, where the system lets a folder be synced; the files are there already. */
function syncFolder(folder: string): void {
  try {
    const handle = openSync(folder, 'r');
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  } catch {
    // Some systems open no folders: the names get there in their own time.
  }
}

function writeThrough(path: string, content: Uint8Array | string, like: Stats | undefined): void {
  // Nobody else reads it before it has the permissions it is to have.
  const handle = openSync(path, 'wx', like ? 0o600 : 0o666);
  try {
    if (like) takeOver(handle, like);
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
    for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function takeOver(handle: number, { uid, gid, mode }: Stats): void {
  try {
    fchownSync(handle, uid, gid);
  } catch {
    // Only an administrator gives files away: it stays with whoever writes it.
  }
  fchmodSync(handle, mode & 0o7777);
}

/** Writes one new file whole. @throws OutputError when it exists or cannot be written */
export function writeNew(path: string, content: string): void {
  if (existsSync(path)) throw new OutputError(`${path} exists already; it is not written over`);
  const batch = new Batch(dirname(path));
  batch.add(basename(path), content);
  batch.commit();
}

/**
 * Puts another text in a file's place, whole: a link is followed to the file it leads to, which keeps its owner and
 * permissions.
 * @param isStill asked last of all, when the new text is on the disk; if it says no, nothing is replaced
 * @returns whether it was replaced
 * @throws OutputError when it cannot be written; then the file is as it was
 */
export function replaceFile(path: string, content: string, isStill: () => boolean): boolean {
  const [to, like] = writable(path);
  const batch = new Batch(dirname(to));
  try {
    batch.add(basename(to), content, like);
    if (!isStill()) return false;
    batch.commit();
    return true;
  } finally {
    batch.drop();
  }
}

/** The file that a path leads to. @throws OutputError when it is not there or may not be written, which a rename would not ask */
function writable(path: string): readonly [string, Stats] {
  try {
    const to = realpathSync(path);
    accessSync(to, constants.W_OK);
    return [to, statSync(to)];
  } catch (error) {
    throw new OutputError(`${path} could not be written: ${reason(error)}`);
  }
}
