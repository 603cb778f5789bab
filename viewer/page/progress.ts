import { signal } from '@preact/signals';

/** Work quicker than this (ms) needs no word about it. */
const QUICK = 330;

/** What is being built, once it has taken a while. */
export interface Progress {
  readonly what: string;
  readonly number: number;
  readonly of: number;
}

/** Tells how far a build is, when it is not done in a moment. */
export class BuildProgress {
  readonly told = signal<Progress | undefined>(undefined);
  private newest: Progress | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;

  step(progress: Progress): void {
    this.newest = progress;
    if (this.told.value) this.told.value = progress;
    this.timer ??= setTimeout(() => {
      this.told.value = this.newest;
    }, QUICK);
  }

  end(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
    this.told.value = undefined;
  }
}
