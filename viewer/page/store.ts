import { batch, computed, signal } from '@preact/signals';
import {
  type FileWord,
  type Finding,
  type Problem,
  type Start,
  type Trial,
  withValue,
  withWritten,
  writtenValues,
} from '../../parts/index.js';
import { SolvedField } from '../field/solved-field.js';
import { FIELD_LAYER, HIDDEN_AT_FIRST, LINES_LAYER } from '../scene/layers.js';
import { agreed, changedKeys, clashOf, type Disk, heard, onTop, type Sides, saved } from '../session/disk.js';
import { History } from '../session/history.js';
import { putFile, type SaveReply } from '../session/save.js';
import { boundsAt, TakeApart } from '../session/take-apart.js';
import { stated, Typing } from '../session/typing.js';
import type { DressedMesh, MachineView, PieceView, PrintView, Section, Word } from '../worker/messages.js';
import { BenchClient } from './bench-client.js';
import { MeasuredWays } from './measured-ways.js';
import { BuildProgress } from './progress.js';

/**
 * Everything the page knows and what it can do: one place, read by scene and panels alike. The text of the machine file is
 * the one thing that is edited; all else follows from it through the worker.
 */
export class Store {
  readonly file: string;
  readonly served: boolean;
  readonly opened: string;
  private readonly history: History;
  private readonly bench: BenchClient;
  private readonly build = new BuildProgress();

  /** The working text, and whether there is something to undo or redo. */
  readonly text = signal('');
  readonly canUndo = signal(false);
  readonly canRedo = signal(false);
  readonly ledger = signal<string | null>(null);

  /** What is wrong with the working text; the machine shown is then the last good one. */
  readonly problems = signal<readonly Problem[]>([]);
  /** Judged last. Its solids may still be on their way: see `shown`. */
  readonly machine = signal<MachineView | undefined>(undefined);
  /** The machine whose solids are on the screen. */
  readonly shown = signal<MachineView | undefined>(undefined);
  /** How its parts print, once that was asked for. */
  readonly prints = signal<readonly PrintView[]>([]);
  /** Meshes of the machine shown, by key. */
  readonly meshes = signal<ReadonlyMap<string, DressedMesh>>(new Map());
  /** Keys that the last build brought, and how long it took (ms). */
  readonly lastBuild = signal<
    { readonly keys: readonly string[]; readonly milliseconds: number } | undefined
  >(undefined);
  readonly progress = this.build.told;
  readonly busy = signal(false);
  /** Of the work that is under way: what is yet to come once the other has come. */
  private awaited: 'judged' | 'built' | undefined;
  /** A fault of the program, to be told as such. */
  readonly fault = signal<string | undefined>(undefined);

  readonly disk = signal<Disk>({ text: '', sha256: '', base: '', gone: undefined });
  /** Both sides changed, and nobody has said yet which counts. */
  readonly clash = computed(() => clashOf({ disk: this.disk.value, mine: this.text.value }));
  /** The text that is on its way to the disk. */
  readonly sending = signal<string | undefined>(undefined);

  /** What the working text states, key by key; empty when it can’t be read. */
  readonly written = computed(() => writtenValues(this.text.value));
  /** What the file states that the edits rest on. */
  readonly writtenBefore = computed(() => writtenValues(this.disk.value.base));
  /** What the edits changed, by key. */
  readonly changes = computed(
    () =>
      new Map(
        changedKeys(this.writtenBefore.value, this.written.value).map((change) => [change.key, change]),
      ),
  );
  private readonly typing = new Typing(({ key, items }) => this.writeTyped(key, items));
  /** What stands in the fields of the key that is being typed at. */
  readonly draft = this.typing.draft;
  /** A key whose field is to be shown and focused. */
  readonly wantedField = signal<string | undefined>(undefined);

