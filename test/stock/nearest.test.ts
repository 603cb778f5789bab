import { describe, expect, it } from 'vitest';
import { editDistance, nearest } from '../../parts/stock/nearest.js';

describe('edit distance', () => {
  it.each([
    ['', '', 0],
    ['belt', 'belt', 0],
    ['belt', 'bellt', 1],
    ['belt', 'bet', 1],
    ['belt', 'felt', 1],
    ['belt', 'betl', 1],
    ['kitten', 'sitting', 3],
    ['', 'abc', 3],
  ])('%j to %j takes %d edits', (from, to, edits) => {
    expect(editDistance(from, to)).toBe(edits);
    expect(editDistance(to, from)).toBe(edits);
  });
});

describe('nearest known word', () => {
  const known = ['neoprene', 'natural-latex', 'silicone', 'silk'];
  it.each([
    ['neopreen', 'neoprene'],
    ['Silicon', 'silicone'],
    ['SLIK', 'silk'],
    ['naturallatex', 'natural-latex'],
  ])('%s is probably %s', (word, meant) => {
    expect(nearest(word, known)).toBe(meant);
  });

  it('has no suggestion for a word that is far from all, and none without known words', () => {
    expect(nearest('rubber', known)).toBeUndefined();
    expect(nearest('silk', [])).toBeUndefined();
  });

  it('allows a third of the word’s length, and one edit in a short word', () => {
    expect(nearest('abcdef', ['abcdXY'])).toBe('abcdXY');
    expect(nearest('abcdef', ['abcXYZ'])).toBeUndefined();
    expect(nearest('ab', ['aX'])).toBe('aX');
    expect(nearest('ab', ['XY'])).toBeUndefined();
  });

  it('takes the first on a tie', () => {
    expect(nearest('cat', ['bat', 'hat'])).toBe('bat');
  });
});
