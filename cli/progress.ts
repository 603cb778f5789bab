/** Quicker work needs no word about it (ms). */
const QUICK = 1000;

/**
 * A note of what is being made, on one line that is written over and wiped at the end; only on a terminal, and only once
 * the work has taken a second.
 */
export class Progress {
  private readonly began = Date.now();
  private shown = false;

  constructor(private readonly stream: NodeJS.WriteStream = process.stderr) {}

  step(id: string, number: number, of: number): void {
    this.note(`building ${id} ${number}/${of}`);
  }

  note(text: string): void {
    if (!this.stream.isTTY || Date.now() - this.began < QUICK) return;
    this.shown = true;
    this.stream.write(`\r\u001b[K${text}`);
  }

  end(): void {
    if (this.shown) this.stream.write('\r\u001b[K');
    this.shown = false;
  }
}
