/** A colour number as style sheets write it. */
export function cssColour(colour: number): string {
  return `#${colour.toString(16).padStart(6, '0')}`;
}
