/**
 * The known word a misspelt one was probably meant to be.
 *
 * @returns the closest of `known` by edit distance (letter added, dropped, replaced or swapped with its neighbour; case
 * ignored), the first one on a tie, or undefined when none is within a third of the word's length (at least one edit)
 */
export function nearest(word: string, known: readonly string[]): string | undefined {
  const limit = Math.max(1, Math.floor(word.length / 3));
  let best: string | undefined;
  let bestDistance = limit + 1;
  for (const candidate of known) {
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase());
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** Edits (Damerau-Levenshtein, adjacent swaps, no edit inside a swap) that turn one word into the other. */
export function editDistance(from: string, to: string): number {
  const columns = to.length + 1;
  let beforeLast: number[] = [];
  let last = Array.from({ length: columns }, (_, column) => column);
  for (let row = 1; row <= from.length; row++) {
    const current = [row];
    for (let column = 1; column < columns; column++) {
      const replaced = last[column - 1]! + (from[row - 1] === to[column - 1] ? 0 : 1);
      let distance = Math.min(last[column]! + 1, current[column - 1]! + 1, replaced);
      const swapped =
        row > 1 && column > 1 && from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1];
      if (swapped) distance = Math.min(distance, beforeLast[column - 2]! + 1);
      current.push(distance);
    }
    beforeLast = last;
    last = current;
  }
  return last[to.length]!;
}
