/** Refuses what is not a finite number above 0. @throws RangeError that names it */
export function mustBePositive(value: number, what: string): void {
  if (!(value > 0 && Number.isFinite(value)))
    throw new RangeError(`${what} must be a finite number above 0, not ${value}`);
}

/** Refuses what is not a finite number of 0 or more. @throws RangeError that names it */
export function mustNotBeNegative(value: number, what: string): void {
  if (!(value >= 0 && Number.isFinite(value)))
    throw new RangeError(`${what} must be a finite number of 0 or more, not ${value}`);
}