  /** 0: together, 1: apart. */
  readonly apart = signal(0);
  readonly cut = signal<{ readonly on: boolean; readonly angle: number }>({ on: false, angle: 0 });
  /** The camera turns with the cut. */
  readonly facing = signal(true);
  readonly section = signal<Section | undefined>(undefined);
  /** Layers that are not shown. */
  readonly hidden = signal<ReadonlySet<string>>(new Set(HIDDEN_AT_FIRST));
  readonly finding = signal<string | undefined>(undefined);
  readonly piece = signal<string | undefined>(undefined);
  /** What the pointer or the focus is on, in scene, rail or list. */
  readonly hover = signal<string | undefined>(undefined);
  readonly measuring = signal(false);
  /** Heights (mm) at the lower and upper edge of the picture, on the machine's axis. */
  readonly heights = signal<readonly [number, number] | undefined>(undefined);
  readonly drawing = signal<'solid' | 'section'>('solid');
  /** Why there is no three-dimensional picture. */
  readonly noScene = signal<string | undefined>(undefined);

  /** Whether the program behind the page answers; undefined until that is known. */
  readonly followed = signal<boolean | undefined>(undefined);
  /** Something to say in passing. */
  readonly notice = signal<string | undefined>(undefined);

  readonly edited = computed(() => this.text.value !== this.disk.value.base);
  readonly chosenFinding = computed((): Finding | undefined =>
    this.machine.value?.findings.find(({ id }) => id === this.finding.value),
  );
  /** A plane through the axis is on the screen: what is seen on it, and nowhere else, can be shown. */
  private readonly hasPlane = computed(
    () => this.cut.value.on || this.drawing.value === 'section' || this.noScene.value !== undefined,
  );
  /** The electrostatic field, solved where it is shown. */
  readonly field: SolvedField;
  readonly fieldShown = computed(() => this.hasPlane.value && !this.hidden.value.has(FIELD_LAYER));
  /** Clearance and creepage, measured on the solids when that is wanted. */
  readonly ways: MeasuredWays;
  /** How the machine shown comes apart. */
  private readonly takeApart = computed(
    () =>
      new TakeApart(this.shown.value?.pieces ?? [], (piece) =>
        boundsAt(this.meshes.value.get(piece.key)!.mesh, piece.placement),
      ),
  );
  /** Where every piece is now, and which step is under way. */
  readonly moment = computed(() => this.takeApart.value.at(this.apart.value));
  readonly chosenPiece = computed((): PieceView | undefined =>
    this.shown.value?.pieces.find(({ id }) => id === this.piece.value),
  );

  /** @param carried a text that the page’s address carries: edits on top of the file */
  constructor(start: Start, carried: string | undefined) {
    this.file = start.file;
    this.served = start.served;
    this.opened = start.text;
    this.ledger.value = start.ledger;
    this.disk.value = { text: start.text, sha256: start.sha256, base: start.text, gone: undefined };
    this.history = new History(start.text);
    this.text.value = start.text;
    this.bench = new BenchClient(
      (word) => this.hear(word),
      (section) => {
        if (this.hasPlane.value) this.section.value = section;
      },
      (order, answer) => batch(() => this.field.hear(order, answer)),
    );
    this.field = new SolvedField({
      shown: this.shown,
      busy: this.busy,
      wanted: this.fieldShown,
      ask: (order) => this.bench.field(order),
    });
    this.ways = new MeasuredWays({
      machine: this.machine,
      shown: this.shown,
      busy: this.busy,
      ask: () => this.bench.ways(),
      failed: (message) => {
        this.fault.value = `ways could not be measured: ${message}`;
      },
    });
    if (carried !== undefined && carried !== start.text) this.edit(carried);
    else this.order();
  }

