import { type Finding, findingNumbers } from '../../parts/index.js';

/** What became of a finding after a remedy was tried, in words: "way/column-outer: danger -> caution". */
export function outcomeInWords(before: Finding, findings: readonly Finding[]): string {
  const { id, severity } = before;
  const after = findings.find((finding) => finding.id === id);
  if (!after) return `${id}: no longer arises`;
  if (after.severity !== severity) return `${id}: ${severity} -> ${after.severity}`;
  const { measured, bound, unit } = findingNumbers(after);
  return `${id}: still ${severity}, now ${measured} ${unit}, ${bound}`;
}
