import { existsSync } from 'node:fs';
import { basename } from 'node:path';
import type { FileState, FileWord, LedgerWord, SaveAnswer, SaveOrder } from '../parts/index.js';
import { type InputError, OutputError } from './exit.js';
import { readText, readWhole, replaceFile, sha256, textOf } from './files.js';
import { ledgerFrom } from './ledger-file.js';
import { FileProblems, machineFromText } from './machine-file.js';

/** @throws InputError when the file cannot be read */
export function readState(path: string): FileState {
  const { bytes, text } = readWhole(path);
  return { text, sha256: sha256(bytes) };
}

/** A machine file as it stands on disk, valid or not. */
export function fileWord(path: string): FileWord {
  try {
    return readState(path);
  } catch (error) {
    return { gone: (error as InputError).message };
  }
}

/** Text of a ledger, null where there is none. @throws InputError when it cannot be read or is no ledger of ours */
export function readLedgerText(path: string): string | null {
  if (!existsSync(path)) return null;
  const text = readText(path);
  ledgerFrom(path, text);
  return text;
}

/** A ledger as it stands on disk. */
export function ledgerWord(path: string): LedgerWord {
  try {
    return { ledger: readLedgerText(path) };
  } catch (error) {
    return { ledger: null, trouble: (error as InputError).message };
  }
}

/**
 * Saves a machine file, if the edits rest on what is on disk and make a valid machine. Never waits, so of two saves that
 * rest on the same file the second finds the first one's.
 * @param body the order as it was sent: JSON in UTF-8
 */
export function save(path: string, body: Uint8Array): SaveAnswer {
  const order = orderFrom(body);
  if (typeof order === 'string') return { status: 400, body: { error: order } };
  const isStill = (word: FileWord) => 'sha256' in word && word.sha256 === order.base;
  const now = fileWord(path);
  if (!isStill(now)) return { status: 409, body: now };
  try {
    machineFromText(basename(path), order.text);
    const replaced = replaceFile(path, order.text, () => isStill(fileWord(path)));
    if (!replaced) return { status: 409, body: fileWord(path) };
    return { status: 200, body: { sha256: sha256(Buffer.from(order.text, 'utf8')) } };
  } catch (error) {
    if (error instanceof FileProblems) return { status: 422, body: { problems: error.problems } };
    if (error instanceof OutputError) return { status: 500, body: { error: error.message } };
    throw error;
  }
}

/** The order to save, or what is wrong with it. */
function orderFrom(body: Uint8Array): SaveOrder | string {
  const json = textOf(body);
  if (json === undefined) return 'the order is not UTF-8 text';
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch {
    return 'the order is not JSON';
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return 'the order is not a JSON object';
  const { text, base, ...more } = value as Record<string, unknown>;
  const strange = Object.keys(more)[0];
  if (strange !== undefined)
    return `the order holds ${JSON.stringify(strange)}, expected only "text" and "base"`;
  if (typeof text !== 'string') return '"text" is not a text';
  if (textOf(Buffer.from(text, 'utf8')) !== text) return '"text" holds characters that no file can hold';
  if (typeof base !== 'string' || !/^[0-9a-f]{64}$/.test(base))
    return '"base" is not a SHA-256 in 64 small hexadecimal digits';
  return { text, base };
}
