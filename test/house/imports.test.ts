import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

// The house: imports point one way. What a room may use is said here, and nowhere else.

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

const MAY_USE: Readonly<Record<string, readonly string[]>> = {
  'parts/stock': [],
  'parts/machine': ['parts/stock'],
  'parts/solid': [],
  // Ways over surfaces and through air between any solids: it knows no machine.
  'parts/distances': ['parts/solid'],
  'parts/printed': ['parts/machine', 'parts/stock', 'parts/solid'],
  'parts/field': ['parts/machine', 'parts/stock'],
  'parts/checks': [
    'parts/machine',
    'parts/stock',
    'parts/solid',
    'parts/distances',
    'parts/printed',
    'parts/field',
  ],
  'parts/sheets': [
    'parts/machine',
    'parts/stock',
    'parts/solid',
    'parts/printed',
    'parts/field',
    'parts/checks',
  ],
  // The library's door, and those who knock.
  parts: [
    'parts/stock',
    'parts/machine',
    'parts/solid',
    'parts/printed',
    'parts/field',
    'parts/checks',
    'parts/sheets',
  ],
  cli: ['parts'],
  viewer: ['parts'],
};

function sources(folder: string): string[] {
  const path = join(ROOT, folder);
  if (!existsSync(path)) return [];
  return readdirSync(path, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => relative(ROOT, join(entry.parentPath, entry.name)).split(sep).join('/'));
}

/** `parts/solid`, `cli`: the room a file lives in. `parts/index.ts` is the door, `parts`. */
function roomOf(file: string): string {
  const [top, second, third] = file.split('/');
  return top === 'parts' && third !== undefined ? `${top}/${second}` : top!;
}

function importsOf(file: string): string[] {
  const text = readFileSync(join(ROOT, file), 'utf8');
  const found = text.matchAll(/(?:from\s+|import\s*\(\s*|^import\s+)['"]([^'"]+)['"]/gm);
  return [...found].map((match) => match[1]!);
}

const target = (file: string, specifier: string): string =>
  relative(ROOT, resolve(ROOT, dirname(file), specifier))
    .split(sep)
    .join('/')
    .replace(/\.js$/, '.ts');

const all = ['parts', 'cli', 'viewer'].flatMap(sources);

describe('the house', () => {
  it('has sources to look at in every room', () => {
    const rooms = new Set(all.map(roomOf));
    for (const room of [
      'parts/stock',
      'parts/machine',
      'parts/solid',
      'parts/distances',
      'parts/printed',
      'parts/field',
      'parts/checks',
      'parts/sheets',
      'cli',
      'viewer',
    ]) {
      expect(rooms, room).toContain(room);
    }
    for (const room of rooms) expect(Object.keys(MAY_USE), room).toContain(room);
  });

  it.each(all)('%s imports only what its room may use', (file) => {
    const room = roomOf(file);
    for (const specifier of importsOf(file).filter((each) => each.startsWith('.'))) {
      const other = target(file, specifier);
      if (roomOf(other) === room) continue;
      expect(MAY_USE[room], `${file} imports ${other}`).toContain(roomOf(other));
      if (room === 'cli' || room === 'viewer')
        expect(other, `${file} goes past the library's door`).toBe('parts/index.ts');
    }
  });

  it('keeps Node out of the library: it runs in a browser and a worker too', () => {
    for (const file of sources('parts')) {
      for (const specifier of importsOf(file)) {
        expect(specifier, file).not.toMatch(/^(node:|fs$|path$|os$|crypto$|child_process$)/);
      }
      expect(readFileSync(join(ROOT, file), 'utf8'), file).not.toMatch(
        /\bprocess\.(env|argv|exit|stdout|stderr|cwd|platform|on)\b|\bBuffer\.|\b__dirname\b/,
      );
    }
  });

  it('keeps files and processes out of everything but the command line', () => {
    const outside = sources('parts').concat(sources('viewer'));
    for (const file of outside) expect(importsOf(file).join(), file).not.toContain('node:');
  });

  it('has the top level that is fixed', () => {
    const known = [
      'parts',
      'cli',
      'viewer',
      'test',
      'package.json',
      'package-lock.json',
      'tsconfig.json',
      'README.md',
      'DEVELOPERS.md',
      'CHANGELOG.md',
      'LICENSE',
    ];
    const made = ['node_modules', 'dist', 'demo-output'];
    const found = readdirSync(ROOT).filter((name) => !name.startsWith('.') && !made.includes(name));
    expect(found.filter((name) => !known.includes(name))).toEqual([]);
  });

  it('never calls a machine safe', () => {
    for (const file of all) {
      expect(readFileSync(join(ROOT, file), 'utf8'), file).not.toMatch(
        /\b(is|are|be|perfectly|completely) safe\b/i,
      );
    }
  });
});
