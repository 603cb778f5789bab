import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { MachineView } from '../worker/messages.js';
import type { FieldPicture } from './stand-in.js';

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

export type Bound = FieldPicture['bound'];

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

interface Asked {
  readonly machine: MachineView;
  readonly order: FieldOrder;
}

/** The solved field as the page shows it: asked for while it is to be seen, and again after each rebuild. */
export class SolvedField {
  readonly bound = signal<Bound>('polarised');
  /** kV that it is shown for; undefined: that at which the machine is meant to discharge. */
  readonly chosenVoltage = signal<number | undefined>(undefined);
  readonly picture = signal<FieldPicture | undefined>(undefined);
  readonly solving = signal(false);
  /** Why there is no picture. */
  readonly failure = signal<string | undefined>(undefined);
  /** kV */
  readonly voltage: ReadonlySignal<number>;
  /** By how much the picture’s shares are multiplied: they go with the voltage, so another one needs no solving. */
  readonly scale: ReadonlySignal<number>;
  /** What the picture is of, and what the worker is at. */
  private of: Asked | undefined;
  private asked: Asked | undefined;

  constructor(private readonly host: FieldHost) {
    this.voltage = computed(
      () => this.chosenVoltage.value ?? this.host.shown.value?.prediction.discharge ?? 0,
    );
    this.scale = computed(() => {
      const { voltage } = this.picture.value ?? {};
      return voltage ? (1000 * this.voltage.value) / voltage : 0;
    });
    effect(() => this.follow());
  }

  /** Takes the worker’s answer to an order; to one that another has followed it is not listened to. */
  hear(order: FieldOrder, answer: FieldAnswer): void {
    const { asked } = this;
    if (asked?.order !== order) return;
    this.asked = undefined;
    this.solving.value = false;
    if ('dropped' in answer) {
      // The edit that overtook it may have come to its end already, and be refused.
      this.follow();
      return;
    }
    this.of = asked;
    this.picture.value = 'picture' in answer ? answer.picture : undefined;
    this.failure.value = 'message' in answer ? answer.message : undefined;
  }

  private follow(): void {
    const machine = this.host.shown.value;
    const bound = this.bound.value;
    if (!this.host.wanted.value || !machine || this.host.busy.value) return;
    const last = this.asked ?? this.of;
    if (last?.machine === machine && last.order.bound === bound) return;
    const order = { voltage: 1000 * machine.prediction.discharge, bound };
    this.asked = { machine, order };
    this.solving.value = true;
    this.host.ask(order);
  }
}
