import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { OutputError } from '../../cli/exit.js';
import { replaceFile, sha256 } from '../../cli/files.js';
import { machineFile, swap, temporaryFolder } from '../helpers/program.js';
import { Changes, put, type Reply } from './view-client.js';
import { serverOn } from './view-server-on.js';

/** For a process of its own: it cannot read sources. */
const BUILT = new URL('../../dist/cli/files.js', import.meta.url).href;

const hash = (text: string) => sha256(Buffer.from(text));
const bodyOf = ({ body }: Reply) => JSON.parse(body);
const FATTER = swap('[79.6, 80.3, 79.8, 80.2]', '[80.2, 80.9, 80.4, 80.8]');

async function shown(change?: (text: string) => string) {
  const folder = temporaryFolder();
  const path = machineFile(folder, 'travelling-demonstrator', change);
  const text = readFileSync(path, 'utf8');
  const { address } = await serverOn(path);
  const now = () => readFileSync(path, 'utf8');
  return { folder, path, text, base: hash(text), address, now };
}

it('writes the text as it is and tells the other pages', async () => {
  const { folder, address, text, base, now } = await shown();
  const page = await Changes.open(address);
  await page.next();
  await page.next();
  const next = `\uFEFF${FATTER(text).replaceAll('\n', '\r\n')}# 20 °C, 👍\r\n`;
  const reply = await put(address, { text: next, base });
  expect(reply.status).toBe(200);
  expect(reply.headers['content-type']).toBe('application/json; charset=utf-8');
  expect(bodyOf(reply)).toEqual({ sha256: hash(next) });
  expect(now()).toBe(next);
  expect(await page.next()).toEqual({ event: 'file', word: { text: next, sha256: hash(next) } });
  expect(readdirSync(folder)).toEqual(['machine.yaml']);
  expect((await put(address, { text, base: hash(next) })).status).toBe(200);
  expect(now()).toBe(text);
});

it('saves over nothing that the page has not seen', async () => {
  const { path, address, text, base, now } = await shown();
  writeFileSync(path, `${text}# by another hand\n`);
  const reply = await put(address, { text: FATTER(text), base });
  expect(reply.status).toBe(409);
  expect(bodyOf(reply)).toEqual({
    text: `${text}# by another hand\n`,
    sha256: hash(`${text}# by another hand\n`),
  });
  expect(now()).toBe(`${text}# by another hand\n`);
  rmSync(path);
  const gone = await put(address, { text: FATTER(text), base });
  expect(gone.status).toBe(409);
  expect(bodyOf(gone)).toEqual({ gone: `${path}: no such file or folder` });
  expect(() => now()).toThrow();
});

it('lets one of two saves at once win and tells the other what it wrote', async () => {
  const { address, text, base, now } = await shown();
  const texts = ['# one\n', '# two\n', '# three\n'].map((more) => text + more);
  const replies = await Promise.all(texts.map((each) => put(address, { text: each, base })));
  expect(replies.map(({ status }) => status).sort()).toEqual([200, 409, 409]);
  const won = texts[replies.findIndex(({ status }) => status === 200)]!;
  expect(now()).toBe(won);
  for (const reply of replies.filter(({ status }) => status === 409))
    expect(bodyOf(reply)).toEqual({ text: won, sha256: hash(won) });
});

it('does not save what is no valid machine', async () => {
  const { folder, address, text, base, now } = await shown();
  const reply = await put(address, { text: text.replace('width: 45,', 'widht: 4500,'), base });
  expect(reply.status).toBe(422);
  const { problems } = bodyOf(reply);
  expect(problems.map(({ key }: { key: string }) => key)).toEqual(
    expect.arrayContaining(['belt.widht', 'belt.width']),
  );
  expect(problems[0]).toMatchObject({ file: 'machine.yaml', line: expect.any(Number) });
  for (const bad of ['', '- a\n', `${text}# ${'x'.repeat(256 * 1024)}`])
    expect((await put(address, { text: bad, base })).status).toBe(422);
  expect(now()).toBe(text);
  expect(readdirSync(folder)).toEqual(['machine.yaml']);
});

it('repairs a file that is no valid machine on disk', async () => {
  const { path, address, text, now } = await shown();
  writeFileSync(path, 'machine: [\n');
  expect((await put(address, { text, base: hash('machine: [\n') })).status).toBe(200);
  expect(now()).toBe(text);
});

