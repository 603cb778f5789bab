import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { sha256 } from '../../cli/files.js';
import { LOCK } from '../../cli/lock.js';
import { readPage } from '../../cli/view-page.js';
import {
  bytesOf,
  contentsOf,
  machineFile,
  SLOW,
  swap,
  temporaryFolder,
  tubewright,
} from '../helpers/program.js';
import { against } from '../helpers/schemas.js';
import { ask, Changes, put, startOf, viewing } from './view-client.js';
import { HTML, plainPage } from './view-server-on.js';

const hash = (text: string) => sha256(Buffer.from(text));

const OPENER = process.platform === 'darwin' ? 'open' : 'xdg-open';

/** A folder with a program that stands for the desktop's own opener: it notes what it was called with. */
function fakeOpener(status = 0): { readonly env: NodeJS.ProcessEnv; readonly called: string } {
  const folder = temporaryFolder();
  const called = join(folder, 'called');
  const opener = join(folder, OPENER);
  const note = `printf '%s|' "$@" > "${called}.next"\nmv "${called}.next" "${called}"`;
  writeFileSync(opener, `#!/bin/sh\n${note}\nexit ${status}\n`);
  chmodSync(opener, 0o755);
  return { env: { PATH: `${folder}${delimiter}${process.env.PATH}` }, called };
}

describe('view', { timeout: SLOW }, () => {
  it('shows a file, follows it, sees the ledger that make writes, saves, and stops when told', async () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const text = readFileSync(file, 'utf8');
    const { address, said, stop } = await viewing([file, '--no-open']);
    expect(said().stdout).toBe(`Showing ${file} at ${address}\nCtrl+C stops it.\n`);
    expect(startOf((await ask(address)).body)).toEqual({
      file: 'machine.yaml',
      text,
      sha256: hash(text),
      ledger: null,
      served: true,
    });
    const page = await Changes.open(address);
    await page.next();
    expect(await page.next()).toEqual({ event: 'ledger', word: { ledger: null } });
    expect(tubewright(['make', '--no-ways', file, '--only', 'comb-bar-upper']).status).toBe(0);
    const ledger = readFileSync(join(folder, 'machine', 'ledger.json'), 'utf8');
    expect(await page.next()).toEqual({ event: 'ledger', word: { ledger } });

    const next = `${text}# checked again\n`;
    expect(await put(address, { text: next, base: hash(text) })).toMatchObject({
      status: 200,
      body: JSON.stringify({ sha256: hash(next) }),
    });
    expect(readFileSync(file, 'utf8')).toBe(next);
    expect(await page.next()).toEqual({ event: 'file', word: { text: next, sha256: hash(next) } });

    expect(await stop('SIGTERM')).toMatchObject({ status: 0, stderr: '' });
    expect(await page.ended).toBe(true);
    await expect(ask(address)).rejects.toThrow('ECONNREFUSED');
  });

  it('stops at Ctrl+C with pages open, and says one line of JSON when asked to', async () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    tubewright(['make', '--no-ways', file, '--only', 'comb-bar-upper', '--out', out]);
    const { address, said, stop } = await viewing([file, '--no-open', '--json', '--out', out]);
    const lines = said().stdout.split('\n');
    expect(lines).toHaveLength(2);
    expect(JSON.parse(lines[0]!)).toEqual({ address, file });
    expect(against('view', JSON.parse(lines[0]!))).toEqual([]);
    expect(against('view', { address: 'http://0.0.0.0:1/', file })).not.toEqual([]);
    const { ledger } = startOf((await ask(address)).body);
    expect(ledger).toBe(readFileSync(join(out, 'ledger.json'), 'utf8'));
    const pages = [await Changes.open(address), await Changes.open(address)];
    expect(await stop('SIGINT')).toMatchObject({ status: 0, stderr: '' });
    expect(await Promise.all(pages.map(({ ended }) => ended))).toEqual([true, true]);
  });

  it('says what the disk says when it does not take the file, which stays as it was', async () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const before = contentsOf(folder);
    const text = readFileSync(file, 'utf8');
    // No file may grow beyond 8 KiB.
    const { address } = await viewing([file, '--no-open'], { before: 'ulimit -f 8' });
    const reply = await put(address, { text: `${text}# ${'x'.repeat(9000)}\n`, base: hash(text) });
    expect(reply.status).toBe(500);
    expect(JSON.parse(reply.body)).toEqual({
      error: `${file} could not be written: larger than files may be here`,
    });
    expect(contentsOf(folder)).toEqual(before);
    expect((await put(address, { text: `${text}#\n`, base: hash(text) })).status).toBe(200);
  });

  it.each([
    ['a file that is not there', () => join(temporaryFolder(), 'none.yaml')],
    ['a folder', () => temporaryFolder()],
    [
      'a file that is no machine',
      () => machineFile(temporaryFolder(), 'lecture-hall', swap('width:', 'widht:')),
    ],
  ])('refuses %s as check does', (_, path) => {
    const file = path();
    for (const more of [[], ['--json']]) {
      const [shown, checked] = [tubewright(['view', file, ...more]), tubewright(['check', file, ...more])];
      expect(checked.status).toBe(2);
      expect(shown).toEqual(checked);
    }
  });

  it('refuses a ledger it cannot use, and options that do not go together', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    mkdirSync(join(folder, 'machine'));
    writeFileSync(join(folder, 'machine', 'ledger.json'), '{"kind": "tubew');
    const { status, stdout, stderr } = tubewright(['view', file, '--no-open']);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toContain(`${join(folder, 'machine', 'ledger.json')}: not a ledger of this program`);
    const both = tubewright(['view', file, '--export', join(folder, 'page'), '--out', folder]);
    expect(both).toMatchObject({ status: 2, stderr: expect.stringContaining('--out') });
    expect(existsSync(join(folder, 'page'))).toBe(false);
  });
});

