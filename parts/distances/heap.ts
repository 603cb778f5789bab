/** The least of many numbers first: a binary heap of keys with what they stand for. */
export class Heap {
  private keys: Float64Array;
  private values: Int32Array;
  private size = 0;

  constructor(room = 1024) {
    this.keys = new Float64Array(room);
    this.values = new Int32Array(room);
  }

  get isEmpty(): boolean {
    return this.size === 0;
  }

  push(key: number, value: number): void {
    if (this.size === this.keys.length) {
      const keys = new Float64Array(2 * this.size);
      keys.set(this.keys);
      const values = new Int32Array(2 * this.size);
      values.set(this.values);
      this.keys = keys;
      this.values = values;
    }
    const { keys, values } = this;
    let at = this.size++;
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (keys[above]! <= key) break;
      keys[at] = keys[above]!;
      values[at] = values[above]!;
      at = above;
    }
    keys[at] = key;
    values[at] = value;
  }

  /** Takes the least; only when there is one. */
  pop(): { readonly key: number; readonly value: number } {
    const { keys, values } = this;
    const least = { key: keys[0]!, value: values[0]! };
    const size = --this.size;
    const key = keys[size]!;
    const value = values[size]!;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= size) break;
      if (below + 1 < size && keys[below + 1]! < keys[below]!) below++;
      if (keys[below]! >= key) break;
      keys[at] = keys[below]!;
      values[at] = values[below]!;
      at = below;
    }
    keys[at] = key;
    values[at] = value;
    return least;
  }
}
