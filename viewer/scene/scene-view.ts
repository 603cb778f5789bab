import { effect, signal } from '@preact/signals';
import { Box3, type Plane, Vector2, Vector3 } from 'three';
import { type Bounds, cutDirections, type Finding } from '../../parts/index.js';
import type { Store } from '../page/store.js';
import { boundsAt } from '../session/take-apart.js';
import type { MachineView } from '../worker/messages.js';
import { CutFaces } from './cut-faces.js';
import type { Gap } from './distance.js';
import { FieldLayer } from './field-layer.js';
import { boxAround } from './framing.js';
import { LINES_LAYER, layerOf } from './layers.js';
import { PALETTES } from './look.js';
import { FitMarks, GapMarks, WayMarks } from './marks.js';
import { gapBetween, type Pick, PickedSurfaces } from './picked-surfaces.js';
import { type Hit, hitBy } from './picking.js';
import { type DrawnPiece, Solids } from './solids.js';
import { Stage } from './stage.js';

/** Share of the picture's width that labels to the right may take. */
const LABELS = 0.04;
/** mm around a single point that is flown to. */
const AROUND_POINT = 110;
/** Pixels the pointer may move between going down and up and still mean a point, not a turn. */
const STEADY = 5;

/** The scene and what happens in it: keeps what is drawn in step with the store, and tells the store what was pointed at. */
export class SceneView {
  readonly stage: Stage;
  readonly picks = signal<readonly Pick[]>([]);
  readonly gap = signal<Gap | undefined>(undefined);
  /** The machine whose pieces are in the scene: what follows them waits for this, not for the store. */
  private readonly inScene = signal<MachineView | undefined>(undefined);
  private readonly solids: Solids;
  /** Screws and the like, once ways to them are measured: to be seen, not to be chosen. */
  private readonly metal: Solids;
  private readonly faces = new CutFaces();
  private readonly field = new FieldLayer();
  private readonly ways = new WayMarks();
  private readonly fits: FitMarks;
  private readonly gaps = new GapMarks();
  private readonly cross = document.createElement('div');
  private readonly picked = new PickedSurfaces();
  private readonly darkScheme = matchMedia('(prefers-color-scheme: dark)');
  private readonly dark = signal(this.darkScheme.matches);
  private readonly reduced = matchMedia('(prefers-reduced-motion: reduce)');
  private readonly ends: (() => void)[] = [];
  private plane: Plane | undefined;
  private framed = false;
  private down: { readonly x: number; readonly y: number } | undefined;

  /** @throws Error where there is no WebGL */
  constructor(
    private readonly host: HTMLElement,
    private readonly store: Store,
  ) {
    this.stage = new Stage(
      host,
      this.palette,
      () => this.margins(),
      () => this.reduced.matches,
      () => store.loseScene('The graphics card took the picture away. Reload the page to have it back.'),
    );
    this.fits = new FitMarks(this.stage.overlay);
    this.cross.className = 'cross';
    this.stage.overlay.append(this.cross);
    this.stage.onDrawn = (width, height) => this.drawn(width, height);
    this.solids = new Solids(this.palette);
    this.metal = new Solids(this.palette);
    this.stage.scene.add(
      this.solids.group,
      this.metal.group,
      this.faces.group,
      this.field.group,
      this.ways.group,
      this.gaps.group,
      this.picked.group,
    );
    this.follow();
    this.listen();
  }

  /** Ways lie on the machine in one piece. */
  private get waysShown(): boolean {
    return !this.store.hidden.value.has('ways') && this.store.apart.value === 0;
  }

  private get palette() {
    return PALETTES[this.dark.value ? 'dark' : 'light'];
  }

  /** What is drawn, and where. */
  get drawnPieces(): readonly DrawnPiece[] {
    return this.solids.all;
  }
  /** Screws and the like, that are no pieces on the page. */
  get drawnMetal(): readonly DrawnPiece[] {
    return this.metal.all;
  }
  /** The pieces whose cut faces are filled. */
  get filledFaces(): readonly string[] {
    return this.faces.filled;
  }

