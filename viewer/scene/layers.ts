import type { PieceView } from '../worker/messages.js';

/** Something that can be shown or hidden by itself. Adding a layer means adding it here. */
export interface Layer {
  readonly id: string;
  readonly title: string;
  /** The pieces in it; none for what is drawn over the machine. */
  holds(piece: PieceView): boolean;
  /** Shown only when it is asked for. */
  readonly onDemand?: true;
}

/** The field, painted on the cut, and the lines along which it points. */
export const FIELD_LAYER = 'field';
export const LINES_LAYER = 'field-lines';

const none = () => false;

export const LAYERS: readonly Layer[] = [
  { id: 'printed', title: 'printed parts', holds: ({ printed }) => printed },
  { id: 'terminal', title: 'terminal', holds: ({ id }) => id === 'terminal' },
  { id: 'tube', title: 'tube', holds: ({ id }) => id === 'tube' },
  { id: 'belt', title: 'belt', holds: ({ id }) => id === 'belt' },
  {
    id: 'rollers',
    title: 'rollers and combs',
    holds: ({ id, printed }) => !printed && /^(roller-shell|axle|bearing|comb|jack-screw)/.test(id),
  },
  {
    id: 'drive',
    title: 'motor and its belt',
    holds: ({ id, printed }) => !printed && /^(motor|drive)/.test(id),
  },
  { id: 'plate', title: 'plate', holds: ({ id }) => id === 'plate' },
  { id: 'ways', title: 'ways of a spark', holds: none },
  { id: 'fits', title: 'fits in the cut', holds: none },
  { id: FIELD_LAYER, title: 'field on the cut', holds: none, onDemand: true },
  { id: LINES_LAYER, title: 'lines of the field', holds: none, onDemand: true },
];

export const HIDDEN_AT_FIRST: readonly string[] = LAYERS.filter(({ onDemand }) => onDemand).map(
  ({ id }) => id,
);

/** The layer a piece is in. */
export function layerOf(piece: PieceView): string {
  return LAYERS.find((layer) => layer.holds(piece))?.id ?? 'printed';
}
