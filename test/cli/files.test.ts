import { readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { InputError, OutputError } from '../../cli/exit.js';
import { Batch, readBytes, readText, reason, writeNew } from '../../cli/files.js';
import { temporaryFolder } from '../helpers/program.js';

it('says in words what the system says in codes', () => {
  expect(reason({ code: 'ENOSPC', message: 'ENOSPC: no space' })).toBe('the disk is full');
  expect(reason({ code: 'EROFS' })).toBe('the disk is read-only');
  expect(reason({ code: 'EDQUOT' })).toBe('the disk quota is used up');
  expect(reason({ code: 'EACCES' })).toBe('not permitted');
  expect(reason({ code: 'EWHATEVER', message: 'as it is' })).toBe('as it is');
});

it('gives files their names all together', () => {
  const folder = temporaryFolder();
  writeFileSync(join(folder, 'a'), 'old');
  const batch = new Batch(folder);
  expect(Buffer.from(batch.add('a', 'new')).toString()).toBe('new');
  batch.add('b', new Uint8Array([1, 2]));
  expect(readFileSync(join(folder, 'a'), 'utf8')).toBe('old');
  batch.commit();
  expect(readdirSync(folder).sort()).toEqual(['a', 'b']);
  expect(readFileSync(join(folder, 'a'), 'utf8')).toBe('new');
  expect(readBytes(join(folder, 'b'))).toEqual(new Uint8Array([1, 2]));
});

it('takes back what was not given its name', () => {
  const folder = temporaryFolder();
  const batch = new Batch(folder);
  batch.add('a', 'new');
  batch.drop();
  expect(readdirSync(folder)).toEqual([]);
});

it('takes back everything when one file cannot be written', () => {
  const folder = temporaryFolder();
  const batch = new Batch(folder);
  batch.add('a', 'new');
  const broken = new Proxy(new Uint8Array(4), {
    get: (target, key) => {
      if (key === 'length') throw Object.assign(new Error('no room'), { code: 'ENOSPC' });
      return Reflect.get(target, key);
    },
  });
  expect(() => batch.add('b', broken)).toThrow(/b could not be written: the disk is full/);
  expect(readdirSync(folder)).toEqual([]);
});

it('writes a new file, and never over an old one', () => {
  const path = join(temporaryFolder(), 'a');
  writeNew(path, 'first');
  expect(() => writeNew(path, 'second')).toThrow(OutputError);
  expect(readFileSync(path, 'utf8')).toBe('first');
});

it('reads no file that was named by mistake', () => {
  const path = join(temporaryFolder(), 'huge');
  writeFileSync(path, '');
  truncateSync(path, 17 * 1024 * 1024);
  expect(() => readText(path)).toThrow(InputError);
  expect(() => readText(path)).toThrow('larger than 16 MiB');
});