  /**
   * Another working text.
   * @param group edits of one group that follow one another are undone together
   */
  edit(text: string, group?: string): void {
    this.settleTyping();
    this.history.change(text, group);
    this.afterEdit();
  }
  /** Ends a group of edits: the next one is undone by itself. */
  seal(): void {
    this.settleTyping();
    this.history.seal();
  }
  undo(): void {
    this.seal();
    this.history.undo();
    this.afterEdit();
  }
  redo(): void {
    this.seal();
    this.history.redo();
    this.afterEdit();
  }
  /** Puts a remedy’s values into the working text. */
  tryRemedy(trial: Trial): void {
    this.seal();
    this.edit(trial.values.reduce((text, { key, value }) => withValue(text, key, value), this.text.value));
  }
  /**
   * A stroke in a field: goes into the text after a pause, or with `flush`.
   * @param items all that stands in the key’s fields
   */
  type(key: string, items: readonly string[]): void {
    this.typing.type({ key, items });
  }
  /** Fields that nothing is to be written from yet. */
  showDraft(key: string, items: readonly string[]): void {
    this.typing.show({ key, items });
  }
  flush(): void {
    this.typing.flush();
  }
  /**
   * States a key otherwise, at once; undefined leaves it out.
   * @param group as for `edit`
   */
  write(key: string, items: readonly string[] | undefined, group?: string): void {
    this.settleTyping();
    this.edit(withWritten(this.text.value, key, items), group);
  }
  /** All as in the file on disk; one step to undo. */
  backToFile(): void {
    this.seal();
    this.edit(this.disk.value.text);
    this.seal();
  }

  /** Closing the cut puts the field away with it. */
  setCut(cut: { readonly on?: boolean; readonly angle?: number }): void {
    batch(() => {
      this.cut.value = { ...this.cut.value, ...cut };
      if (!this.hasPlane.value) this.showLayer(FIELD_LAYER, false);
      this.refreshSection();
    });
  }
  /** @param share 0 together, 1 apart */
  setApart(share: number): void {
    this.apart.value = share;
    this.refreshSection();
  }
  setDrawing(drawing: 'solid' | 'section'): void {
    batch(() => {
      this.drawing.value = drawing;
      if (!this.hasPlane.value && !this.hidden.value.has(FIELD_LAYER))
        this.cut.value = { ...this.cut.value, on: true };
      this.refreshSection();
    });
  }
  /** There is no three-dimensional picture (any more): the section drawing takes its place. */
  loseScene(why: string): void {
    this.noScene.value = why;
    this.setDrawing('section');
  }
  /** The field is seen on a cut only: showing it cuts the machine open, and its lines bring it along. */
  toggleLayer(id: string): void {
    const shows = this.hidden.value.has(id);
    batch(() => {
      this.showLayer(id, shows);
      if (id === LINES_LAYER && shows) this.showLayer(FIELD_LAYER, true);
      if (shows && !this.hidden.value.has(FIELD_LAYER) && !this.hasPlane.value) this.setCut({ on: true });
    });
  }
  chooseFinding(id: string | undefined): void {
    batch(() => {
      this.finding.value = id;
      if (id !== undefined) this.piece.value = undefined;
    });
  }
  choosePiece(id: string | undefined): void {
    batch(() => {
      this.piece.value = id;
      if (id !== undefined) this.finding.value = undefined;
    });
  }
  /** Measures how the parts of the machine shown print; what was told before stands meanwhile. */
  async measurePrints(): Promise<void> {
    try {
      const prints = await this.bench.prints();
      if (prints) this.prints.value = prints;
    } catch (error) {
      this.fault.value = `how the parts print could not be measured: ${(error as Error).message}`;
    }
  }
  files(part?: string): Promise<{ readonly name: string; readonly bytes: Uint8Array }> {
    return this.bench.files(part);
  }

  /** The file on disk, as the program behind the page tells it. */
  hearFile(word: FileWord): void {
    this.flush();
    if ('gone' in word) this.disk.value = { ...this.disk.value, gone: word.gone };
    else this.takeSides(heard(this.sides(), word, this.sending.value));
  }
  hearLedger(ledger: string | null): void {
    if (ledger === this.ledger.value) return;
    this.ledger.value = ledger;
    this.order();
  }

  /** Ends a clash. `theirs` takes the file, `mine` keeps the page’s text, `both` puts its edits on top of the file. */
  settle(choice: 'theirs' | 'mine' | 'both'): void {
    this.seal();
    const { text, base } = this.disk.value;
    const mine = this.text.value;
    const next = { theirs: () => text, mine: () => mine, both: () => onTop(base, mine, text) }[choice]();
    this.takeSides({ disk: { ...this.disk.value, base: text }, mine: next });
  }

