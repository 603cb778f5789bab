/** How often the disk is asked (ms). Asking works with editors that save by renaming, and on every file system. */
const ASKED_EVERY = 125;

/** Follows what can be said about one file, whether it is there or not. */
export class WatchedFile<Word> {
  private told: string;
  /** What the disk said when it was last asked, told or not. */
  private heard: string;
  private readonly asking: NodeJS.Timeout;

  /**
   * @param read what is to be said now; never throws
   * @param changed told each word that is not the same as the one before
   */
  constructor(
    private readonly read: () => Word,
    private readonly changed: (word: Word) => void,
  ) {
    this.told = JSON.stringify(read());
    this.heard = this.told;
    // The content is asked for and not the file's times: whether a change came before or after the first look at the
    // times, or within one tick of the clock, it is in what is read next.
    this.asking = setInterval(() => this.ask(), ASKED_EVERY);
  }

  /** Reads the file now and gives back what is to be said. */
  look(): Word {
    const word = this.read();
    this.tell(word, JSON.stringify(word));
    return word;
  }

  stop(): void {
    clearInterval(this.asking);
  }

  /** Tells what was heard twice in a row: a program that empties a file and then fills it is not caught in between. */
  private ask(): void {
    const word = this.read();
    const text = JSON.stringify(word);
    if (text === this.heard) this.tell(word, text);
    this.heard = text;
  }

  private tell(word: Word, text: string): void {
    this.heard = text;
    if (text === this.told) return;
    this.told = text;
    this.changed(word);
  }
}
