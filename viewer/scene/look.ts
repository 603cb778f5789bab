import { FIELD_PALETTES, type FieldPalette } from '../field/ramp.js';
import type { PieceView } from '../worker/messages.js';

/** How a piece is drawn. Colours as CSS numbers. */
export interface Look {
  readonly colour: number;
  /** 1: not seen through. */
  readonly opacity: number;
  readonly metalness: number;
  readonly roughness: number;
}

/** Colours of the scene for one scheme. */
export interface Palette {
  readonly paper: number;
  readonly ink: number;
  readonly edge: number;
  readonly shadow: number;
  readonly accent: number;
  readonly severity: { readonly danger: number; readonly caution: number; readonly ok: number };
  readonly field: FieldPalette;
}

export const PALETTES: Readonly<Record<'light' | 'dark', Palette>> = {
  light: {
    paper: 0xf4f1ea,
    ink: 0x23272e,
    edge: 0x3a3f48,
    shadow: 0x1c2026,
    accent: 0x0b6e74,
    severity: { danger: 0xa8203a, caution: 0x94600a, ok: 0x3c6e47 },
    field: FIELD_PALETTES.light,
  },
  dark: {
    paper: 0x15191f,
    ink: 0xe9e5db,
    edge: 0x0c0e12,
    shadow: 0x000000,
    accent: 0x5cc4c9,
    severity: { danger: 0xff8a97, caution: 0xe9b552, ok: 0x86c795 },
    field: FIELD_PALETTES.dark,
  },
};

/** Printed parts in the warm colours of glazed clay, neighbours apart from one another. */
const PRINTED: Readonly<Record<string, number>> = {
  'tube-mount': 0xc9733f,
  'lock-ring': 0xe0a458,
  'base-collar': 0x9c4a2f,
  'base-skirt': 0xb98a62,
  'rim-ring': 0xc9733f,
  'roller-hub-lower': 0xe0a458,
  'roller-hub-upper': 0xe0a458,
  'comb-bracket-lower': 0x9c4a2f,
  'comb-bracket-upper': 0x9c4a2f,
  'comb-bar-lower': 0xe3c08f,
  'comb-bar-upper': 0xe3c08f,
};
const PRINTED_OTHERWISE = 0xc98a5b;

/** Boards that are no metal. */
const BOARDS: Readonly<Record<string, number>> = { plywood: 0xe0d3b8, 'acrylic-cast': 0xcfe0e2 };

const CLEAR: readonly string[] = ['acrylic-extruded', 'acrylic-cast', 'polycarbonate', 'borosilicate-glass'];

/** Bought pieces are quiet: greys and what their material looks like; what hides the inside is seen through. */
export function lookOf(piece: Pick<PieceView, 'id' | 'of' | 'printed' | 'material'>): Look {
  if (piece.printed) {
    return { colour: PRINTED[piece.of] ?? PRINTED_OTHERWISE, opacity: 1, metalness: 0, roughness: 0.62 };
  }
  if (piece.id === 'terminal') return { colour: 0xaab4be, opacity: 0.34, metalness: 0.25, roughness: 0.35 };
  if (piece.id === 'tube') {
    const clear = CLEAR.includes(piece.material);
    return { colour: clear ? 0xa9cbd0 : 0xc4c6c2, opacity: clear ? 0.2 : 0.42, metalness: 0, roughness: 0.2 };
  }
  const board = piece.id === 'plate' ? BOARDS[piece.material] : undefined;
  if (board !== undefined) return { colour: board, opacity: 1, metalness: 0, roughness: 0.8 };
  if (piece.id === 'belt') return { colour: 0x565c66, opacity: 1, metalness: 0, roughness: 0.9 };
  if (piece.id.startsWith('roller-shell'))
    return { colour: 0xe6e6df, opacity: 1, metalness: 0, roughness: 0.55 };
  return { colour: 0x99a1a8, opacity: 1, metalness: 0.12, roughness: 0.45 };
}
