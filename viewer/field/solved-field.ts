import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Bound, FieldPicture } from '../../parts/index.js';
import type { MachineView } from '../worker/messages.js';

/** What the page tells about itself to the solved field. */
export interface FieldHost {
  /** The machine that is on the worker’s bench, and on the screen. */
  readonly shown: ReadonlySignal<MachineView | undefined>;
  /** Something is being judged or built: the field comes after it. */
  readonly busy: ReadonlySignal<boolean>;
  /** The field is to be seen. */
  readonly wanted: ReadonlySignal<boolean>;
  /** Asks the worker to solve it. */
  ask(order: FieldOrder): void;
}

/** For which voltage (V) and which bound of the column. */
export interface FieldOrder {
  readonly voltage: number;
  readonly bound: Bound;
}

/** What came of an order: a picture, a reason why there is none, or nothing, where a later edit made it idle. */
export type FieldAnswer =
  | { readonly picture: FieldPicture }
  | { readonly message: string }
  | { readonly dropped: true };

/** ms that nothing changes before a field that is on the screen is solved anew. */
const PAUSE = 300;

interface Asked {
  readonly machine: MachineView;
  readonly order: FieldOrder;
}

/** The solved field as the page shows it: asked for while it is to be seen, and again after each
 * rebuild, for another voltage and for the other bound of the column. */
export class SolvedField {
  readonly bound = signal<Bound>('polarised');
  /** kV that it is shown for; undefined: that at which the machine is meant to discharge. */
  readonly chosenVoltage = signal<number | undefined>(undefined);
  readonly picture = signal<FieldPicture | undefined>(undefined);
  /** What is shown is out of date, and its successor on its way. */
  readonly solving = signal(false);
  /** Why there is no picture. */
  readonly failure = signal<string | undefined>(undefined);
  /** kV */
  readonly voltage: ReadonlySignal<number>;
  /**
   * By how much the picture’s shares are multiplied until it is there for the voltage shown: all but the belt’s own
   * charge goes with the voltage.
   */
  readonly scale: ReadonlySignal<number>;
  /** What the picture is of, and what the worker is at. */
  private of: Asked | undefined;
  private asked: Asked | undefined;
  private pause: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly host: FieldHost) {
    this.voltage = computed(
      () => this.chosenVoltage.value ?? this.host.shown.value?.prediction.discharge ?? 0,
    );
    this.scale = computed(() => {
      const { voltage } = this.picture.value ?? {};
      return voltage ? (1000 * this.voltage.value) / voltage : 1;
    });
    effect(() => this.follow());
  }

  /** Takes the worker’s answer to an order; to one that another has followed it is not listened to. */
  hear(order: FieldOrder, answer: FieldAnswer): void {
    const { asked } = this;
    if (asked?.order !== order) return;
    this.asked = undefined;
    if (!('dropped' in answer)) {
      this.of = asked;
      this.picture.value = 'picture' in answer ? answer.picture : undefined;
      this.failure.value = 'message' in answer ? answer.message : undefined;
    }
    this.follow();
  }

  private follow(): void {
    clearTimeout(this.pause);
    const machine = this.host.shown.value;
    const order = { voltage: 1000 * this.voltage.value, bound: this.bound.value };
    const idle = !this.host.wanted.value || !machine || this.host.busy.value;
    if (idle || isFor(this.asked ?? this.of, machine, order)) {
      this.solving.value = this.asked !== undefined;
      return;
    }
    this.solving.value = true;
    const ask = () => {
      this.asked = { machine, order };
      this.host.ask(order);
    };
    // Whoever sees one already and changes a value may change it again: an edit is not to wait for a field in between.
    if (this.of) this.pause = setTimeout(ask, PAUSE);
    else ask();
  }
}

function isFor(asked: Asked | undefined, machine: MachineView, { voltage, bound }: FieldOrder): boolean {
  return asked?.machine === machine && asked.order.voltage === voltage && asked.order.bound === bound;
}