  /** Writes the working text to the file that the page was opened on. */
  async save(): Promise<SaveReply> {
    this.flush();
    const order = { text: this.text.value, base: this.disk.value.sha256 };
    this.sending.value = order.text;
    const reply = await putFile(order);
    this.sending.value = undefined;
    this.flush();
    if (reply.status === 200) this.takeSides(saved(this.sides(), order, reply.body.sha256));
    if (reply.status === 409) this.hearFile(reply.body);
    return reply;
  }

  private sides(): Sides {
    return { disk: this.disk.value, mine: this.text.value };
  }

  private takeSides({ disk, mine }: Sides): void {
    batch(() => {
      this.disk.value = disk;
      if (mine === this.text.value) return;
      this.typing.drop();
      this.history.arrive(mine);
      this.afterEdit();
    });
  }

  /** What still waits goes into the text, and fields show what is written. */
  private settleTyping(): void {
    this.typing.flush();
    this.typing.drop();
  }

  private writeTyped(key: string, items: readonly string[]): void {
    const before = this.written.value;
    const next = stated(items, before.get(key)?.items.length ?? 0);
    if (before.size === 0 || next.length === 0) return;
    this.history.change(withWritten(this.text.value, key, next), key);
    this.afterEdit();
  }

  private afterEdit(): void {
    if (this.text.value === this.history.text) return;
    batch(() => {
      this.text.value = this.history.text;
      this.canUndo.value = this.history.canUndo;
      this.canRedo.value = this.history.canRedo;
      this.disk.value = agreed(this.sides());
    });
    this.order();
  }

  private order(): void {
    this.busy.value = true;
    this.awaited = undefined;
    this.bench.work({
      text: this.text.value,
      file: this.file,
      ledger: this.ledger.value,
      opened: this.opened,
    });
  }

  private hear(word: Parameters<ConstructorParameters<typeof BenchClient>[0]>[0]): void {
    batch(() => this.take(word));
  }

  private take(word: Exclude<Word, { ticket: number }>): void {
    switch (word.kind) {
      case 'refused':
        this.problems.value = word.problems;
        this.endProgress();
        break;
      case 'placed': {
        // Until it is judged the last findings stand.
        const { findings, prediction, potential } = this.machine.value!;
        this.problems.value = [];
        this.machine.value = { ...word.machine, findings, prediction, potential };
        break;
      }
      case 'judged':
        this.problems.value = [];
        this.machine.value = word.machine;
        // Its solids may be there already; where they are not, they are shown when they come.
        if (this.awaited === 'judged') this.shown.value = word.machine;
        this.arrived('judged');
        break;
      case 'progress':
        this.build.step(word);
        break;
      case 'built':
        this.built(word.meshes, word.milliseconds);
        break;
      case 'fault':
        this.fault.value = word.message;
        this.endProgress();
        break;
    }
  }

  private built(fresh: ReadonlyMap<string, DressedMesh>, milliseconds: number): void {
    const machine = this.machine.value!;
    const kept = machine.pieces.map(({ key }): [string, DressedMesh] => [
      key,
      (fresh.get(key) ?? this.meshes.value.get(key))!,
    ]);
    this.meshes.value = new Map(kept);
    this.shown.value = machine;
    this.lastBuild.value = { keys: [...fresh.keys()], milliseconds };
    this.build.end();
    this.arrived('built');
    this.refreshSection();
  }

  /** The last work is done when it is both judged and built, whichever comes first. */
  private arrived(what: 'judged' | 'built'): void {
    if (this.awaited === undefined) this.awaited = what === 'judged' ? 'built' : 'judged';
    else this.endProgress();
  }

  private endProgress(): void {
    this.build.end();
    this.busy.value = false;
  }

  private showLayer(id: string, shown: boolean): void {
    if (this.hidden.value.has(id) !== shown) return;
    const hidden = new Set(this.hidden.value);
    if (shown) hidden.delete(id);
    else hidden.add(id);
    this.hidden.value = hidden;
  }

  private refreshSection(): void {
    if (!this.hasPlane.value) this.section.value = undefined;
    else if (this.shown.value) this.bench.cut(this.cut.value.angle, this.moment.value.placements);
  }
}
