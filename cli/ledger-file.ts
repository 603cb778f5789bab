import { type Ledger, parseLedger } from '../parts/index.js';
import { InputError } from './exit.js';
import { readText } from './files.js';

/** @throws InputError when the file cannot be read or is no ledger of ours */
export function readLedger(path: string): Ledger {
  return ledgerFrom(path, readText(path));
}

/** @throws InputError when the text is no ledger of ours */
export function ledgerFrom(path: string, text: string): Ledger {
  try {
    return parseLedger(text);
  } catch (error) {
    throw new InputError(`${path}: not a ledger of this program: ${(error as Error).message}`);
  }
}