describe('the browser', { timeout: SLOW }, () => {
  it('is given the address', async () => {
    const { env, called } = fakeOpener();
    const { address, stop } = await viewing([machineFile(temporaryFolder())], { env });
    await vi.waitFor(() => expect(readFileSync(called, 'utf8')).toBe(`${address}|`), { timeout: 20_000 });
    expect(await stop()).toMatchObject({ status: 0, stderr: '' });
  });

  it('is left alone with --no-open', async () => {
    const { env, called } = fakeOpener();
    const { address, stop } = await viewing([machineFile(temporaryFolder()), '--no-open'], { env });
    expect((await ask(address)).status).toBe(200);
    await stop();
    expect(existsSync(called)).toBe(false);
  });

  it.each([
    ['there is none', () => ({ PATH: temporaryFolder() }), `${OPENER} could not be started`],
    ['it fails', () => fakeOpener(3).env, `${OPENER} ended with 3`],
  ])('may be missing: when %s it says so once and goes on', async (_, env, why) => {
    const { address, said, stop } = await viewing([machineFile(temporaryFolder())], { env: env() });
    const line = `No browser was opened (${why}); open the address.\n`;
    await vi.waitFor(() => expect(said().stderr).toBe(line), { timeout: 20_000 });
    expect((await ask(address)).status).toBe(200);
    expect(await stop()).toMatchObject({ status: 0, stderr: line });
  });
});