  get fieldIsPainted(): boolean {
    return this.field.shown;
  }

  /** Brings the whole machine, as it stands now, into the picture. */
  showAll(): void {
    this.stage.frame(this.boxOf(() => true));
  }

  picture(): Promise<Blob> {
    return this.stage.picture();
  }

  /** What lies under a point of the picture, from -1 to 1 to the right and up. */
  hitAt(point: Vector2): Hit | undefined {
    // The terminal and the tube are looked through; while measuring, what is seen is what counts.
    const passes = ({ faces }: { faces: { material: { opacity: number } } }) => faces.material.opacity < 0.15;
    return hitBy(this.stage.rayThrough(point), this.solids, this.faces, this.plane, passes);
  }

  /** Takes a surface for measuring; the third begins anew. */
  pick(hit: Hit | undefined): void {
    if (hit?.surface === undefined) return;
    const key = this.solids.get(hit.piece)!.piece.key;
    const next = { piece: hit.piece, key, surface: hit.surface };
    this.picks.value = this.picks.value.length === 2 ? [next] : [...this.picks.value, next];
  }

  stop(): void {
    for (const end of this.ends.splice(0)) end();
  }

  dispose(): void {
    this.stop();
    for (const marks of [this.ways, this.fits, this.gaps]) marks.clear();
    this.picked.clear();
    this.faces.dispose();
    this.field.dispose();
    this.solids.dispose();
    this.metal.dispose();
    this.stage.dispose();
  }

  private follow(): void {
    const { store, stage } = this;
    const on = (work: () => void) => this.ends.push(effect(work));
    on(() => {
      const machine = store.shown.value;
      if (!machine) return;
      this.solids.show(machine.pieces, store.meshes.value);
      this.picks.value = this.picks
        .peek()
        .filter(({ piece, key }) => this.solids.get(piece)?.piece.key === key);
      const whole = this.boxOf(() => true);
      stage.standOn(machine.extent.bottom, whole);
      if (!this.framed) {
        // The first view is of the machine standing on its bench; later ones are the viewer's own.
        stage.frameFirst(whole.expandByPoint(new Vector3(0, 0, machine.extent.bottom)));
        this.framed = true;
      }
      this.inScene.value = machine;
    });
    on(() => {
      void this.inScene.value;
      this.solids.move(store.moment.value.placements);
      stage.redraw(true);
    });
    let apart = store.apart.peek();
    on(() => {
      // As the machine grows apart the picture widens with it.
      const share = store.apart.value;
      if (share !== apart)
        stage.frame(
          this.boxOf(() => true),
          stage.direction,
          true,
        );
      apart = share;
    });
    on(() => {
      const section = store.cut.value.on ? store.section.value : undefined;
      const pieces = new Map((this.inScene.value?.pieces ?? []).map((piece) => [piece.id, piece]));
      this.plane = this.faces.show(section, pieces, store.hidden.value, this.palette);
      this.solids.clip(this.plane);
      this.metal.clip(this.plane);
      const together = store.apart.value === 0 && !store.hidden.value.has('fits');
      this.fits.show(this.inScene.value, together ? section : undefined, (place, size) =>
        stage.frame(boxAround(place, size)),
      );
      stage.redraw(true);
    });
    on(() => {
      const picture = store.fieldShown.value ? store.field.picture.value : undefined;
      // It belongs to the machine in one piece, and goes with the cut that is on the screen.
      const section = store.apart.value === 0 ? store.section.value : undefined;
      const id = picture?.weakest.id;
      const isFinding = this.inScene.value?.findings.some((finding) => finding.id === id);
      this.field.show(
        picture &&
          section && {
            picture,
            scale: store.field.scale.value,
            angle: section.angle,
            lines: !store.hidden.value.has(LINES_LAYER),
            palette: this.palette,
            onWeakest: isFinding ? () => store.chooseFinding(id) : undefined,
          },
      );
      stage.redraw();
    });
    on(() => {
      const { on: cutting, angle } = store.cut.value;
      if (!cutting || !store.facing.value) return;
      const { normal } = cutDirections(angle);
      const level = stage.direction.z;
      const flat = Math.sqrt(Math.max(0, 1 - level * level));
      const direction = new Vector3(normal[0] * flat, normal[1] * flat, level);
      const { position, target } = stage.view;
      stage.lookFrom(target.clone().addScaledVector(direction, position.distanceTo(target)));
    });
    on(() => {
      void this.inScene.value;
      this.solids.emphasise(store.hidden.value, this.clearAmong(this.solids), store.hover.value);
      stage.redraw(true);
    });
    on(() => {
      const metal = this.waysShown ? store.ways.metal : undefined;
      this.metal.show(metal?.pieces ?? [], metal?.meshes ?? new Map());
      this.metal.emphasise(new Set(), this.clearAmong(this.metal), undefined);
      stage.redraw(true);
    });
    on(() => {
      this.ways.show(
        this.inScene.value?.findings ?? [],
        store.chosenFinding.value,
        this.waysShown,
        this.palette,
        (id) => store.chooseFinding(id),
      );
      stage.redraw();
    });
    on(() => {
      const finding = store.finding.value;
      const piece = store.piece.value;
      if (finding !== undefined) this.flyToFinding(store.chosenFinding.peek());
      else if (piece !== undefined) stage.frame(this.boxOf(({ id }) => id === piece));
    });
    on(() => {
      if (!store.measuring.value) this.picks.value = [];
    });
    on(() => {
      void this.inScene.value;
      void store.moment.value;
      this.gap.value = gapBetween(this.picks.value, this.solids);
      this.picked.show(this.picks.value, this.solids, this.plane, this.palette.accent);
      this.gaps.show(this.gap.value, this.palette);
      stage.redraw();
    });
  }

