import {
  crawford,
  from,
  memory,
  type Plastic,
  plasticRow,
  practice,
  shackelford,
  type Tracking,
  trackingFromMemory,
} from './plastic.js';
import { triboelectric } from './triboelectric.js';

const natureWorks = from('NatureWorks data sheets 4043D, 2003D', 'verified');
const eastman = from('Eastman data sheets GN046, GSP01', 'verified');
const luran = from('Luran S 778T data sheet', 'verified');
const expansionTables = from(
  'Crawford, Plastics Engineering, Table 1.8; tables of thermal expansion',
  'verified',
);
/** The handbooks’ values are for mouldings; the low end of what is advised for prints is taken where there is any. */
const snapAdvice = from('advice on printed snap joints in a trade article', 'verified');
const snapManual = from('design manuals for snap joints in mouldings', 'from-memory');
const filamentPage = from('filament page, from the mass of a metre', 'verified');

/** Nobody publishes a tracking index that could be used: the worse group is assumed. */
const assumedGroup: Tracking = {
  group: 'IIIa',
  index: undefined,
  source: 'common practice, no source',
  status: 'common-practice',
};

/** Printed from filament; the values are those of the moulded material, a print across its layers has about half. */
export const PRINTED_PLASTICS: readonly Plastic[] = [
  plasticRow(
    'abs',
    'ABS',
    {
      density: crawford(1.04),
      youngsModulus: memory(2300),
      strength: memory(40),
      poisson: memory(0.37),
      thermalExpansion: expansionTables(90, '53 to 150 are printed'),
      softening: expansionTables(105, 'glass transition'),
      joiningStrain: snapManual(1.8),
      permittivity: memory(2.8, '2.4 to 3.2'),
      dielectricStrength: shackelford(11.8, 'lowest of four grades'),
      triboelectric: triboelectric('abs'),
    },
    trackingFromMemory('II', 400),
  ),
  plasticRow(
    'asa',
    'ASA',
    {
      density: luran(1.07),
      youngsModulus: luran(2500),
      strength: luran(54, 'yield'),
      thermalExpansion: luran(95, '80 to 110'),
      softening: luran(106, 'heat deflection at 0.45 MPa'),
      joiningStrain: luran(2, '60 % of the strain of 3.4 % at which it yields'),
    },
    trackingFromMemory('I', 600),
  ),
  plasticRow(
    'petg',
    'PETG',
    {
      density: eastman(1.27),
      youngsModulus: eastman(2100, 'in bending; 1900 for film in tension'),
      strength: eastman(50, 'yield'),
      poisson: memory(0.38),
      thermalExpansion: memory(60, '51 to 68'),
      softening: memory(70, 'heat deflection at 0.45 MPa'),
      sustainedStrain: practice(0.7),
      joiningStrain: snapAdvice(3, '3 to 5 are advised'),
      permittivity: memory(2.6, '2.4 to 2.8'),
    },
    assumedGroup,
  ),
  plasticRow(
    'pla',
    'PLA',
    {
      density: natureWorks(1.24),
      youngsModulus: natureWorks(3600),
      strength: natureWorks(60, 'yield; 53 at break'),
      poisson: memory(0.36),
      thermalExpansion: memory(68),
      softening: natureWorks(55, 'heat deflection'),
      sustainedStrain: practice(0.5),
      joiningStrain: snapAdvice(2, '2 to 3 are advised'),
      permittivity: memory(2.9, '2.7 to 3.1'),
    },
    assumedGroup,
  ),
  plasticRow('pa12', 'PA12', {
    density: memory(1.01),
    youngsModulus: memory(1500),
    strength: memory(45),
    thermalExpansion: expansionTables(110, '100 to 120'),
    softening: memory(40, 'glass transition'),
    joiningStrain: snapAdvice(5, '5 to 8 are advised'),
  }),
  plasticRow('tpu', 'TPU, 95 Shore A', {
    density: filamentPage(1.21),
    youngsModulus: memory(26, 'secant'),
    strength: memory(39, 'break'),
    poisson: memory(0.48),
  }),
];

/** Strength of a printed wall against puncture; printing leaves voids between the layers. */
export const PRINTED_WALL_STRENGTH = {
  across: {
    ...practice(5),
    unit: 'kV/mm',
    meaning: 'design strength of a printed wall, field across the layers',
  },
  along: {
    ...practice(1),
    unit: 'kV/mm',
    meaning: 'design strength of a printed wall, field along the layers',
  },
  /** Beyond this thickness the rule is not used. */
  upTo: { ...practice(5), unit: 'mm', meaning: 'largest wall for which the design strength is used' },
};