it('says what it does not understand', async () => {
  const { address, text, base, now } = await shown();
  const orders: [unknown, string][] = [
    ['', 'not JSON'],
    ['{"text": "', 'not JSON'],
    ['null', 'not a JSON object'],
    ['[]', 'not a JSON object'],
    ['"text"', 'not a JSON object'],
    [{}, '"text" is not a text'],
    [{ base }, '"text" is not a text'],
    [{ text: 5, base }, '"text" is not a text'],
    [{ text: [text], base }, '"text" is not a text'],
    [{ text: null, base }, '"text" is not a text'],
    [{ text }, '"base" is not'],
    [{ text, base: 5 }, '"base" is not'],
    [{ text, base: '' }, '"base" is not'],
    [{ text, base: base.toUpperCase() }, '"base" is not'],
    [{ text, base, path: '/etc/passwd' }, 'holds "path"'],
    [`{"text": ${JSON.stringify(text)}, "base": "${base}", "__proto__": {}}`, 'holds "__proto__"'],
    [{ text: `${text}# \0`, base }, 'no file can hold'],
    [`{"text": "${'\\ud800'}", "base": "${base}"}`, 'no file can hold'],
    [JSON.stringify({ text, base }).replaceAll('e', '\0'), 'not UTF-8'],
  ];
  for (const [order, why] of orders) {
    const reply = await put(address, order);
    expect(reply.status, why).toBe(400);
    expect(bodyOf(reply)).toEqual({ error: expect.stringContaining(why) });
  }
  expect(now()).toBe(text);
});

it('follows a link to its file and keeps owner and permissions', async () => {
  const folder = temporaryFolder();
  mkdirSync(join(folder, 'far'));
  const target = machineFile(join(folder, 'far'));
  chmodSync(target, 0o640);
  if (process.getuid?.() === 0) chownSync(target, 12345, 23456);
  const before = statSync(target);
  const link = join(folder, 'mine.yaml');
  symlinkSync(join('far', 'machine.yaml'), link);
  const text = readFileSync(link, 'utf8');
  const { address } = await serverOn(link);
  expect((await put(address, { text: FATTER(text), base: hash(text) })).status).toBe(200);
  expect(lstatSync(link).isSymbolicLink()).toBe(true);
  expect(readFileSync(target, 'utf8')).toBe(FATTER(text));
  const { mode, uid, gid } = statSync(target);
  expect({ mode, uid, gid }).toEqual({ mode: before.mode, uid: before.uid, gid: before.gid });
  expect(readdirSync(join(folder, 'far'))).toEqual(['machine.yaml']);
});

it('replaces a file only if it is still the one meant when the new one is on disk', () => {
  const folder = temporaryFolder();
  const path = join(folder, 'a');
  writeFileSync(path, 'old');
  const meanwhile = () => {
    expect(readdirSync(folder)).toHaveLength(2);
    writeFileSync(join(folder, 'b'), 'theirs');
    renameSync(join(folder, 'b'), path);
    return false;
  };
  expect(replaceFile(path, 'new', meanwhile)).toBe(false);
  expect(readFileSync(path, 'utf8')).toBe('theirs');
  expect(readdirSync(folder)).toEqual(['a']);
  expect(replaceFile(path, 'new', () => true)).toBe(true);
  expect(readFileSync(path, 'utf8')).toBe('new');
});

it('does not write over a file that is write-protected, though a new name could be given to another', () => {
  const folder = temporaryFolder();
  const path = join(folder, 'a');
  writeFileSync(path, 'old', { mode: 0o444 });
  // Nothing is forbidden to root: there another user tries it.
  const other = 65534;
  const isRoot = process.getuid?.() === 0;
  for (const each of isRoot ? [folder, path] : []) chownSync(each, other, other);
  const script = `
    import { replaceFile } from ${JSON.stringify(BUILT)};
    if (${isRoot}) process.setuid(${other});
    try {
      console.log(replaceFile(${JSON.stringify(path)}, 'new', () => true));
    } catch ({ message }) {
      console.log(message);
    }`;
  const { stdout } = spawnSync(process.execPath, ['--input-type=module', '-e', script], { encoding: 'utf8' });
  expect(stdout).toBe(`${path} could not be written: not permitted\n`);
  expect(readFileSync(path, 'utf8')).toBe('old');
  expect(readdirSync(folder)).toEqual(['a']);
});

it('makes no file where there was none', () => {
  const folder = temporaryFolder();
  expect(() => replaceFile(join(folder, 'a'), 'new', () => true)).toThrow(OutputError);
  expect(readdirSync(folder)).toEqual([]);
});