  /** After each frame: callouts find their places, and the rail hears which heights are in the picture. */
  private drawn(width: number, height: number): void {
    const { x, y } = this.stage.middle;
    this.cross.style.translate = `${((x + 1) / 2) * width}px ${((1 - y) / 2) * height}px`;
    // The plate and the terminal are wider than what is cut; callouts stand clear of the column only.
    this.fits.arrange(this.stage.camera, width, height, width / 2);
    const [low, high] = this.stage.heightsInPicture();
    const before = this.store.heights.peek();
    if (before?.[0] !== low || before?.[1] !== high) this.store.heights.value = [low, high];
  }

  private listen(): void {
    const { canvas } = this.stage;
    canvas.tabIndex = 0;
    canvas.setAttribute('role', 'application');
    canvas.setAttribute('aria-label', CANVAS_LABEL);
    const heed = <K extends keyof HTMLElementEventMap>(
      type: K,
      listener: (event: HTMLElementEventMap[K]) => void,
    ) => {
      canvas.addEventListener(type, listener);
      this.ends.push(() => canvas.removeEventListener(type, listener));
    };
    heed('pointerdown', ({ clientX: x, clientY: y }) => {
      this.down = { x, y };
    });
    heed('pointerup', (event) => {
      const { down } = this;
      this.down = undefined;
      if (!down || Math.hypot(event.clientX - down.x, event.clientY - down.y) > STEADY) return;
      this.point(this.hitAt(this.pointOf(event)));
    });
    heed('pointermove', (event) => {
      if (event.buttons === 0) this.store.hover.value = this.hitAt(this.pointOf(event))?.piece;
    });
    heed('pointerleave', () => {
      this.store.hover.value = undefined;
    });
    heed('keydown', (event) => this.key(event));
    const repaint = () => {
      this.dark.value = this.darkScheme.matches;
      this.stage.repaint(this.palette);
      this.solids.repaint(this.palette);
      this.metal.repaint(this.palette);
    };
    this.darkScheme.addEventListener('change', repaint);
    this.ends.push(() => this.darkScheme.removeEventListener('change', repaint));
  }

