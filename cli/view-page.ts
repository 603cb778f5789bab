import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Start } from '../parts/index.js';
import { OutputError } from './exit.js';
import { reason } from './files.js';

/** Where the page says that its first state belongs; stands in it once. */
export const START_PLACE = '<!-- start -->';

/** The page's files, as they were built. */
export interface PageFiles {
  readonly html: string;
  readonly script: Uint8Array;
  readonly style: Uint8Array;
}

/** The folder of the built page: beside the built program. */
export function pageFolder(): string {
  return fileURLToPath(new URL('../viewer/', import.meta.url));
}

/** Read at once, so that a build in between does not mix two versions. @throws OutputError when a file is missing */
export function readPage(folder: string): PageFiles {
  const read = (name: string): Buffer => {
    const path = join(folder, name);
    try {
      return readFileSync(path);
    } catch (error) {
      throw new OutputError(`the viewer’s page is not built: ${path}: ${reason(error)}`);
    }
  };
  const html = read('page.html').toString('utf8');
  if (html.split(START_PLACE).length !== 2)
    throw new OutputError(
      `the viewer’s page is not built right: page.html does not hold ${START_PLACE} once`,
    );
  return { html, script: read('viewer.js'), style: read('viewer.css') };
}

/** The page with what it begins with put in, so that nothing in a machine file can end the element it stands in. */
export function pageWith({ html }: PageFiles, start: Start): string {
  const json = JSON.stringify(start).replaceAll('<', '\\u003c');
  return html.replace(START_PLACE, () => `<script type="application/json" id="start">${json}</script>`);
}
