import type { Machine } from '../machine/machine.js';
import type { Piece } from './assembly.js';

/** What a piece of metal is connected to; `floating`: nothing connects it. */
export type Net = 'terminal' | 'ground' | 'floating';

/**
 * Bought pieces by what connects them. Axles are bonded by foil under their flat (upper) or over their bearings (lower),
 * bearings through races and balls; combs and the motor’s frame by wire, the plate by the stud.
 */
const BOUGHT: Readonly<Record<string, Net | 'plate' | 'insulator'>> = {
  tube: 'insulator',
  belt: 'insulator',
  'drive-belt': 'insulator',
  'roller-shell-lower': 'insulator',
  'roller-shell-upper': 'insulator',
  plate: 'plate',
  terminal: 'terminal',
  'axle-upper': 'terminal',
  'bearing-upper-left': 'terminal',
  'bearing-upper-right': 'terminal',
  'comb-upper': 'terminal',
  'axle-lower': 'ground',
  'bearing-lower-left': 'ground',
  'bearing-lower-right': 'ground',
  'comb-lower': 'ground',
  motor: 'ground',
  // They carry blocks of plastic and touch nothing else.
  'jack-screw-left': 'floating',
  'jack-screw-right': 'floating',
};

/** Net of a piece of the assembly; undefined for an insulator. @throws RangeError for a bought piece that nobody decided about */
export function netOf(machine: Machine, piece: Pick<Piece, 'of' | 'printed'>): Net | undefined {
  if (piece.printed) return machine.print.conductive ? 'floating' : undefined;
  const net = BOUGHT[piece.of];
  if (net === undefined) throw new RangeError(`whether ${piece.of} conducts is not decided`);
  if (net === 'plate') return netOfPlate(machine);
  return net === 'insulator' ? undefined : net;
}

/** A metal plate is grounded by the stud; one that insulates is none of the nets. */
export const netOfPlate = ({ plate }: Machine): Net | undefined => (plate.conductive ? 'ground' : undefined);
