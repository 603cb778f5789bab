import type { TubeKey } from './plastics.js';
import type { Constant, Sourced } from './row.js';

const PRACTICE: Sourced = { source: 'common practice, no source', status: 'common-practice' };
const MAKERS: Sourced = {
  source: 'makers’ data sheets and handbooks of insulating materials, order of magnitude',
  status: 'from-memory',
};

/** How the surface of a clean tube insulates. */
export interface SurfaceResistivity {
  /** ohm per square, clean, up to `DRY_UP_TO` */
  readonly dry: Constant;
  /** % of relative humidity above `DRY_UP_TO` that take one decade off. */
  readonly perDecade: Constant;
}

const surface = (dry: number, perDecade: number, { source, status }: Sourced): SurfaceResistivity => ({
  dry: { value: dry, unit: 'ohm per square', meaning: 'surface resistivity, clean and dry', source, status },
  perDecade: {
    value: perDecade,
    unit: '%',
    meaning: 'relative humidity that takes one decade off the surface resistivity',
    ...PRACTICE,
  },
});

const ACRYLIC = surface(1e14, 12, PRACTICE);

/** Glass takes up water on its surface and loses more than plastics do. */
const SURFACES: Readonly<Record<TubeKey, SurfaceResistivity>> = {
  'acrylic-extruded': ACRYLIC,
  'acrylic-cast': ACRYLIC,
  polycarbonate: surface(1e15, 12, MAKERS),
  pvc: surface(1e14, 12, MAKERS),
  'borosilicate-glass': surface(1e13, 10, MAKERS),
};

export function surfaceResistivityOf(material: TubeKey): SurfaceResistivity {
  return SURFACES[material];
}

export const DRY_UP_TO: Constant = {
  value: 50,
  unit: '%',
  meaning: 'relative humidity up to which a clean surface insulates as if dry',
  ...PRACTICE,
};

export const FOUL_SURFACE_DECADES: Constant = {
  value: 2,
  unit: 'decades',
  meaning: 'loss of surface resistivity by handling, dust or damp',
  ...PRACTICE,
};

export const SURFACE_SPREAD_DECADES: Constant = {
  value: 1,
  unit: 'decades',
  meaning: 'spread of surface resistivity to either side',
  ...PRACTICE,
};
