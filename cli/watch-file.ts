import { type StatsListener, unwatchFile, watchFile } from 'node:fs';

/** How often the disk is asked (ms). Asking works with editors that save by renaming, and on every file system. */
const ASKED_EVERY = 250;

/** Follows what can be said about one file, whether it is there or not. */
export class WatchedFile<Word> {
  private latest: Word;
  private readonly listener: StatsListener = () => {
    this.look();
  };

  /**
   * @param read what is to be said now; never throws
   * @param changed told each word that is not the same as the one before
   */
  constructor(
    private readonly path: string,
    private readonly read: () => Word,
    private readonly changed: (word: Word) => void,
  ) {
    this.latest = read();
    watchFile(path, { interval: ASKED_EVERY }, this.listener);
  }

  /** Reads the file now and gives back what is to be said. */
  look(): Word {
    const word = this.read();
    if (JSON.stringify(word) !== JSON.stringify(this.latest)) {
      this.latest = word;
      this.changed(word);
    }
    return word;
  }

  stop(): void {
    unwatchFile(this.path, this.listener);
  }
}
