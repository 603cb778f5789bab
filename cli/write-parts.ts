import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import {
  compareOrders,
  LEDGER_FILE,
  type Ledger,
  type LedgerRow,
  ledgerText,
  madePart,
  nextLedger,
  type PartChange,
  type PartOrder,
  type Printability,
  proveStl,
  stlFile,
  type Workshop,
} from '../parts/index.js';
import { OutputError } from './exit.js';
import { Batch, readBytes, sha256 } from './files.js';
import { readLedger } from './ledger-file.js';

export const BUILD_SHEET = 'build.txt';

/** What a run is to leave in its folder. */
export interface Wanted {
  readonly machine: string;
  readonly orders: readonly PartOrder[];
  /** How a part prints, from the bytes of its file. */
  readonly measure: (order: PartOrder, bytes: Uint8Array) => Printability;
  /** Text of the build sheet, given what the folder will hold. */
  readonly sheet: (rows: readonly LedgerRow[], prints: readonly Printability[]) => string;
  /** The one part to make; the others are left alone. */
  readonly only: string | undefined;
}

/** What the work is done with. */
export interface Tools {
  openWorkshop(): Promise<Pick<Workshop, 'stlOf'>>;
  /** Told before each part is built: its id, its number, how many there are. */
  progress(id: string, number: number, of: number): void;
}

/** One part of a run: what was said about it and whether its file was written now. */
export interface Made extends PartChange {
  readonly file: string;
  readonly written: boolean;
  readonly closed: boolean;
}

/**
 * Makes what is missing or changed in a folder held for this run. Every new file is read back from the disk and proven
 * before any of them takes its final name; the ledger takes it last.
 * @throws OutputError naming the part and why; then no file has changed
 */
export async function writeParts(
  folder: string,
  { machine, orders, measure, sheet, only }: Wanted,
  tools: Tools,
): Promise<{ made: Made[]; ledger: Ledger; prints: Printability[] }> {
  const previous = ledgerOf(folder);
  const known = new Map((previous?.parts ?? []).map((row) => [row.id, row]));
  const changes = compareOrders(previous?.parts ?? [], orders).filter(
    ({ id }) => only === undefined || id === only,
  );

  const todo = orders.filter(({ part }) => only === undefined || part.id === only);
  const toBuild = todo.filter((order) => !isKept(folder, order, known.get(order.part.id)));
  const rows = new Map(known);
  for (const { part, code, copies } of todo) {
    const row = known.get(part.id);
    if (row?.code === code) rows.set(part.id, { ...row, copies });
  }
  const batch = new Batch(folder);
  const built = new Map<string, Uint8Array>();
  try {
    const workshop = toBuild.length > 0 ? await tools.openWorkshop() : undefined;
    for (const [i, order] of toBuild.entries()) {
      tools.progress(order.part.id, i + 1, toBuild.length);
      const bytes = provenBytes(batch, workshop!, order);
      built.set(order.part.id, bytes);
      rows.set(order.part.id, rowOf(order, bytes));
    }
    const gone = changes.filter(({ verdict }) => verdict === 'no longer needed');
    for (const { id } of gone) rows.delete(id);
    const ledger = nextLedger(machine, previous, inOrder(rows, orders));
    const prints = orders.flatMap((order) => {
      const bytes = built.get(order.part.id) ?? standing(folder, order, known.get(order.part.id));
      return bytes ? [measure(order, bytes)] : [];
    });
    addIfChanged(batch, folder, BUILD_SHEET, sheet(ledger.parts, prints));
    // Last: a folder's ledger never speaks of files that are not there yet.
    addIfChanged(batch, folder, LEDGER_FILE, ledgerText(ledger));
    batch.commit();
    for (const { id } of gone) removeOwn(folder, known.get(id)!);
    const written = new Set(toBuild.map(({ part }) => part.id));
    const made = changes.map((change) => ({
      ...change,
      file: (rows.get(change.id) ?? known.get(change.id)!).file,
      written: written.has(change.id),
      // Written or kept, it stood the proof.
      closed: change.verdict !== 'no longer needed',
    }));
    return { made, ledger, prints };
  } finally {
    batch.drop();
  }
}

/** Bytes of a part's file where it need not be made again: same code, and as the ledger knows it. */
function standing(folder: string, order: PartOrder, row: LedgerRow | undefined): Uint8Array | undefined {
  if (row?.code !== order.code) return undefined;
  const there = readBytes(join(folder, row.file));
  return there !== undefined && sha256(there) === row.sha256 ? there : undefined;
}

/** Whether a part need not be made again: its file stands there, and stands the proof. */
function isKept(folder: string, order: PartOrder, row: LedgerRow | undefined): boolean {
  const there = standing(folder, order, row);
  return there !== undefined && complaintsAbout(there, order).length === 0;
}

function stlOf(workshop: Pick<Workshop, 'stlOf'>, order: PartOrder): Uint8Array {
  try {
    return workshop.stlOf(order);
  } catch (error) {
    throw new OutputError(
      `${order.part.id} could not be built, nothing was written: ${(error as Error).message}`,
    );
  }
}

/** What is wrong with a file, held against what its part states about itself; empty when nothing is. */
function complaintsAbout(bytes: Uint8Array, { stated }: PartOrder): readonly string[] {
  try {
    return proveStl(bytes, stated).complaints;
  } catch (error) {
    return [(error as Error).message];
  }
}

/** Builds a part and writes it under its passing name. @throws OutputError when it does not stand the proof */
export function provenBytes(batch: Batch, workshop: Pick<Workshop, 'stlOf'>, order: PartOrder): Uint8Array {
  const file = stlFile(order.part.id);
  const bytes = batch.add(file, stlOf(workshop, order));
  const complaints = complaintsAbout(bytes, order);
  if (complaints.length > 0) {
    const why = complaints.join('; ');
    throw new OutputError(`${file} is not the part it should be, nothing was written: ${why}`);
  }
  return bytes;
}

function rowOf(order: PartOrder, bytes: Uint8Array): LedgerRow {
  return { ...madePart(order), file: stlFile(order.part.id), sha256: sha256(bytes) };
}

/** Rows as the parts go together, whatever was made first; those no part asks for at the end. */
function inOrder(rows: ReadonlyMap<string, LedgerRow>, orders: readonly PartOrder[]): LedgerRow[] {
  const ids = [...new Set([...orders.map(({ part }) => part.id), ...rows.keys()])];
  return ids.flatMap((id) => rows.get(id) ?? []);
}

function addIfChanged(batch: Batch, folder: string, name: string, text: string): void {
  const there = readBytes(join(folder, name));
  if (there && Buffer.from(there).toString('utf8') === text) return;
  batch.add(name, text);
}

/** A file no part needs any more goes, unless somebody changed it. */
function removeOwn(folder: string, row: LedgerRow): void {
  const path = join(folder, row.file);
  const bytes = readBytes(path);
  if (bytes && sha256(bytes) === row.sha256) rmSync(path, { force: true });
}

/** @throws OutputError when the folder’s ledger cannot be understood: nothing is written over it */
function ledgerOf(folder: string): Ledger | undefined {
  const path = join(folder, LEDGER_FILE);
  if (!existsSync(path)) return undefined;
  try {
    return readLedger(path);
  } catch (error) {
    throw new OutputError(`${(error as Error).message}; nothing was written`);
  }
}
