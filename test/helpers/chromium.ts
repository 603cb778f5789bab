// Where Chromium is. `npm test` runs this by itself first of all: it says in one line what to install when there is none.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

export const MISSING =
  'The tests need Chromium: install it (Debian: apt-get install chromium), or name it in TUBEWRIGHT_CHROMIUM.';

/** The program's path; undefined where there is none. */
export function findChromium(): string | undefined {
  const named = process.env.TUBEWRIGHT_CHROMIUM;
  return (named ? [named] : PLACES).find((path) => existsSync(path));
}

if (process.argv[1] === fileURLToPath(import.meta.url) && !findChromium()) {
  console.error(MISSING);
  process.exit(1);
}
