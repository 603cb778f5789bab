/**
 * Numbers points so that the same place always gets the same number. Coordinates are compared as float32, which is what a
 * file holds; -0 and 0 are one place. An open-addressed table: a Map keyed by text costs ten times as much.
 */
export class PointIndex {
  private slots: Int32Array;
  private points: Float32Array;
  private count = 0;

  constructor(expected = 1024) {
    let size = 1024;
    while (size < 2 * expected) size *= 2;
    this.slots = new Int32Array(size).fill(-1);
    this.points = new Float32Array(3 * size);
  }

  /** The number of the place, counted from 0 in the order of first sight. */
  of(x: number, y: number, z: number): number {
    if (2 * this.count >= this.slots.length) this.grow();
    const [fx, fy, fz] = [Math.fround(x) + 0, Math.fround(y) + 0, Math.fround(z) + 0];
    const slot = this.find(fx, fy, fz);
    const known = this.slots[slot]!;
    if (known >= 0) return known;
    this.points[3 * this.count] = fx;
    this.points[3 * this.count + 1] = fy;
    this.points[3 * this.count + 2] = fz;
    this.slots[slot] = this.count;
    return this.count++;
  }

  /** Coordinates of all places, three by three. */
  positions(): Float32Array {
    return this.points.slice(0, 3 * this.count);
  }

  private find(x: number, y: number, z: number): number {
    const mask = this.slots.length - 1;
    let slot = hash(x, y, z) & mask;
    for (;;) {
      const at = this.slots[slot]!;
      if (at < 0) return slot;
      if (this.points[3 * at] === x && this.points[3 * at + 1] === y && this.points[3 * at + 2] === z)
        return slot;
      slot = (slot + 1) & mask;
    }
  }

  private grow(): void {
    const points = this.points;
    this.points = new Float32Array(2 * points.length);
    this.points.set(points);
    this.slots = new Int32Array(2 * this.slots.length).fill(-1);
    for (let i = 0; i < this.count; i++) {
      this.slots[this.find(points[3 * i]!, points[3 * i + 1]!, points[3 * i + 2]!)] = i;
    }
  }
}

const scratch = new Float32Array(3);
const bits = new Int32Array(scratch.buffer);

function hash(x: number, y: number, z: number): number {
  scratch[0] = x;
  scratch[1] = y;
  scratch[2] = z;
  let mixed =
    Math.imul(bits[0]!, 0x9e3779b1) ^ Math.imul(bits[1]!, 0x85ebca6b) ^ Math.imul(bits[2]!, 0xc2b2ae35);
  mixed ^= mixed >>> 15;
  mixed = Math.imul(mixed, 0x2c1b3c6d);
  return mixed ^ (mixed >>> 12);
}
