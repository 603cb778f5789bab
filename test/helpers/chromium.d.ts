export const MISSING: string;
export function findChromium(): string | undefined;
