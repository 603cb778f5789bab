import { mkdirSync, readFileSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { EventStreams } from '../../cli/event-streams.js';
import { sha256 } from '../../cli/files.js';
import { ledgerText } from '../../parts/sheets/ledger.js';
import { machineFile, temporaryFolder } from '../helpers/program.js';
import { ask, Changes, exchange, startOf } from './view-client.js';
import { serverOn } from './view-server-on.js';

const stateOf = (text: string) => ({ text, sha256: sha256(Buffer.from(text)) });

const LEDGER = ledgerText({ kind: 'tubewright ledger', version: 1, machine: 'Mine', parts: [], made: [] });

async function shown(change?: (text: string) => string) {
  const folder = temporaryFolder();
  const path = machineFile(folder, 'travelling-demonstrator', change);
  const server = await serverOn(path);
  return { folder, path, text: readFileSync(path, 'utf8'), address: server.address, server };
}

it('begins the page with the file, whatever stands in it', async () => {
  const { address, text } = await shown((text) => `${text}# </script><!-- $& <script>alert(1)</script>\n`);
  const { body } = await ask(address);
  expect(startOf(body)).toEqual({ file: 'machine.yaml', ...stateOf(text), ledger: null, served: true });
  expect(body.match(/<\/script>/g)).toHaveLength(1);
  expect(body).toContain('<p>$& $1</p>');
});

it('begins a page that is read in again with what is on disk now', async () => {
  const { address, path, text, folder } = await shown();
  writeFileSync(path, `${text}# more\n`);
  mkdirSync(join(folder, 'out'));
  writeFileSync(join(folder, 'out', 'ledger.json'), LEDGER);
  const start = () => ask(address).then(({ body }) => startOf(body));
  expect(await start()).toMatchObject({ ...stateOf(`${text}# more\n`), ledger: LEDGER });
  rmSync(path);
  expect(await start(), 'the last there was').toMatchObject(stateOf(`${text}# more\n`));
});

it('tells the present first, then every change, and nothing when the bytes are the same', async () => {
  const { address, path, text } = await shown();
  const changes = await Changes.open(address);
  expect(await changes.next()).toEqual({ event: 'file', word: stateOf(text) });
  expect(await changes.next()).toEqual({ event: 'ledger', word: { ledger: null } });

  writeFileSync(path, `${text}# one\n`);
  expect(await changes.next()).toEqual({ event: 'file', word: stateOf(`${text}# one\n`) });
  utimesSync(path, new Date(), new Date(2000, 1));
  // Longer than the disk is left alone: a word about the touched file would come before the next.
  await new Promise((resolve) => setTimeout(resolve, 600));
  writeFileSync(path, 'no machine: at all\n');
  expect(await changes.next()).toEqual({ event: 'file', word: stateOf('no machine: at all\n') });
});

it('follows a file that is saved by renaming, goes and comes back', async () => {
  const { address, path, text, folder } = await shown();
  const changes = await Changes.open(address);
  await changes.next();
  await changes.next();
  const save = (text: string) => {
    writeFileSync(join(folder, 'next'), text);
    renameSync(join(folder, 'next'), path);
  };
  for (const more of ['# one\n', '# two\n']) {
    save(text + more);
    expect(await changes.next()).toEqual({ event: 'file', word: stateOf(text + more) });
  }
  rmSync(path);
  expect(await changes.next()).toEqual({
    event: 'file',
    word: { gone: `${path}: no such file or folder` },
  });
  const later = await Changes.open(address);
  expect(await later.next()).toMatchObject({
    event: 'file',
    word: { gone: expect.stringContaining('no such') },
  });
  save(`${text}# two\n`);
  expect(await changes.next()).toEqual({ event: 'file', word: stateOf(`${text}# two\n`) });
});

it('says why a file that is there cannot be read', async () => {
  const { address, path } = await shown();
  const changes = await Changes.open(address);
  await changes.next();
  await changes.next();
  writeFileSync(path, Buffer.from('# 20 °C\n', 'latin1'));
  expect(await changes.next()).toMatchObject({ word: { gone: `${path}: not UTF-8 text; save it as UTF-8` } });
  rmSync(path);
  mkdirSync(path);
  for (let told = await changes.next(); ; told = await changes.next()) {
    if (told.word.gone === `${path}: is a folder`) break;
    // Between the two it was not there.
    expect(told.word.gone).toBe(`${path}: no such file or folder`);
  }
});

it('follows the ledger as it appears, breaks and goes', async () => {
  const { address, folder } = await shown();
  const changes = await Changes.open(address);
  await changes.next();
  await changes.next();
  const ledger = join(folder, 'out', 'ledger.json');
  mkdirSync(join(folder, 'out'));
  writeFileSync(join(folder, 'out', 'next'), LEDGER);
  renameSync(join(folder, 'out', 'next'), ledger);
  expect(await changes.next()).toEqual({ event: 'ledger', word: { ledger: LEDGER } });
  writeFileSync(join(folder, 'out', 'next'), '{"kind": "something else"}');
  renameSync(join(folder, 'out', 'next'), ledger);
  expect(await changes.next()).toEqual({
    event: 'ledger',
    word: { ledger: null, trouble: expect.stringContaining(`${ledger}: not a ledger of this program`) },
  });
  rmSync(join(folder, 'out'), { recursive: true });
  expect(await changes.next()).toEqual({ event: 'ledger', word: { ledger: null } });
});

it('ends its streams in good order when it stops', async () => {
  const { address, server } = await shown();
  const pages = [await Changes.open(address), await Changes.open(address)];
  for (const page of pages) await page.next();
  await server.stop();
  expect(await Promise.all(pages.map(({ ended }) => ended))).toEqual([true, true]);
});

it('has room for many pages, but not for any number', async () => {
  const { address } = await shown();
  for (let i = 0; i < 32; i++) await Changes.open(address);
  expect(await ask(`${address}changes`)).toMatchObject({ status: 503, body: '' });
  expect((await ask(address)).status).toBe(200);
});

it('keeps a quiet stream alive with words that say nothing', async () => {
  const streams = new EventStreams(5);
  const server = createServer((_, response) => {
    response.writeHead(200);
    streams.add(response, [['file', { text: 'a\nb\r\nc' }]]);
    setTimeout(() => streams.end(), 100);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => {
    server.close();
  });
  const { port } = server.address() as AddressInfo;
  const got = await exchange(port, 'GET / HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n');
  expect(got).toContain('event: file\ndata: {"text":"a\\nb\\r\\nc"}\n\n');
  expect(got).toContain('\n:\n\n');
});
