/** The texts a machine file has had on this page, for undo and redo. */
export class History {
  private readonly texts: string[];
  private at = 0;
  private group: string | undefined;

  constructor(text: string) {
    this.texts = [text];
  }

  get text(): string {
    return this.texts[this.at]!;
  }
  get canUndo(): boolean {
    return this.at > 0;
  }
  get canRedo(): boolean {
    return this.at < this.texts.length - 1;
  }

  /**
   * The next text. What could be redone is gone.
   * @param group changes of one group that follow one another are undone together, as the strokes in one field
   */
  change(text: string, group?: string): void {
    if (text === this.text) return;
    const joins = group !== undefined && group === this.group && this.at > 0;
    this.texts.splice(joins ? this.at : this.at + 1);
    this.at = this.texts.length - 1;
    if (joins && text === this.text) {
      // The group has come back to where it began: nothing is left of it to undo.
      this.seal();
      return;
    }
    this.push(text);
    this.group = group;
  }

  /** A text from outside, which takes nothing away: what could be redone can be undone to. */
  arrive(text: string): void {
    this.seal();
    if (text === this.text) return;
    this.at = this.texts.length - 1;
    if (text !== this.text) this.push(text);
  }

  /** Ends a group: what follows is undone by itself. */
  seal(): void {
    this.group = undefined;
  }

  undo(): void {
    if (this.canUndo) this.at--;
    this.seal();
  }

  redo(): void {
    if (this.canRedo) this.at++;
    this.seal();
  }

  private push(text: string): void {
    this.texts.push(text);
    this.at = this.texts.length - 1;
  }
}
