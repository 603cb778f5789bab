/** Bytes before the first triangle: an 80-byte header and the count. */
const HEADER_BYTES = 84;
/** Twelve float32 (normal and three corners) and a 16-bit attribute. */
const TRIANGLE_BYTES = 50;

/**
 * Reads a binary STL back as a triangle soup, nine numbers a triangle.
 * @throws RangeError when the length does not agree with the count or a coordinate is not finite
 */
export function readStl(bytes: Uint8Array): Float32Array {
  if (bytes.length < HEADER_BYTES)
    throw new RangeError(`an STL has at least ${HEADER_BYTES} bytes, found ${bytes.length}`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(HEADER_BYTES - 4, true);
  const expected = HEADER_BYTES + TRIANGLE_BYTES * count;
  if (bytes.length !== expected) {
    throw new RangeError(`an STL of ${count} triangles has ${expected} bytes, found ${bytes.length}`);
  }
  const soup = new Float32Array(9 * count);
  for (let t = 0; t < count; t++) {
    for (let i = 0; i < 9; i++) {
      const value = view.getFloat32(HEADER_BYTES + TRIANGLE_BYTES * t + 12 + 4 * i, true);
      if (!Number.isFinite(value))
        throw new RangeError(`triangle ${t} of the STL has a coordinate that is not finite`);
      soup[9 * t + i] = value;
    }
  }
  return soup;
}
