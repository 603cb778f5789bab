import { effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { byGravity } from '../../parts/index.js';
import type { MachineView, MetalView, WaysView } from '../worker/messages.js';

/** What measuring needs of the page. */
interface Needs {
  /** The machine that was judged last, and the one whose solids are on the screen. */
  readonly machine: Signal<MachineView | undefined>;
  readonly shown: Signal<MachineView | undefined>;
  readonly busy: ReadonlySignal<boolean>;
  /** @returns undefined where another order overtook it */
  ask(): Promise<WaysView | undefined>;
  failed(message: string): void;
}

/** ms of quiet before it is asked again after another order came in between. */
const QUIET = 800;

/** Ways over the solids: measured once they are wanted, and from then on after every edit, when nothing else is to do. */
export class MeasuredWays {
  readonly wanted = signal(false);
  readonly measuring = signal(false);
  /** The findings that measured ones were put among; others are not measured yet. */
  private readonly among = signal<MachineView['findings'] | undefined>(undefined);
  private readonly ends = signal<MetalView | undefined>(undefined);
  private ids: ReadonlySet<string> = new Set();
  private readonly again = signal(0);

  constructor(private readonly needs: Needs) {
    effect(() => {
      const { machine, shown, busy } = needs;
      void this.again.value;
      if (!this.wanted.value || busy.value || this.measuring.value) return;
      if (!machine.value || shown.value !== machine.value || this.done) return;
      void this.measure(machine.value);
    });
  }

  /** Whether the machine shown has its ways among its findings. */
  get done(): boolean {
    const machine = this.needs.machine.value;
    return machine !== undefined && machine.findings === this.among.value;
  }

  /** The metal that ways may end at, where it stands in the machine shown. */
  get metal(): MetalView | undefined {
    return this.done ? this.ends.value : undefined;
  }

  /** Whether what became of a finding can only be told once ways are measured again. */
  awaits(id: string): boolean {
    return this.ids.has(id) && !this.done;
  }

  private async measure(machine: MachineView): Promise<void> {
    this.measuring.value = true;
    try {
      const found = await this.needs.ask();
      if (found) this.put(machine, found);
      else setTimeout(() => this.again.value++, QUIET);
    } catch (error) {
      this.wanted.value = false;
      this.needs.failed((error as Error).message);
    } finally {
      this.measuring.value = false;
    }
  }

  private put(machine: MachineView, { findings, metal }: WaysView): void {
    const { machine: judged, shown } = this.needs;
    if (judged.value !== machine) return;
    this.ids = new Set(findings.map(({ id }) => id));
    const measured = { ...machine, findings: [...machine.findings, ...findings].sort(byGravity) };
    this.ends.value = metal;
    this.among.value = measured.findings;
    judged.value = measured;
    if (shown.value === machine) shown.value = measured;
  }
}
