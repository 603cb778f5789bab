import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CODE_ALPHABET, CODE_LENGTH, canonical, codeOf } from '../../parts/printed/identity.js';

describe('codes', () => {
  it('use no character that reads as another', () => {
    for (const character of '0O1IL') expect(CODE_ALPHABET).not.toContain(character);
    expect(new Set(CODE_ALPHABET).size).toBe(CODE_ALPHABET.length);
  });

  it('do not depend on the order in which dimensions are written', () => {
    expect(codeOf('hub', 1, { a: 1, b: 2.5 })).toBe(codeOf('hub', 1, { b: 2.5, a: 1 }));
  });

  it('differ by id, revision and any dimension', () => {
    const base = codeOf('hub', 1, { a: 1, list: [1, 2] });
    expect(codeOf('cub', 1, { a: 1, list: [1, 2] })).not.toBe(base);
    expect(codeOf('hub', 2, { a: 1, list: [1, 2] })).not.toBe(base);
    expect(codeOf('hub', 1, { a: 1.001, list: [1, 2] })).not.toBe(base);
    expect(codeOf('hub', 1, { a: 1, list: [2, 1] })).not.toBe(base);
  });

  it('are eight characters of the alphabet, whatever goes in', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.integer()), (dimensions) => {
        expect(codeOf('x', 1, dimensions)).toMatch(new RegExp(`^[${CODE_ALPHABET}]{${CODE_LENGTH}}$`));
      }),
      { seed: 20261125 },
    );
  });

  // SHA-256 of the text is a published function; this pins that the text itself never changes by accident.
  it('are taken from one written form', () => {
    expect(canonical('hub', 3, { b: 2, a: [1, 0.5] })).toBe('["hub",3,[["a",[1,0.5]],["b",2]]]');
  });
});
