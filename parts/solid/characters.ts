import jscad from '@jscad/modeling';
import { characterPlaces, type Engraving, mirror } from './marks.js';
import type { Loop, Vec2 } from './vector.js';

const { vectorChar } = jscad.text;

/** The font's capitals stand 1.5 times its nominal height. */
const CAPITAL = 1.5;
/** Sides of a half circle at the end of a stroke. */
const CAP_SIDES = 4;

/** A straight stroke with round ends, counter-clockwise. */
function capsule(from: Vec2, to: Vec2, width: number): Loop {
  const heading = Math.atan2(to[1] - from[1], to[0] - from[0]);
  const cap = (centre: Vec2, start: number): Vec2[] =>
    Array.from({ length: CAP_SIDES + 1 }, (_, i): Vec2 => {
      const angle = start + (Math.PI * i) / CAP_SIDES;
      return [centre[0] + (width / 2) * Math.cos(angle), centre[1] + (width / 2) * Math.sin(angle)];
    });
  return [...cap(to, heading - Math.PI / 2), ...cap(from, heading + Math.PI / 2)];
}

/** Every stroke of an engraving as a capsule; they overlap where strokes meet. */
export function characterStrokes(engraving: Engraving): Loop[] {
  const { text, height, stroke, mirrored } = engraving;
  const scale = height / CAPITAL;
  const places = characterPlaces(engraving);
  return [...text].flatMap((character, i) => {
    const { segments, width } = vectorChar({ height: scale }, character);
    const { at, heading } = places[i]!;
    const [cos, sin] = [Math.cos(heading), Math.sin(heading)];
    const put = ([x, y]: readonly number[]): Vec2 => {
      const across = x! - width / 2;
      const placed: Vec2 = [at[0] + across * cos - y! * sin, at[1] + across * sin + y! * cos];
      return mirrored ? mirror(placed) : placed;
    };
    return segments.flatMap((line) =>
      line.slice(1).map((point, k): Loop => capsule(put(line[k]!), put(point), stroke)),
    );
  });
}
