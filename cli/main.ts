import { Command, CommanderError } from 'commander';
import type { Problem } from '../parts/index.js';
import { EXIT, InputError, OutputError } from './exit.js';
import { FileProblems } from './machine-file.js';
import { printJson, WIDTH } from './print.js';

/** Runs one command and gives back the exit status. Commands are loaded when called, so that each starts quickly. */
export async function main(argv: readonly string[]): Promise<number> {
  let status: number = EXIT.done;
  const program = new Command('tubewright')
    .description('Measured stock in, checked printable parts out.')
    .version('0.1.0')
    .configureHelp({ helpWidth: WIDTH })
    .configureOutput({ writeErr: (text) => process.stderr.write(text.replace(/^error: /, '')) })
    .showHelpAfterError('(tubewright --help lists what it does)')
    .exitOverride();
  const set = (result: number): void => {
    status = result;
  };
  const json = ['--json', 'print one JSON object for programs'] as const;

  program
    .command('new')
    .argument('<file>', 'machine file to write')
    .description('write a commented machine file to start from')
    .option('--like <starter>', 'which starter to begin with')
    .option(...json)
    .action(async (file, options) => set((await import('./commands/new.js')).newFile(file, options)));
  program
    .command('check')
    .argument('<file>', 'machine file')
    .description('predict, check, list findings')
    .option(...json)
    .action(async (file, options) => set((await import('./commands/check.js')).check(file, options)));
  program
    .command('ways')
    .argument('<file>', 'machine file')
    .description('measure clearance and creepage on the solids: where each way runs, and what it holds')
    .option(...json)
    .action(async (file, options) => set(await (await import('./commands/ways.js')).ways(file, options)));
  program
    .command('make')
    .argument('<file>', 'machine file')
    .description('write parts, notes for the build and the ledger')
    .option('--out <folder>', 'where to; else a folder named after the file, beside it')
    .option('--only <part>', 'make one part and leave the others alone', collect)
    .option('--no-ways', 'do not measure ways on the solids, which takes some seconds')
    .option('--accept <finding>', 'go on in spite of this danger; may be repeated', collect)
    .option(...json)
    .action(async (file, options) => set(await (await import('./commands/make.js')).make(file, options)));
  program
    .command('view')
    .argument('<file>', 'machine file')
    .description('open the machine on a page, and follow the file as it is edited')
    .option('--no-open', 'do not open the browser')
    .option('--out <folder>', 'folder with the ledger; else the one make uses')
    .option('--export <folder>', 'write the page there instead, to be opened without this program')
    .option(...json)
    .action(async (file, options) => set(await (await import('./commands/view.js')).view(file, options)));
  program
    .command('compare')
    .argument('<file>', 'machine file')
    .argument('<before>', 'another machine file, or a ledger')
    .description('say what changes and which parts must be printed again')
    .option(...json)
    .action(async (file, before, options) =>
      set((await import('./commands/compare.js')).compare(file, before, options)),
    );
  program
    .command('identify')
    .argument('<code>', 'the eight characters engraved on a part')
    .argument('<file>', 'machine file')
    .description('say which part carries a code, and whether it still fits')
    .option('--out <folder>', 'folder with the ledger; else the one make uses')
    .option(...json)
    .action(async (code, file, options) =>
      set((await import('./commands/identify.js')).identify(code, file, options)),
    );
  program
    .command('coupon')
    .argument('<file>', 'machine file')
    .description('write the fit coupon and its measuring list; from the measurements, the calibration')
    .option('--measured <list>', 'the list, filled in: writes the calibration into the machine file')
    .option('--tell', 'with --measured: tell the calibration and write nothing')
    .option('--out <folder>', 'where to; else a folder named after the file, beside it')
    .option(...json)
    .action(async (file, options) => set(await (await import('./commands/coupon.js')).coupon(file, options)));
  program
    .command('stock')
    .argument('[kind]', 'bearing, fastener, insert, tube, plastic, belt, air, metal')
    .argument('[name]', 'one row by name')
    .description('look stock up, each fact with its source')
    .option(...json)
    .action(async (kind, name, options) =>
      set((await import('./commands/stock.js')).stock(kind, name, options)),
    );

  try {
    await program.parseAsync([...argv]);
    return status;
  } catch (error) {
    return failed(error, argv.includes('--json'));
  }
}

function collect(value: string, before: readonly string[] = []): string[] {
  return [...before, value];
}

function failed(error: unknown, asJson: boolean): number {
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return EXIT.done;
    // Commander has told people already.
    if (asJson) printError(error.message.replace(/^error: /, ''), EXIT.input);
    return EXIT.input;
  }
  if (error instanceof InputError || error instanceof OutputError) {
    process.stderr.write(`${error.message}\n`);
    if (asJson) printError(error.message, error.exit, error instanceof FileProblems ? error.problems : []);
    return error.exit;
  }
  throw error;
}

function printError(error: string, exit: number, problems: readonly Problem[] = []): void {
  printJson({ error, exit, problems });
}
