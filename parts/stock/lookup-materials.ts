import * as air from './air.js';
import { BELT_MATERIALS, beltMaterial } from './belts.js';
import { PLATE_MATERIALS, plateMaterial } from './metals.js';
import { PROPERTY_NAMES } from './plastic.js';
import { PLASTICS, PRINT_MATERIALS, PRINTED_WALL_STRENGTH, TUBE_MATERIALS } from './plastics.js';
import { entry, factOf, factsOf, type StockEntry } from './stock-entry.js';
import { surfaceResistivityOf } from './surface-resistivity.js';

const round = (value: number): number => Math.round(value * 1000) / 1000;

export function plasticEntries(): StockEntry[] {
  const printable: readonly string[] = PRINT_MATERIALS;
  return PLASTICS.map((row) => {
    const known = PROPERTY_NAMES.flatMap((name) => (row[name] ? [factOf(row[name])] : []));
    const missing = PROPERTY_NAMES.filter((name) => !row[name]).map(words);
    const tracking = row.tracking
      ? factsOf(
          row.tracking,
          ['material group', row.tracking.group, ''],
          ['tracking index', row.tracking.index, 'V'],
        )
      : [];
    const wall = printable.includes(row.key) ? Object.values(PRINTED_WALL_STRENGTH).map(factOf) : [];
    const tube = TUBE_MATERIALS.find((key) => key === row.key);
    const surface = tube ? Object.values(surfaceResistivityOf(tube)).map(factOf) : [];
    const index = row.tracking ? [] : ['tracking index'];
    return entry('plastic', row.key, [...known, ...tracking, ...surface, ...wall], [...missing, ...index]);
  });
}

export function beltEntries(): StockEntry[] {
  return BELT_MATERIALS.map(beltMaterial).map((row) => {
    const { low, high, unit } = row.stretch;
    const practice = { source: row.stretch.source, status: row.stretch.status };
    return entry(
      'belt',
      row.key,
      [
        factOf(row.density),
        ...(row.shoreA ? [factOf(row.shoreA)] : []),
        ...[factOf(row.youngsModulus)].map((fact) => ({ ...fact, value: round(row.youngsModulus.value) })),
        ...factsOf(practice, ['stretch as fitted', `${low} to ${high}`, unit], ['carbon', row.carbon, '']),
        ...(row.triboelectric ? [factOf(row.triboelectric)] : []),
        factOf(row.permittivity),
      ],
      row.triboelectric ? [] : ['triboelectric charge density'],
    );
  });
}

export function metalEntries(): StockEntry[] {
  return PLATE_MATERIALS.map(plateMaterial).map((row) =>
    entry('metal', row.key, [
      factOf(row.density),
      factOf(row.youngsModulus),
      ...factsOf(row.density, ['conducts', row.conductive ? 'yes' : 'no', '']),
    ]),
  );
}

export function airEntries(): StockEntry[] {
  const { positive, negative } = air.STREAMER_GRADIENT;
  const groups = {
    reference: [air.REFERENCE_TEMPERATURE, air.REFERENCE_PRESSURE, air.REFERENCE_HUMIDITY],
    permittivity: [air.VACUUM_PERMITTIVITY],
    breakdown: [air.BREAKDOWN_FIELD],
    peek: [air.PEEK_SPHERE_FIELD, air.PEEK_SPHERE_FACTOR, air.PEEK_TEMPERATURE],
    column: [...Object.values(air.COLUMN_GRADIENT), air.FOUL_COLUMN_FACTOR],
    streamer: [positive.low, positive.high, negative.low, negative.high],
  };
  return Object.entries(groups).map(([name, constants]) => entry('air', name, constants.map(factOf)));
}

/** `thermalExpansion` as it is written in a sentence. */
function words(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
