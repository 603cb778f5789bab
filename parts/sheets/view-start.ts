import type { Problem } from '../machine/problem.js';

// What the program and the page it shows a machine on tell each other.

/** A machine file as it stands on disk; text and hash are of the same bytes. */
export interface FileState {
  readonly text: string;
  /** SHA-256 of the bytes, 64 hexadecimal digits. */
  readonly sha256: string;
}

/** A machine file that is not there, or cannot be read for now. */
export interface FileGone {
  /** Why, in words. */
  readonly gone: string;
}

/** Event `file`: sent on connecting and whenever the bytes on disk change. */
export type FileWord = FileState | FileGone;

/** Event `ledger`: sent on connecting and whenever the ledger changes. */
export interface LedgerWord {
  /** Text of a ledger that has been checked; null where there is none, or none that can be used. */
  readonly ledger: string | null;
  /** Why a ledger that is there cannot be used, in words. */
  readonly trouble?: string;
}

/** What the page begins with: the JSON of its element with the id `start`. */
export interface Start extends FileState {
  /** Name of the machine file, without its folder. */
  readonly file: string;
  readonly ledger: string | null;
  /** Whether the program stands behind the page: only then can it follow the file and save it. */
  readonly served: boolean;
}

/** What the page asks for when it saves. */
export interface SaveOrder {
  readonly text: string;
  /** Hash of the file that the edits rest on. */
  readonly base: string;
}

/**
 * What the page is told when it saves. Only 200 has written anything: 409, the file is not what the edits rest on (it is
 * what stands in the body); 422, the text is no valid machine; 400, the order is not understood; 500, the disk refused.
 */
export type SaveAnswer =
  | { readonly status: 200; readonly body: { readonly sha256: string } }
  | { readonly status: 409; readonly body: FileWord }
  | { readonly status: 422; readonly body: { readonly problems: readonly Problem[] } }
  | { readonly status: 400 | 500; readonly body: { readonly error: string } };
