import { bodyCapacitance, storedEnergy } from '../field/energy.js';
import type { Machine } from '../machine/machine.js';
import type { Constant } from '../stock/row.js';
import { attempt } from './change.js';
import type { Check } from './check.js';
import { type Finding, isLower, marginOf, type Remedy, type Severity, told } from './finding.js';

export const ENERGY_NOTED: Constant = {
  value: 0.35,
  unit: 'J',
  meaning: 'greatest energy of an accessible part above 15 kV',
  source: 'IEC 60335-1, 8.1.4',
  status: 'verified',
};
export const ENERGY_GRAVE: Constant = {
  value: 5,
  unit: 'J',
  meaning: 'energy above which a discharge is a direct serious risk',
  source: 'IEC 60479-2:1987, as quoted',
  status: 'secondary',
};
/** Said beside the number. */
const SCHOOLS = '0.5 J for school machines (Institute of Physics, UK)';

export function severityOfEnergy(joules: number): Severity {
  if (joules > ENERGY_GRAVE.value) return 'danger';
  return joules >= ENERGY_NOTED.value ? 'caution' : 'ok';
}

/** Voltage (V) at which a capacitance (F) holds an energy (J). */
export function voltageForEnergy(capacitance: number, joules: number): number {
  return Math.sqrt((2 * joules) / capacitance);
}

/**
 * What is stored at the voltage of the intended discharge: in the machine alone, which is graded; and together with a
 * person on the terminal, which is stated beside it as a caution whatever it comes to, since nobody belongs there.
 */
export const checkEnergy: Check = (machine, { prediction, discharge }) => {
  const capacitance = prediction.capacitance.likely * 1e-12;
  const person = bodyCapacitance(machine);
  const alone = storedEnergy(capacitance, discharge);
  const together = storedEnergy(capacitance + person.likely, discharge);
  const most = storedEnergy(capacitance + person.high, discharge);
  const beside = `with a person of ${(person.low * 1e12).toFixed(0)} to ${(person.high * 1e12).toFixed(0)} pF on the terminal ${storedEnergy(capacitance + person.low, discharge).toFixed(2)} to ${most.toFixed(2)} J`;
  return [
    finding(machine, {
      id: 'energy/alone',
      title: `Energy stored at ${(discharge / 1000).toFixed(0)} kV, the machine alone`,
      joules: alone,
      severity: severityOfEnergy(alone),
      capacitance,
      beside,
      remedy: (kilovolts) => ({
        text: `a target of at most ${kilovolts} kV, or a smaller terminal`,
        tries: attempt(
          machine,
          `a target of ${kilovolts} kV`,
          { 'target.voltage': kilovolts * 1000 },
          ({ targetVoltage }) =>
            isLower(severityOfEnergy(storedEnergy(capacitance, targetVoltage!)), severityOfEnergy(alone)),
        ),
      }),
    }),
    finding(machine, {
      id: 'energy/with-person',
      title: `Energy stored at ${(discharge / 1000).toFixed(0)} kV with a person on the terminal`,
      joules: together,
      severity: severityOfEnergy(together) === 'ok' ? 'ok' : 'caution',
      capacitance: capacitance + person.likely,
      beside: `the machine alone ${alone.toFixed(2)} J; ${beside}`,
      remedy: (kilovolts) =>
        `nobody on or near the terminal while it charges; with a person on it, ${kilovolts} kV already store this much`,
    }),
  ];
};

interface Stored {
  readonly id: string;
  readonly title: string;
  readonly joules: number;
  readonly severity: Severity;
  readonly capacitance: number;
  readonly beside: string;
  readonly remedy: (kilovolts: number) => string | Remedy;
}

function finding({ terminal }: Machine, stored: Stored): Finding {
  const { joules, severity } = stored;
  const kilovolts = Math.floor(voltageForEnergy(stored.capacitance, ENERGY_NOTED.value) / 1000);
  return {
    id: stored.id,
    severity,
    title: stored.title,
    measured: joules,
    required: ENERGY_NOTED.value,
    unit: 'J',
    sense: 'max',
    margin: marginOf(joules, ENERGY_NOTED.value, 'max'),
    basis: `half C V squared; ${ENERGY_NOTED.meaning}, ${ENERGY_NOTED.source}; ${ENERGY_GRAVE.value} J: ${ENERGY_GRAVE.meaning}, ${ENERGY_GRAVE.source}; ${SCHOOLS}; ${stored.beside}`,
    status: ENERGY_NOTED.status,
    ...told(severity, () => stored.remedy(kilovolts)),
    at: { point: [0, 0, terminal.centreZ] },
  };
}
