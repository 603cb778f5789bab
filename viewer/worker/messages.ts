import type {
  Assumed,
  ColumnPotential,
  FieldPicture,
  Finding,
  Fit,
  FitPlace,
  Loop,
  Mesh,
  PartChange,
  Piece,
  Placement,
  Prediction,
  PrintEstimate,
  Problem,
} from '../../parts/index.js';
import type { FieldOrder } from '../field/solved-field.js';

/** What the page asks of its worker. */
export type Order =
  /** Judge and build this text; a later revision takes the place of an earlier one that is not done. */
  | {
      readonly kind: 'work';
      readonly revision: number;
      readonly text: string;
      readonly file: string;
      readonly ledger: string | null;
      /** The text that changes are told against where there is no ledger. */
      readonly opened: string;
    }
  /** Cut the machine that was built last, its pieces where they stand now. */
  | {
      readonly kind: 'cut';
      readonly ticket: number;
      readonly angle: number;
      readonly placements: ReadonlyMap<string, Placement>;
    }
  /** Solve the field of the machine that was built last; not done when an edit overtakes it. */
  | { readonly kind: 'field'; readonly ticket: number; readonly order: FieldOrder }
  /** How the parts of the machine that was built last print; not done when an edit overtakes it. */
  | { readonly kind: 'prints'; readonly ticket: number }
  /** Ways over the solids of the machine that was built last; not done when any other order comes. */
  | { readonly kind: 'ways'; readonly ticket: number }
  /** Files of the machine that was judged last; one part by id, or all of them in a zip. */
  | { readonly kind: 'files'; readonly ticket: number; readonly part: string | undefined };

/** What the worker tells the page. */
export type Word =
  | { readonly kind: 'refused'; readonly revision: number; readonly problems: readonly Problem[] }
  /** What an edit did to shapes and places, before it is judged: the picture does not wait for the field. */
  | { readonly kind: 'placed'; readonly revision: number; readonly machine: PlacedView }
  | { readonly kind: 'judged'; readonly revision: number; readonly machine: MachineView }
  | {
      readonly kind: 'progress';
      readonly revision: number;
      readonly what: string;
      readonly number: number;
      readonly of: number;
    }
  | {
      readonly kind: 'built';
      readonly revision: number;
      /** Only what the page does not have yet, by key. */
      readonly meshes: ReadonlyMap<string, DressedMesh>;
      readonly milliseconds: number;
    }
  | { readonly kind: 'section'; readonly ticket: number; readonly section: Section }
  | { readonly kind: 'field'; readonly ticket: number; readonly picture: FieldPicture }
  | { readonly kind: 'prints'; readonly ticket: number; readonly prints: readonly PrintView[] }
  | { readonly kind: 'ways'; readonly ticket: number; readonly ways: WaysView }
  /** An order was not carried out, because the machine that it was about is being edited. */
  | { readonly kind: 'dropped'; readonly ticket: number }
  | { readonly kind: 'files'; readonly ticket: number; readonly name: string; readonly bytes: Uint8Array }
  | { readonly kind: 'failed'; readonly ticket: number; readonly message: string }
  /** A fault of the program itself. */
  | { readonly kind: 'fault'; readonly message: string };

/** A mesh with what it takes to draw and to pick it. Arrays as in `Mesh` and `Surfaces`, in the piece's own frame, mm. */
export interface DressedMesh {
  readonly mesh: Mesh;
  readonly surfaces: {
    readonly of: Uint32Array;
    readonly normals: Float32Array;
    readonly edges: Float32Array;
  };
}

/** One piece as the page places and names it; `key` is that of its mesh. */
export type PieceView = Omit<Piece, 'build'>;

/** One printed part in the list of what there is to print. */
export interface PartView {
  readonly id: string;
  readonly code: string;
  readonly copies: number;
  /** For building the machine, no piece of it. */
  readonly tool: boolean;
  readonly purpose: string;
  readonly assembly: string;
  /** mm, as it lies on the bed */
  readonly size: readonly [number, number, number];
  /** g, printed solid; undefined where the plastic's density is not in stock */
  readonly mass: number | undefined;
  readonly change: PartChange;
  /** The changed dimensions in words. */
  readonly changes: readonly string[];
}

/** What one copy of a part takes to print, and what stands in the way. */
export interface PrintView {
  readonly part: string;
  readonly estimate: PrintEstimate;
  /** Findings that are not ok. */
  readonly open: readonly Finding[];
}

/** Screws and other metal that is no piece of its own on the page. */
export interface MetalView {
  readonly pieces: readonly PieceView[];
  /** By key. */
  readonly meshes: ReadonlyMap<string, DressedMesh>;
}

/** What was measured over the solids, and the metal that it may end at. */
export interface WaysView {
  readonly findings: readonly Finding[];
  readonly metal: MetalView;
}

/** Where a fit is, with the fit. */
export type FitView = Omit<FitPlace, 'fit'> & { readonly fit: Fit };

/** What of a machine follows from its dimensions alone. */
export type PlacedView = Omit<MachineView, 'findings' | 'prediction' | 'potential'>;

/** Everything the page shows of a machine, but for its meshes. */
export interface MachineView {
  readonly name: string;
  readonly units: string;
  readonly pieces: readonly PieceView[];
  readonly parts: readonly PartView[];
  /** Parts in the ledger that this machine no longer has. */
  readonly gone: readonly string[];
  /** What `change` of the parts was told against: the ledger, or the file as it was opened. */
  readonly against: 'ledger' | 'opened';
  readonly findings: readonly Finding[];
  readonly prediction: Prediction;
  readonly fits: readonly FitView[];
  readonly potential: ColumnPotential;
  readonly assumed: readonly Assumed[];
  /** mm: the top of what the machine stands on, where the terminal ends, and the plate's and terminal's largest radius. */
  readonly extent: { readonly bottom: number; readonly top: number; readonly radius: number };
}

/** The cut faces of the machine in one plane through its axis. */
export interface Section {
  /** degrees */
  readonly angle: number;
  readonly faces: readonly { readonly piece: string; readonly loops: readonly Loop[] }[];
  /** Where each fit is cut, as [distance along the plane, height] in mm: with all pieces in their places. */
  readonly fits: readonly { readonly id: string; readonly points: readonly (readonly [number, number])[] }[];
}
