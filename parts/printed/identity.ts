import { sha256 } from '@noble/hashes/sha2.js';

/** A dimension is a number (mm or degrees), a list of them, or a word. */
export type Dimension = number | string | readonly number[];
export type Dimensions = Readonly<Record<string, Dimension>>;

/** Characters of an engraved code: none that reads as another on a print (no 0 O 1 I L). */
export const CODE_ALPHABET = '23456789ABCDEFGHJKMNPQRSTUVWXYZ';
export const CODE_LENGTH = 8;

/** What the identity is taken from, always written the same way: keys in order, numbers as rounded. */
export function canonical(id: string, revision: number, dimensions: Dimensions): string {
  const keys = Object.keys(dimensions).sort();
  return JSON.stringify([id, revision, keys.map((key) => [key, dimensions[key]])]);
}

/** The code engraved on a part: eight characters from a SHA-256 of id, revision and dimensions. */
export function codeOf(id: string, revision: number, dimensions: Dimensions): string {
  const digest = sha256(new TextEncoder().encode(canonical(id, revision, dimensions)));
  let number = 0n;
  for (const byte of digest.slice(0, 8)) number = number * 256n + BigInt(byte);
  const base = BigInt(CODE_ALPHABET.length);
  let code = '';
  for (let i = 0; i < CODE_LENGTH; i++) {
    code += CODE_ALPHABET[Number(number % base)];
    number /= base;
  }
  return code;
}
