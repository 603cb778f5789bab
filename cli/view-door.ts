import { timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import { sha256 } from './files.js';

// Who is let in. The address is on this machine only, but every page of every site in the browser can send requests to
// it; these rules keep them out, and give them nothing to learn.

/** With every answer. No site may embed it, read it or keep it, and the page talks to nobody else. */
export const HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': [
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",
    'worker-src blob:',
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' blob: data:",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cache-control': 'no-store',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
};

/** Whether a request is for this address by its own names, and comes from its own page or from a user's hand. */
export function isFromHere({ headersDistinct }: IncomingMessage, port: number): boolean {
  const hosts = [`127.0.0.1:${port}`, `localhost:${port}`];
  const origins = hosts.map((host) => `http://${host}`);
  const { host = [], origin = [], 'sec-fetch-site': site = [] } = headersDistinct;
  // A name that was made to lead here by its owner is still that name in Host.
  return (
    host.length === 1 &&
    hosts.includes(host[0]!) &&
    origin.every((each) => origins.includes(each)) &&
    site.every((each) => each === 'same-origin' || each === 'none')
  );
}

/**
 * The name behind the key in a request's target, taken letter by letter: nothing in it is decoded or resolved.
 * @returns undefined when the key is wrong
 */
export function nameBehind(key: string, target: string): string | undefined {
  const given = target.slice(0, key.length + 2);
  // Compared by hash: the time it takes says nothing about where the two differ.
  const [a, b] = [given, `/${key}/`].map((text) => Buffer.from(sha256(Buffer.from(text))));
  return timingSafeEqual(a!, b!) ? target.slice(given.length) : undefined;
}

/** Whether a request may change the file: only a script of the page itself can send both. */
export function mayChange({ headers }: IncomingMessage): boolean {
  return headers.origin !== undefined;
}

export function isJson({ headers }: IncomingMessage): boolean {
  return /^application\/json(; ?charset=utf-8)?$/i.test(headers['content-type'] ?? '');
}
