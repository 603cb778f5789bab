/** How the program ends. One list for code, README and tests. */
export const EXIT = {
  done: 0,
  /** The machine has `danger` findings; `make` wrote nothing unless each was accepted. */
  danger: 1,
  /** The input cannot be used. */
  input: 2,
  /** An output could not be written. */
  output: 3,
} as const;

/** The input cannot be used; the message says which, why and what was expected. */
export class InputError extends Error {
  readonly exit = EXIT.input;
}

/** An output could not be written. */
export class OutputError extends Error {
  readonly exit = EXIT.output;
}
