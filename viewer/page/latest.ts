/** Does one thing at a time: of several wanted while one is done, only the last is done after it. */
export class Latest<Wanted> {
  private doing = false;
  private next: { readonly wanted: Wanted } | undefined;

  constructor(private readonly carryOut: (wanted: Wanted) => Promise<void>) {}

  want(wanted: Wanted): void {
    this.next = { wanted };
    if (!this.doing) void this.go();
  }

  private async go(): Promise<void> {
    this.doing = true;
    try {
      while (this.next) {
        const { wanted } = this.next;
        this.next = undefined;
        await this.carryOut(wanted);
      }
    } finally {
      this.doing = false;
    }
  }
}
