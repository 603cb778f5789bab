import { deflateSync, Inflate, strToU8 } from 'fflate';

/** In a page’s address, before the values it carries. */
export const LINK_MARK = '#values=';

/** Bytes a link may inflate to: the most that a machine file has. */
const MOST = 256 * 1024;

/** The fragment of a link that carries a machine file. */
export function fragmentOf(text: string): string {
  const bytes = deflateSync(strToU8(text), { level: 9 });
  const binary = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return `${LINK_MARK}${btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '')}`;
}

/**
 * The machine file in a fragment; undefined when the fragment carries none.
 * @throws RangeError when it carries something that can’t be read
 */
export function textIn(fragment: string): string | undefined {
  if (!fragment.startsWith(LINK_MARK)) return undefined;
  try {
    const coded = fragment.slice(LINK_MARK.length).replaceAll('-', '+').replaceAll('_', '/');
    const bytes = Uint8Array.from(atob(coded), (character) => character.charCodeAt(0));
    return inflated(bytes);
  } catch {
    throw new RangeError('the values in this address can’t be read; was the link cut short?');
  }
}

/** Inflates as far as a machine file can go: a link from anywhere must not fill the memory. */
function inflated(bytes: Uint8Array): string {
  const chunks: Uint8Array[] = [];
  let size = 0;
  let ended = false;
  const stream = new Inflate((chunk, final) => {
    size += chunk.length;
    if (size > MOST) throw new RangeError('too large');
    chunks.push(chunk);
    ended ||= final;
  });
  // Bit by bit, so that it stops soon after it has grown too large.
  for (let at = 0; at < bytes.length; at += 1024) {
    stream.push(bytes.subarray(at, at + 1024), at + 1024 >= bytes.length);
  }
  if (!ended) throw new RangeError('cut short');
  const whole = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  // With its byte order mark, and nothing guessed at.
  return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(whole);
}