  private key(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const { stage } = this;
    const keys: Readonly<Record<string, () => void>> = {
      ArrowLeft: () => stage.turn(-1, 0),
      ArrowRight: () => stage.turn(1, 0),
      ArrowUp: () => stage.turn(0, 1),
      ArrowDown: () => stage.turn(0, -1),
      '+': () => stage.approach(1),
      '=': () => stage.approach(1),
      '-': () => stage.approach(-1),
      PageUp: () => stage.lift(0.2),
      PageDown: () => stage.lift(-0.2),
      Home: () => this.showAll(),
      Enter: () => this.point(this.hitAt(stage.middle)),
      ' ': () => this.point(this.hitAt(stage.middle)),
      Escape: () => this.letGo(),
    };
    const act = keys[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }

  private letGo(): void {
    if (this.picks.value.length > 0) this.picks.value = [];
    else {
      this.store.chooseFinding(undefined);
      this.store.choosePiece(undefined);
    }
  }

  /** What pointing at something means: a surface while measuring, else its piece; beside everything, nothing. */
  private point(hit: Hit | undefined): void {
    if (this.store.measuring.value) this.pick(hit);
    else if (hit?.piece === this.store.piece.value || !hit) {
      this.store.choosePiece(undefined);
      this.store.chooseFinding(undefined);
    } else this.store.choosePiece(hit.piece);
  }

  private pointOf({ clientX, clientY }: PointerEvent): Vector2 {
    const { left, top, width, height } = this.host.getBoundingClientRect();
    return new Vector2(((clientX - left) / width) * 2 - 1, 1 - ((clientY - top) / height) * 2);
  }

  private margins() {
    const rail = this.host.parentElement?.querySelector('.rail')?.clientWidth ?? 0;
    const left = Math.min(0.45, rail / Math.max(1, this.host.clientWidth));
    return { left: left + LABELS, right: LABELS * 2, top: 0.06, bottom: 0.06 };
  }

  private boxOf(which: (piece: { readonly id: string }) => boolean): Box3 {
    const box = new Box3();
    const { meshes, moment, shown, hidden } = this.store;
    for (const piece of shown.peek()?.pieces ?? []) {
      if (!which(piece) || hidden.peek().has(layerOf(piece))) continue;
      const placement = moment.peek().placements.get(piece.id) ?? piece.placement;
      const bounds: Bounds = boundsAt(meshes.peek().get(piece.key)!.mesh, placement);
      box.union(new Box3(new Vector3(...bounds.min), new Vector3(...bounds.max)));
    }
    return box;
  }

  private flyToFinding(finding: Finding | undefined): void {
    const { at } = finding ?? {};
    if (!at) return;
    if ('point' in at) this.stage.frame(boxAround(new Vector3(...at.point), AROUND_POINT));
    else {
      const box = new Box3().setFromPoints(at.path.map((point) => new Vector3(...point)));
      const size = box.getSize(new Vector3()).length();
      this.stage.frame(box.expandByScalar(Math.max(20, size * 0.12)));
    }
  }

  /** What stays clear: the chosen piece, or what a finding is about; all when nothing is chosen. */
  private clearAmong(solids: Solids): ReadonlySet<string> | undefined {
    const { piece, chosenFinding } = this.store;
    if (piece.value !== undefined) return new Set([piece.value]);
    return chosenFinding.value?.at && solids.at(chosenFinding.value.at);
  }
}

const CANVAS_LABEL =
  'The machine. Arrow keys turn it, plus and minus come nearer and go farther, Page Up and Page Down move up and down, Home shows all of it, Enter chooses what is in the middle.';
