import { bearingBoreTolerance, bearingOutsideTolerance } from './bearing-tolerances.js';
import { BEARINGS, type BearingRow } from './bearings.js';
import { bySize } from './by-size.js';
import {
  CLEARANCE_HOLES,
  COUNTERSUNK,
  FASTENER_SIZES,
  type FastenerSize,
  NUTS,
  SCREW_LENGTHS,
  SOCKET_CAPS,
} from './fasteners.js';
import { INSERT_BOSS, INSERTS } from './inserts.js';
import { shoulderFor } from './shoulders.js';
import { entry, factOf, factsOf, type StockEntry } from './stock-entry.js';
import {
  ACRYLIC_TUBES,
  EXTRUSION_TOLERANCES,
  METRIC_PIPES,
  type PipeGrade,
  PVC_PIPES,
  pipeOutsideTolerance,
  tubeOutsideTolerance,
} from './tubes.js';

export function bearingEntries(): StockEntry[] {
  return BEARINGS.map((row) => {
    const shoulder = shoulderFor(row);
    const bore = bearingBoreTolerance(row.bore);
    const outside = bearingOutsideTolerance(row.outer);
    const normalClass = {
      source: 'ISO 492 Normal class, NSK catalogue Tables 8.2.1 and 8.2.2',
      status: 'verified',
    } as const;
    const facts = [
      ...factsOf(row, ['bore', row.bore], ['outside', row.outer], ['width, open', row.widthOpen]),
      ...factsOf(row, ['width, shielded', row.widthShielded], ['inch sizes', row.inches?.join(' x '), 'in']),
      ...factsOf(
        { source: row.source, status: row.chamferStatus ?? row.status },
        ['chamfer, smallest printed', row.chamfer],
        ['chamfer, largest printed', row.chamferLargest],
      ),
      ...factsOf(
        normalClass,
        ['bore tolerance', `+0/${bore.lower}`],
        ['outside tolerance', `+0/${outside.lower}`],
      ),
      ...factsOf(
        { source: shoulder.basis, status: shoulder.status },
        ['shaft shoulder, least diameter', shoulder.innerShoulderMin],
        ['shaft shoulder, largest diameter', shoulder.innerShoulderMax],
        ['housing shoulder, least bore', shoulder.outerShoulderBoreMin],
        ['housing shoulder, largest bore', shoulder.outerShoulderBoreMax],
        ['fillet, largest', shoulder.filletMax],
      ),
      ...(row.ratings
        ? factsOf(
            row.ratings,
            ['dynamic load rating', row.ratings.dynamic, 'kN'],
            ['static load rating', row.ratings.static, 'kN'],
          )
        : []),
    ];
    return entry('bearing', row.designation, facts, missingOfBearing(row));
  });
}

function missingOfBearing(row: BearingRow): string[] {
  return [
    ...(row.widthOpen === undefined ? ['width of an open one: only shielded ones are made'] : []),
    ...(row.abutment ? [] : ['published abutment']),
    ...(row.ratings ? [] : ['load ratings']),
  ];
}

export function fastenerEntries(): StockEntry[] {
  return FASTENER_SIZES.map((size) => entry('fastener', size, fastenerFacts(size)));
}

