/** The usual cautions for such machines. One text for `check`, `make`, the build sheet and the README. */
export const CAUTIONS: readonly string[] = [
  'The shock of such a machine can hurt: people with a heart condition, a pacemaker or another implant, and pregnant people, keep well away. A startled fall does more harm than the spark.',
  'Stored energy counts together with whoever touches the terminal; published limits are 350 mJ for accessible parts above 15 kV (IEC 60335-1, 8.1.4) and 0.5 J with a bystander distance of about 1 m for school machines (Institute of Physics, UK).',
  'The terminal stays charged for a long time after the motor stops, and a belt that still runs down charges it again.',
  'Sparks ignite vapour, gas and dust, and destroy electronics: keep both away. Ozone builds up: air the room.',
  'Never run the machine alone with people who do not know it. Local codes, the institution’s safety officer and licensed practice come before anything written here.',
];

/** What to do before touching anything. */
export const DISCHARGE: readonly string[] = [
  'Switch the motor off and wait until the belt stands still.',
  'Clip the wand’s lead to the ground stud first, then touch the terminal with the wand for 5 s.',
  'Wait 30 s and touch again: charge creeps back out of tube and belt.',
  'Leave the wand parked on the terminal while you work.',
];
