#!/usr/bin/env node
// Starts the built program; says what to run when it is not there yet.
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const program = join(here, '..', 'dist', 'cli', 'main.js');
// A clone brings its own set-up; an installed package does not.
const remedy = existsSync(join(here, 'setup.js'))
  ? 'In its folder run:  node cli/setup.js'
  : 'Install it again together with its packages.';

const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`tubewright needs Node.js 20.19 or newer; this is ${process.versions.node}.`);
  process.exit(3);
} else if (!existsSync(program)) {
  console.error(`tubewright is not built yet. ${remedy}`);
  process.exit(3);
} else {
  // Whoever reads may stop reading (a pager that was closed): then there is nobody left to tell.
  process.stdout.on('error', (error) => {
    if (error.code !== 'EPIPE')
      console.error(`tubewright: the output could not be written: ${error.message}`);
    process.exit(error.code === 'EPIPE' ? process.exitCode : 3);
  });
  try {
    const { main } = await import(pathToFileURL(program).href);
    process.exitCode = await main(process.argv);
  } catch (error) {
    // 1 is kept for machines in danger, so a fault of the program ends with 3 as well.
    process.exitCode = 3;
    const missing = error?.code === 'ERR_MODULE_NOT_FOUND' ? error.message.split('\n')[0] : undefined;
    if (missing) console.error(`tubewright misses a package (${missing}).\n${remedy}`);
    else console.error('This is a fault of tubewright, please report it:\n', error);
  }
}
