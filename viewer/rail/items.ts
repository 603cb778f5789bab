import type { Finding, Severity } from '../../parts/index.js';
import { boundsAt } from '../session/take-apart.js';
import type { DressedMesh, MachineView, PieceView } from '../worker/messages.js';
import { type ScaleUnit, type Stretch, stretchInWords } from './layout.js';

/** A piece on the rail; copies that stand at the same height are one. */
export interface SpanItem {
  readonly track: 'spans';
  /** Its own among all items. */
  readonly id: string;
  readonly pieces: readonly PieceView[];
  readonly title: string;
  readonly stretch: Stretch;
  /** What a screen reader says: "tube, 5 to 645 mm". */
  readonly name: string;
}

/** A finding on the rail. */
export interface PinItem {
  readonly track: 'pins';
  readonly id: string;
  readonly finding: Finding;
  readonly severity: Severity;
  /** From its lowest to its highest place; of one place both are the same. */
  readonly stretch: Stretch;
  readonly name: string;
}

export type RailItem = SpanItem | PinItem;

/** mm within which copies count as standing at one height. */
const SAME = 0.05;

/** The pieces with the heights from which to which they reach, as assembled; highest first. */
export function spanItems(
  { pieces }: MachineView,
  meshes: ReadonlyMap<string, DressedMesh>,
  unit: ScaleUnit,
): SpanItem[] {
  const items: { readonly pieces: PieceView[]; readonly stretch: Stretch }[] = [];
  for (const piece of pieces) {
    const dressed = meshes.get(piece.key);
    if (!dressed) continue;
    const { min, max } = boundsAt(dressed.mesh, piece.placement);
    const stretch = { low: min[2], high: max[2] };
    const copy = items.find(
      (item) => item.pieces[0]!.title === piece.title && Math.abs(item.stretch.low - stretch.low) < SAME,
    );
    if (copy) copy.pieces.push(piece);
    else items.push({ pieces: [piece], stretch });
  }
  return items
    .map(({ pieces: copies, stretch }): SpanItem => {
      const title = copies.length > 1 ? `${copies[0]!.title} ×${copies.length}` : copies[0]!.title;
      return {
        track: 'spans',
        id: `piece:${copies[0]!.id}`,
        pieces: copies,
        title,
        stretch,
        name: `${title}, ${stretchInWords(stretch, unit)}`,
      };
    })
    .sort((a, b) => middleOf(b) - middleOf(a));
}

/** The findings that have a place; highest first. */
export function pinItems({ findings }: MachineView, unit: ScaleUnit): PinItem[] {
  return findings
    .flatMap((finding): PinItem[] => {
      const { at, severity, title, id } = finding;
      if (!at) return [];
      const heights = ('path' in at ? at.path : [at.point]).map((point) => point[2]);
      const stretch = { low: Math.min(...heights), high: Math.max(...heights) };
      const name = `${severity}: ${title}, at ${stretchInWords(stretch, unit)}`;
      return [{ track: 'pins', id: `finding:${id}`, finding, severity, stretch, name }];
    })
    .sort((a, b) => middleOf(b) - middleOf(a));
}

export const middleOf = ({ stretch }: { readonly stretch: Stretch }): number =>
  (stretch.low + stretch.high) / 2;

/** What an arrow key leads to: up and down within a track by height, to the sides to what lies nearest in the other. */
export function itemBeside(
  items: readonly RailItem[],
  from: RailItem,
  key: 'ArrowUp' | 'ArrowDown' | 'ArrowLeft' | 'ArrowRight' | 'Home' | 'End',
): RailItem {
  const own = items.filter(({ track }) => track === from.track);
  const place = own.findIndex(({ id }) => id === from.id);
  if (key === 'ArrowUp') return own[Math.max(0, place - 1)] ?? from;
  if (key === 'ArrowDown') return own[Math.min(own.length - 1, place + 1)] ?? from;
  if (key === 'Home') return own[0] ?? from;
  if (key === 'End') return own.at(-1) ?? from;
  const others = items.filter(({ track }) => track === (key === 'ArrowLeft' ? 'spans' : 'pins'));
  if (others.length === 0 || others[0]!.track === from.track) return from;
  const away = (item: RailItem) => Math.abs(middleOf(item) - middleOf(from));
  return others.reduce((nearest, item) => (away(item) < away(nearest) ? item : nearest));
}
