import fc from 'fast-check';
import { deflateSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { fragmentOf, LINK_MARK, textIn } from '../../viewer/session/link.js';
import { STARTERS, starterText } from '../helpers/machines.js';

const linkOf = (bytes: Uint8Array) => `${LINK_MARK}${Buffer.from(deflateSync(bytes)).toString('base64url')}`;

describe('a link', () => {
  it.each(STARTERS)('carries %s byte for byte, in letters that every mail leaves alone', (name) => {
    const text = starterText(name);
    const fragment = fragmentOf(text);
    expect(textIn(fragment)).toBe(text);
    expect(fragment).toMatch(/^#values=[\w-]+$/);
    expect(fragment.length).toBeLessThan(text.length);
  });

  it('carries any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 400 }), (text) => {
        expect(textIn(fragmentOf(text))).toBe(text);
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  it('keeps byte order mark and line ends', () => {
    const text = '\uFEFFmachine: Ä″ 𝄞\r\nunits: mm\r\n';
    expect(textIn(fragmentOf(text))).toBe(text);
  });

  it('carries nothing when the address has another fragment or none', () => {
    for (const fragment of ['', '#', '#top', '#value=AAAA']) expect(textIn(fragment)).toBeUndefined();
  });

  it('is refused when it was cut short, wherever', () => {
    const fragment = fragmentOf(starterText('travelling-demonstrator'));
    for (let length = LINK_MARK.length; length < fragment.length; length++)
      expect(() => textIn(fragment.slice(0, length)), String(length)).toThrow(/cut short/);
  });

  it('is refused when it holds what is no such text', () => {
    for (const coded of ['!', 'äöü', 'AAAA', '%20', Buffer.from('machine: A').toString('base64url')])
      expect(() => textIn(`${LINK_MARK}${coded}`), coded).toThrow(RangeError);
    expect(() => textIn(linkOf(Uint8Array.of(0x6d, 0xff, 0xfe)))).toThrow(RangeError);
  });

  it('is refused when it would fill the memory', () => {
    expect(() => textIn(linkOf(new Uint8Array(64 * 1024 * 1024)))).toThrow(RangeError);
    expect(() => textIn(linkOf(new Uint8Array(256 * 1024 + 1).fill(0x61)))).toThrow(RangeError);
    expect(textIn(linkOf(new Uint8Array(256 * 1024).fill(0x61)))).toHaveLength(256 * 1024);
  });
});
