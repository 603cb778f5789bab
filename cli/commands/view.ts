import { basename, join } from 'node:path';
import { LEDGER_FILE } from '../../parts/index.js';
import { EXIT, InputError } from '../exit.js';
import { exportPage } from '../export-page.js';
import { defaultFolder } from '../folder.js';
import { machineFromText } from '../machine-file.js';
import { openBrowser } from '../open-browser.js';
import { printJson } from '../print.js';
import { readLedgerText, readState } from '../view-file.js';
import { pageFolder, readPage } from '../view-page.js';
import { ViewServer } from '../view-server.js';

export interface ViewOptions {
  /** False where no browser is to be opened. */
  readonly open?: boolean;
  readonly out?: string;
  readonly export?: string;
  readonly json?: boolean;
}

/** Shows a machine on a page until it is told to stop; or writes that page. */
export async function view(path: string, options: ViewOptions): Promise<number> {
  if (options.export !== undefined && options.out !== undefined)
    throw new InputError(
      '--out names the ledger, which an exported page does not carry; leave one of them out',
    );
  const state = readState(path);
  machineFromText(path, state.text);
  const page = readPage(pageFolder());

  if (options.export !== undefined) {
    const folder = options.export;
    const files = await exportPage(folder, page, {
      file: basename(path),
      ...state,
      ledger: null,
      served: false,
    });
    if (options.json) printJson({ folder, files });
    else
      process.stdout.write(
        `Written to ${folder}: ${files.join(', ')}\n${join(folder, 'index.html')} opens by double click, and from any web server.\n`,
      );
    return EXIT.done;
  }

  const ledgerPath = join(options.out ?? defaultFolder(path), LEDGER_FILE);
  readLedgerText(ledgerPath);
  const stopped = toldToStop();
  const server = await ViewServer.start({ path, state, ledgerPath, page });
  const { address } = server;
  // One line, so that a program that goes on reading knows where it ends.
  if (options.json) process.stdout.write(`${JSON.stringify({ address, file: path })}\n`);
  else process.stdout.write(`Showing ${path} at ${address}\nCtrl+C stops it.\n`);
  if (options.open !== false) {
    openBrowser(address, (why) =>
      process.stderr.write(`No browser was opened (${why}); open the address.\n`),
    );
  }
  await stopped;
  await server.stop();
  return EXIT.done;
}

/** Resolves when the system asks the program to end; asked again, it ends at once. */
function toldToStop(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
}
