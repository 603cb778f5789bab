/** The way that has no finding: it is where a machine is to give way. */
const INTENDED = 'way/terminal-body';

/** What is said of a way that nothing can be looked up about; undefined of every other. */
export const intendedInWords = (id: string): string | undefined =>
  id === INTENDED ? 'the discharge that the machine is built for' : undefined;
