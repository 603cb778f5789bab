import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { STOCK_KINDS } from '../../parts/stock/lookup.js';
import { STARTERS, starterPath } from '../helpers/machines.js';
import { machineFile, SLOW, temporaryFolder, tubewright, tubewrightIn } from '../helpers/program.js';

const DEMO = starterPath('travelling-demonstrator');
const packageFile = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));

describe('without a verb, and with one it does not know', { timeout: SLOW }, () => {
  it('tells its version', () => {
    expect(tubewright(['--version'])).toEqual({ status: 0, stdout: `${packageFile.version}\n`, stderr: '' });
  });

  it('lists its verbs', () => {
    const { status, stdout } = tubewright(['--help']);
    expect(status).toBe(0);
    for (const verb of ['new', 'check', 'make', 'view', 'compare', 'identify', 'stock'])
      expect(stdout).toContain(`\n  ${verb} `);
  });

  it('names every kind of stock in its help', () => {
    expect(tubewright(['stock', '--help']).stdout.replace(/\s+/g, ' ')).toContain(STOCK_KINDS.join(', '));
  });

  it.each([
    [[], 'Usage'],
    [['chek', DEMO], 'check'],
    [['check', '--jsn', DEMO], '--json'],
    [['check'], "missing required argument 'file'"],
    [['check', DEMO, DEMO], 'too many arguments'],
    [['make', '--no-ways', DEMO, '--only', 'tube-mont'], 'did you mean tube-mount?'],
    [['make', '--no-ways', DEMO, '--accept', 'way/colum-outer'], 'did you mean way/column-outer?'],
    [['stock', 'bering'], 'did you mean bearing?'],
    [['stock', 'bearing', '69O'], '"69O"'],
    [['identify', 'ZZZZZZZZ', DEMO], 'no part with the code "ZZZZZZZZ"'],
  ])('%j is not understood', (args, said) => {
    const { status, stdout, stderr } = tubewright(args);
    expect(status).toBe(2);
    expect(stderr).toContain(said);
    expect(stdout).toBe('');
  });

  it('says what is wrong with a file, and where', () => {
    const file = join(temporaryFolder(), 'm.yaml');
    writeFileSync(file, readFileSync(DEMO, 'utf8').replace('width: 45,', 'widht: 4,5,'));
    const { status, stdout, stderr } = tubewright(['check', file]);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/^\S*m\.yaml:\d+:\d+: belt\.widht: .*did you mean width\?$/m);
    expect(stderr).not.toContain('    at ');
  });

  it.each([
    ['no-such-file.yaml', 'no such file'],
    ['.', 'is a folder'],
  ])('cannot read %s', (path, said) => {
    const { status, stderr } = tubewright(['check', path]);
    expect(status).toBe(2);
    expect(stderr).toContain(said);
  });
});

describe('check', { timeout: SLOW }, () => {
  const { status, stdout, stderr } = tubewright(['check', DEMO]);

  it('ends well for a machine without danger', () => {
    expect(status).toBe(0);
    expect(stderr).toBe('');
  });

  it('tells prediction, findings, parts, what was assumed and the cautions, in this order', () => {
    const order = ['Predicted', 'Findings:', 'Parts', 'Assumed', 'Cautions', 'Before touching'];
    const places = order.map((heading) => stdout.search(new RegExp(`^${heading}`, 'm')));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
  });

  it('fits into a hundred columns', () => {
    for (const starter of STARTERS) {
      const wide = tubewright(['check', starterPath(starter)])
        .stdout.split('\n')
        .filter((line) => [...line].length > 100);
      expect(wide, starter).toEqual([]);
    }
  });

  it('uses no escape codes where nobody looks, whatever the environment asks', () => {
    const escapeCode = '\u001b';
    expect(stdout).not.toContain(escapeCode);
    expect(tubewright(['check', DEMO], { NO_COLOR: '1' }).stdout).toBe(stdout);
  });

  it('calls no machine safe', () => {
    for (const starter of STARTERS)
      expect(tubewright(['check', starterPath(starter)]).stdout).not.toMatch(/\bsafe\b/i);
  });

  it('ends with 1 for the machine that ships with a danger, and not for the one with its remedy', () => {
    const short = tubewright(['check', starterPath('inch-built')]);
    expect(short.status).toBe(1);
    expect(short.stdout).toMatch(/!! danger +way\/column-outer\n/);
    expect(short.stdout).toMatch(/Remedy: /);
    expect(tubewright(['check', starterPath('inch-built-longer-tube')]).status).toBe(0);
    expect(tubewright(['check', starterPath('lecture-hall')]).status).toBe(0);
  });

  it('says so when its output cannot be written, and minds no reader that left', () => {
    const full = tubewrightIn('"$@" > /dev/full', ['check', DEMO, '--json']);
    expect(full.status).toBe(3);
    expect(full.stderr).toContain('could not be written');
    const left = tubewrightIn('set -o pipefail; "$@" | head -c 1 > /dev/null', ['stock', 'fastener']);
    expect(left).toEqual({ status: 0, stdout: '', stderr: '' });
  });
});

describe('stock', { timeout: SLOW }, () => {
  it.each(STOCK_KINDS)('%s: every fact with status and source', (kind) => {
    const { status, stdout } = tubewright(['stock', kind]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/verified|secondary|computed|from-memory|common-practice/);
    expect(stdout).toContain('[1]');
  });

  it('finds one by name', () => {
    const { stdout } = tubewright(['stock', 'bearing', '608']);
    expect(stdout).toMatch(/^bearing 608$/m);
    expect(stdout).toMatch(/^ {2}bore +8 mm +verified +\[1\]$/m);
  });
});

describe('a fault of the program itself', { timeout: SLOW }, () => {
  it('ends with 3 and asks to be reported: 1 is kept for machines in danger', () => {
    const broken = "JSON.stringify = () => { throw new TypeError('broken on purpose'); }";
    const { status, stdout, stderr } = tubewright(['check', DEMO, '--json'], {
      NODE_OPTIONS: `--import "data:text/javascript,${encodeURIComponent(broken)}"`,
    });
    expect(status).toBe(3);
    expect(stdout).toBe('');
    expect(stderr).toContain('fault of tubewright');
    expect(stderr).toContain('broken on purpose');
  });
});

it('lists the kinds of stock when none is named', () => {
  const { status, stderr } = tubewright(['stock']);
  expect(status).toBe(2);
  expect(stderr).toContain('One of bearing, fastener');
});

it('tells how to save a file that is not UTF-8', () => {
  const file = join(temporaryFolder(), 'wide.yaml');
  writeFileSync(file, Buffer.from('machine: Wide\n', 'utf16le'));
  const { status, stderr } = tubewright(['check', file]);
  expect(status).toBe(2);
  expect(stderr).toBe(`${file}: not UTF-8 text; save it as UTF-8\n`);
});

it('takes a broken ledger for a ledger', () => {
  const folder = temporaryFolder();
  const ledger = join(folder, 'ledger.json');
  writeFileSync(ledger, '{"kind": "tubew');
  const { status, stderr } = tubewright(['compare', machineFile(folder), ledger]);
  expect(status).toBe(2);
  expect(stderr).toContain(`${ledger}: not a ledger of this program`);
});
