import { EXIT } from '../exit.js';
import { openMachine } from '../machine-file.js';
import { measureWays } from '../measure-ways.js';
import { paint, printJson, printText } from '../print.js';
import { cautionsText, findingsText, waysText } from '../report-text.js';

/** Measures clearance and creepage on the machine’s solids and tells where each way runs. */
export async function ways(path: string, options: { readonly json?: boolean }): Promise<number> {
  const { machine } = openMachine(path);
  const findings = await measureWays(machine);
  if (options.json) printJson({ machine: machine.name, findings });
  else {
    printText([paint(machine.name, 'bold'), waysText(findings), findingsText(findings), cautionsText()]);
  }
  return findings.some(({ severity }) => severity === 'danger') ? EXIT.danger : EXIT.done;
}
