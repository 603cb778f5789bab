#!/usr/bin/env node
// Starts the built program; says what to run when it is not there yet.
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const program = join(here, '..', 'dist', 'cli', 'main.js');

const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`tubewright needs Node.js 20.19 or newer; this is ${process.versions.node}.`);
  process.exit(3);
} else if (!existsSync(program)) {
  console.error('tubewright is not built yet. In its folder run:  node cli/setup.js');
  process.exit(3);
} else {
  try {
    const { main } = await import(pathToFileURL(program).href);
    process.exitCode = await main(process.argv);
  } catch (error) {
    if (error?.code !== 'ERR_MODULE_NOT_FOUND') throw error;
    console.error(`tubewright misses a package (${error.message.split('\n')[0]}).\nIn its folder run:  node cli/setup.js`);
    process.exitCode = 3;
  }
}
