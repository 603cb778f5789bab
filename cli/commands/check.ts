import { EXIT } from '../exit.js';
import { openMachine } from '../machine-file.js';
import { paint, printJson, printText } from '../print.js';
import { reportOn } from '../report.js';
import { assumedText, cautionsText, findingsText, partsText, predictedText } from '../report-text.js';

/** Predicts, checks and lists findings, without building a solid. */
export function check(path: string, options: { readonly json?: boolean }): number {
  const { machine } = openMachine(path);
  const { report } = reportOn(machine);
  if (options.json) printJson(report);
  else {
    printText([
      paint(report.machine, 'bold'),
      predictedText(report.predicted),
      findingsText(report.findings),
      partsText(report.parts),
      assumedText(report.assumed),
      cautionsText(),
    ]);
  }
  return report.findings.some(({ severity }) => severity === 'danger') ? EXIT.danger : EXIT.done;
}
