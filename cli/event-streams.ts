import type { ServerResponse } from 'node:http';

/** A word in between keeps a quiet connection from being taken for dead (ms). */
const HEARTBEAT = 20_000;
/** More open pages than anybody has. */
const MOST_STREAMS = 32;
/** A page that has not taken this much is not reading any more (bytes). */
const MOST_WAITING = 4 * 1024 * 1024;

/** Open pages that are told what happens, as `text/event-stream`. */
export class EventStreams {
  private readonly open = new Set<ServerResponse>();
  private readonly beat: NodeJS.Timeout;

  /** @param every time between two words that say nothing, ms */
  constructor(every = HEARTBEAT) {
    this.beat = setInterval(() => this.write(':\n\n'), every);
    this.beat.unref();
  }

  get isFull(): boolean {
    return this.open.size >= MOST_STREAMS;
  }

  /** Takes in a stream whose head is written, and tells it the present first. */
  add(stream: ServerResponse, present: readonly (readonly [event: string, word: unknown])[]): void {
    for (const [event, word] of present) stream.write(eventText(event, word));
    this.open.add(stream);
    stream.on('close', () => this.open.delete(stream));
  }

  send(event: string, word: unknown): void {
    this.write(eventText(event, word));
  }

  end(): void {
    clearInterval(this.beat);
    for (const stream of this.open) stream.end();
  }

  private write(text: string): void {
    for (const stream of this.open) {
      if (stream.writableLength > MOST_WAITING) stream.destroy();
      else stream.write(text);
    }
  }
}

/** JSON has no line ends of its own, so a word is one line. */
const eventText = (event: string, word: unknown) => `event: ${event}\ndata: ${JSON.stringify(word)}\n\n`;