function fastenerFacts(size: FastenerSize) {
  const screw = bySize(SOCKET_CAPS, size);
  const nut = bySize(NUTS, size);
  const sunk = bySize(COUNTERSUNK, size);
  const hole = bySize(CLEARANCE_HOLES, size);
  return [
    ...factsOf(
      screw,
      ['pitch', screw.pitch],
      ['cap head, plain', screw.headPlain],
      ['cap head, knurled', screw.headKnurled],
      ['cap head height', screw.headHeight],
      ['key', screw.key],
      ['socket depth, least', screw.keyDepth],
    ),
    ...factsOf(
      nut,
      ['nut, across flats', nut.flats],
      ['nut, across corners, least', nut.cornersMin],
      ['nut height', nut.height],
      ['thin nut height', nut.thinHeight],
      ['washer', `${nut.washerInner} x ${nut.washerOuter} x ${nut.washerThickness}`],
      ['washer thickness, largest', nut.washerThicknessMax],
    ),
    ...factsOf({ source: 'flats / cos 30 degrees', status: 'computed' }, [
      'nut pocket, across corners',
      round(nut.flats / Math.cos(Math.PI / 6)),
    ]),
    ...factsOf(
      sunk,
      ['ISO 10642 head, theoretical', sunk.head],
      ['ISO 10642 countersink', sunk.countersink],
      ['ISO 10642 head height', sunk.headHeight],
      ['ISO 10642 key', sunk.key],
      ['ISO 7046-1 head, theoretical', sunk.crossHead],
      ['ISO 7046-1 head height', sunk.crossHeadHeight],
    ),
    ...factsOf(hole, ['hole, fine', hole.fine], ['hole, medium', hole.medium], ['hole, coarse', hole.coarse]),
    ...factsOf(SCREW_LENGTHS, ['lengths on sale', SCREW_LENGTHS.lengths.join(' ')]),
  ];
}

export function insertEntries(): StockEntry[] {
  return INSERTS.map((row) =>
    entry('insert', row.size, [
      ...factsOf(row, ['outside', row.outerDiameter], ['hole', row.hole], ['hole tolerance', '-0/+0.1']),
      factOf(row.length),
      ...factsOf(INSERT_BOSS, ['boss outside', INSERT_BOSS.value * row.outerDiameter]),
    ]),
  );
}

export function tubeEntries(): StockEntry[] {
  return [...pvcEntries(), ...metricEntries(), ...extrudedEntries()];
}

function pvcEntries(): StockEntry[] {
  return PVC_PIPES.map((row) =>
    entry(
      'tube',
      `NPS ${row.size}`,
      [
        ...factsOf(
          row,
          ['outside', row.outer],
          ['outside', row.outerInches, 'in'],
          ['outside tolerance, +/-', row.outerTolerance],
        ),
        ...factsOf(
          { source: row.source, status: row.outOfRoundStatus },
          ['out-of-round, schedule 40, at most', row.outOfRound.schedule40],
          ['out-of-round, schedule 80, at most', row.outOfRound.schedule80],
        ),
        ...factsOf(
          row,
          ['wall, schedule 40, least', row.schedule40?.wallMin],
          ['wall, schedule 40, largest', row.schedule40?.wallMax],
          ['wall, schedule 80, least', row.schedule80?.wallMin],
        ),
      ],
      row.schedule40 ? [] : ['walls'],
    ),
  );
}

function metricEntries(): StockEntry[] {
  const grades: readonly PipeGrade[] = ['A', 'B', 'C'];
  return METRIC_PIPES.diameters.map((diameter) =>
    entry('tube', `pipe ${diameter}`, [
      ...factsOf(METRIC_PIPES, ['outside, nominal', diameter]),
      ...grades.map((grade) => factOf(pipeOutsideTolerance(diameter, grade))),
    ]),
  );
}

function extrudedEntries(): StockEntry[] {
  return EXTRUSION_TOLERANCES.map((row) => {
    const sizes = row.material.startsWith('acrylic')
      ? factsOf(ACRYLIC_TUBES, ['usual sizes', ACRYLIC_TUBES.sizes.map((size) => size.join('/')).join(' ')])
      : [];
    const steps = (row.outerSteps ?? []).flatMap((step) => {
      const tolerance = tubeOutsideTolerance(row.material, step.upTo);
      return tolerance
        ? factsOf(row, [`outside tolerance up to ${round(step.upTo)} mm, +/-`, round(tolerance.value)])
        : [];
    });
    const share = factsOf(
      row,
      ['outside tolerance, +/-', row.outerPercent, '%'],
      ['wall tolerance, +/-', row.wallPercent, '%'],
    );
    return entry('tube', row.material, [...sizes, ...share, ...steps]);
  });
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
