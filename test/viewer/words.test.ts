import { expect, it } from 'vitest';
import { wrapped } from '../../viewer/page/words.js';

it.each([
  ['along the column outside', 12, ['along the', 'column', 'outside']],
  ['a b c', 5, ['a b c']],
  ['unbreakable it is', 4, ['unbreakable', 'it', 'is']],
  ['', 4, ['']],
])('%j is broken into lines of %i letters', (words, letters, lines) => {
  expect(wrapped(words, letters)).toEqual(lines);
});
