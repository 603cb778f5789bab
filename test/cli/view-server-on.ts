import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { readState } from '../../cli/view-file.js';
import { readPage } from '../../cli/view-page.js';
import { ViewServer } from '../../cli/view-server.js';
import { temporaryFolder } from '../helpers/program.js';

export const HTML = '<!doctype html>\n<title>Plain</title>\n<!-- start -->\n<p>$& $1</p>\n';
export const SCRIPT = 'export {};\n';
export const STYLE = 'p { margin: 0 }\n';

/** A folder with a page of a few lines in place of the built one. */
export function plainPage(): string {
  const folder = temporaryFolder();
  writeFileSync(join(folder, 'page.html'), HTML);
  writeFileSync(join(folder, 'viewer.js'), SCRIPT);
  writeFileSync(join(folder, 'viewer.css'), STYLE);
  return folder;
}

/** Shows a machine file, with its ledger in `out` beside it, until the test is over. */
export async function serverOn(path: string): Promise<ViewServer> {
  const server = await ViewServer.start({
    path,
    state: readState(path),
    ledgerPath: join(dirname(path), 'out', 'ledger.json'),
    page: readPage(plainPage()),
  });
  onTestFinished(() => server.stop());
  return server;
}