describe('view --export', { timeout: SLOW }, () => {
  const names = ['index.html', 'viewer.css', 'viewer.js'];

  it('writes the page that the server shows, for a file that nobody follows', async () => {
    const folder = temporaryFolder();
    const out = join(folder, 'class', 'page');
    const file = machineFile(folder, 'travelling-demonstrator', (text) => `${text}# </script> $&\n`);
    const text = readFileSync(file, 'utf8');
    const outcome = tubewright(['view', file, '--export', out]);
    expect(outcome).toMatchObject({ status: 0, stderr: '' });
    expect(outcome.stdout).toContain(`${join(out, 'index.html')} opens by double click`);
    expect(readdirSync(out).sort()).toEqual(names);
    const html = readFileSync(join(out, 'index.html'), 'utf8');
    const start = { file: 'machine.yaml', text, sha256: hash(text), ledger: null, served: false };
    expect(startOf(html)).toEqual(start);
    const named = [...html.matchAll(/\s(?:src|href)="([^"]*)"/g)].map((match) => match[1]!);
    expect(named).toEqual(expect.arrayContaining(['viewer.js', 'viewer.css']));
    // By its own names alone, so that it works from any place; an empty picture stands for none.
    for (const each of named) expect([...names, 'data:,']).toContain(each);

    const { address } = await viewing([file, '--no-open']);
    const served = (name: string) => ask(address + name).then(({ body }) => body);
    for (const name of ['viewer.js', 'viewer.css'])
      expect(await served(name), name).toBe(readFileSync(join(out, name), 'utf8'));
    expect(html.replace('"served":false', '"served":true')).toBe(await served(''));
  });

  it('writes over its own page, and says so in JSON', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'page');
    tubewright(['view', machineFile(folder, 'lecture-hall'), '--export', out]);
    const before = bytesOf(out);
    const { status, stdout } = tubewright(['view', machineFile(folder), '--export', out, '--json']);
    expect(status).toBe(0);
    expect(against('view', JSON.parse(stdout))).toEqual([]);
    expect(JSON.parse(stdout)).toEqual({ folder: out, files: ['viewer.js', 'viewer.css', 'index.html'] });
    const after = bytesOf(out);
    expect(Object.keys(after)).toEqual(names);
    expect(after['index.html']).not.toBe(before['index.html']);
    expect({ ...after, 'index.html': '' }).toEqual({ ...before, 'index.html': '' });
  });

  it.each<[string, (out: string) => void]>([
    ['one stranger among its own', (out) => writeFileSync(join(out, 'notes.txt'), 'mine')],
    ['a hidden stranger', (out) => writeFileSync(join(out, '.htaccess'), 'mine')],
    [
      'a stranger and the lock of a run that was killed',
      (out) => {
        writeFileSync(join(out, LOCK), '999999999 1');
        writeFileSync(join(out, 'ledger.json'), '{}');
      },
    ],
  ])('leaves a folder alone that holds %s', (_, add) => {
    const folder = temporaryFolder();
    const out = join(folder, 'page');
    const file = machineFile(folder);
    tubewright(['view', file, '--export', out]);
    add(out);
    const { [LOCK]: _lock, ...before } = contentsOf(out);
    const { status, stdout, stderr } = tubewright(['view', file, '--export', out]);
    expect({ status, stdout }).toEqual({ status: 3, stdout: '' });
    expect(stderr).toBe(`${out} holds something else than an exported page; choose another folder\n`);
    expect(contentsOf(out)).toEqual(before);
  });

  it.each([['index.html'], ['viewer.js', 'viewer.css'], ['other.html']])(
    'leaves a folder alone that holds only %s',
    (...held) => {
      const folder = temporaryFolder();
      const out = join(folder, 'page');
      mkdirSync(out);
      for (const name of held) writeFileSync(join(out, name), 'mine');
      const before = contentsOf(out);
      expect(tubewright(['view', machineFile(folder), '--export', out]).status).toBe(3);
      expect(contentsOf(out)).toEqual(before);
    },
  );

  it('leaves a folder alone where one of its names is a folder', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'page');
    mkdirSync(join(out, 'viewer.js', 'mine'), { recursive: true });
    for (const name of ['index.html', 'viewer.css']) writeFileSync(join(out, name), 'mine');
    expect(tubewright(['view', machineFile(folder), '--export', out]).status).toBe(3);
    expect(readFileSync(join(out, 'index.html'), 'utf8')).toBe('mine');
    expect(readdirSync(out).sort()).toEqual(names);
  });

  it('goes on where a run of its own was killed', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'page');
    mkdirSync(out);
    writeFileSync(join(out, LOCK), '999999999 1');
    for (const name of ['.unfinished-123456789012', 'viewer.js']) writeFileSync(join(out, name), '');
    expect(tubewright(['view', machineFile(folder), '--export', out]).status).toBe(0);
    expect(readdirSync(out).sort()).toEqual(names);
  });

  it('writes nothing for a machine it cannot use, or where a file stands', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'page');
    const bad = machineFile(folder, 'lecture-hall', swap('width:', 'widht:'));
    expect(tubewright(['view', bad, '--export', out]).status).toBe(2);
    expect(existsSync(out)).toBe(false);
    const file = machineFile(folder);
    expect(tubewright(['view', file, '--export', file])).toMatchObject({
      status: 3,
      stderr: expect.stringContaining('is a file, not a folder'),
    });
  });
});

describe('the built page', () => {
  it('holds the place for its start once', () => {
    const folder = plainPage();
    expect(readPage(folder).html).toBe(HTML);
    writeFileSync(join(folder, 'page.html'), HTML + HTML);
    expect(() => readPage(folder)).toThrow('once');
    writeFileSync(join(folder, 'page.html'), '<!doctype html>');
    expect(() => readPage(folder)).toThrow('once');
  });

  it('is said to be missing where it is', () => {
    expect(() => readPage(temporaryFolder())).toThrow(/not built: .*page\.html: no such file or folder/);
  });
});
