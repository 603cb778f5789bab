import type { Constant, Status } from './row.js';

const ZOU = 'Zou et al., Nature Communications 10:1427 (2019)';
const QUOTED = `data notes quoting ${ZOU}`;

/**
 * Charge density that a material keeps after contact with mercury, as one published series measured it.
 * All were measured against the same metal, so that a pair is ranked by the difference. Air breaks down at a smaller
 * density than many of them. Not in the table for want of a value that can be stood behind: neoprene and glass (no
 * published value known), polyoxymethylene (two contradictory entries).
 */
const DENSITIES = {
  ptfe: row(-113, 'PTFE', 'secondary'),
  'silicone-pdms': row(-102, 'PDMS silicone', 'secondary'),
  polyimide: row(-93, 'polyimide', 'secondary'),
  pvdf: row(-87, 'PVDF', 'secondary'),
  leather: row(-54, 'leather', 'secondary'),
  acrylic: row(-49, 'PMMA', 'secondary'),
  nylon: row(-18, 'nylon 6, cast', 'secondary'),
  paper: row(-18, 'copy paper', 'secondary'),
  pvc: row(-117.53, 'PVC, clear', 'from-memory'),
  polyurethane: row(-109.22, 'polyurethane rubber, abrasion resistant', 'from-memory'),
  abs: row(-108, 'ABS', 'from-memory'),
  polycarbonate: row(-104.63, 'polycarbonate', 'from-memory'),
  silicone: row(-94.03, 'silicone rubber, food grade', 'from-memory'),
  polyester: row(-89.44, 'PET film', 'from-memory'),
  polyethylene: row(-71.2, 'polyethylene, grade not given', 'from-memory'),
  polypropylene: row(-27.23, 'polypropylene', 'from-memory'),
  'nylon-66': row(-26.09, 'nylon 66', 'from-memory'),
  'natural-rubber': row(-10.61, 'natural rubber, stretchable', 'from-memory'),
  nitrile: row(2.49, 'nitrile (Buna-N)', 'from-memory'),
} as const;

export type TriboelectricKey = keyof typeof DENSITIES;
export const TRIBOELECTRIC_KEYS = Object.keys(DENSITIES) as readonly TriboelectricKey[];

/** Charge density against mercury, uC/m2. */
export function triboelectric(key: TriboelectricKey): Constant {
  return DENSITIES[key];
}

function row(value: number, of: string, status: Extract<Status, 'secondary' | 'from-memory'>): Constant {
  return {
    value,
    unit: 'uC/m2',
    meaning: 'triboelectric charge density against mercury',
    source: `${status === 'secondary' ? QUOTED : ZOU}: ${of}`,
    status,
  };
}
