import { signal } from '@preact/signals';

/** A pause in typing (ms) after which what was typed goes into the text. */
const PAUSE = 250;

/** What stands in the fields of the key that is being typed at. */
export interface Draft {
  readonly key: string;
  readonly items: readonly string[];
}

/** What is being typed, until it is in the text, and exactly as typed until the field is left. One key at a time. */
export class Typing {
  readonly draft = signal<Draft | undefined>(undefined);
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** @param write puts a key’s items into the text */
  constructor(private readonly write: (draft: Draft) => void) {}

  /** Another stroke. */
  type(draft: Draft): void {
    this.show(draft);
    this.timer = setTimeout(() => this.flush(), PAUSE);
  }

  /** Shows what is not to be written yet. */
  show(draft: Draft): void {
    if (this.draft.value?.key !== draft.key) this.flush();
    clearTimeout(this.timer);
    this.timer = undefined;
    this.draft.value = draft;
  }

  /** Writes at once what still waits. */
  flush(): void {
    if (this.timer === undefined) return;
    clearTimeout(this.timer);
    this.timer = undefined;
    if (this.draft.value) this.write(this.draft.value);
  }

  /** The fields show what is written again. What still waited is gone: flush before. */
  drop(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
    this.draft.value = undefined;
  }
}

/** What of a draft is to be written: a reading that was added and has nothing in it yet is not. */
export function stated(items: readonly string[], writtenCount: number): readonly string[] {
  return items.length > writtenCount && items.at(-1)?.trim() === '' ? items.slice(0, -1) : items;
}
