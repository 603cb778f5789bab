import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withWritten, writtenValues } from '../../parts/index.js';
import {
  agreed,
  changesBetween,
  clashOf,
  type Disk,
  divergence,
  heard,
  onTop,
  type Sides,
  saved,
} from '../../viewer/session/disk.js';
import { STARTERS, starterText } from '../helpers/machines.js';

const BASE = starterText('travelling-demonstrator');
const state = (text: string) => ({ text, sha256: `hash of ${text}` });
const onDisk = (text: string): Disk => ({ ...state(text), base: text, gone: undefined });
/** A page that was opened on a file and edited since. */
const page = (file: string, mine = file): Sides => ({ disk: onDisk(file), mine });

describe('hearing the file', () => {
  it('goes along while the page has no edits of its own', () => {
    const after = heard(page('a'), state('b'));
    expect(after).toEqual(page('b'));
    expect(clashOf(after)).toBeUndefined();
  });

  it('changes nothing when the file is what the edits rest on', () => {
    const before = page('a', 'mine');
    expect(heard(before, state('a'))).toEqual(before);
    expect(heard({ ...before, disk: { ...before.disk, gone: 'not there' } }, state('a'))).toEqual(before);
  });

  it('agrees when the file becomes what the page has', () => {
    expect(heard(page('a', 'mine'), state('mine'))).toEqual(page('mine'));
  });

  it('asks when both changed, and takes neither', () => {
    const after = heard(page('a', 'mine'), state('theirs'));
    expect(after.mine).toBe('mine');
    expect(after.disk).toMatchObject({ text: 'theirs', base: 'a' });
    expect(clashOf(after)).toBeDefined();
  });

  it('asks no more when the file goes back, or to what the page has', () => {
    const asking = heard(page('a', 'mine'), state('theirs'));
    expect(heard(asking, state('a'))).toEqual(page('a', 'mine'));
    expect(heard(asking, state('mine'))).toEqual(page('mine'));
    expect(clashOf(heard(asking, state('a')))).toBeUndefined();
  });

  it('asks about the newest file when it changes again', () => {
    const asking = heard(heard(page('a', 'mine'), state('theirs')), state('theirs again'));
    expect(asking.disk).toMatchObject({ text: 'theirs again', base: 'a' });
    expect(clashOf(asking)).toBeDefined();
  });

  it('keeps asking when the page is undone to where it began, and the same file is told again', () => {
    const undone = { ...heard(page('a', 'mine'), state('theirs')), mine: 'a' };
    expect(clashOf(undone)).toBeDefined();
    expect(heard(undone, state('theirs'))).toEqual(undone);
  });

  it('knows the text that the page is just saving', () => {
    const after = heard(page('a', 'typed on'), state('sent'), 'sent');
    expect(after).toEqual({ disk: onDisk('sent'), mine: 'typed on' });
    expect(clashOf(after)).toBeUndefined();
  });

  it('agrees when an edit makes the page what the file is', () => {
    const asking = heard(page('a', 'mine'), state('theirs'));
    expect(agreed({ ...asking, mine: 'theirs' })).toEqual(onDisk('theirs'));
    expect(agreed(asking)).toBe(asking.disk);
  });
});

describe('after saving', () => {
  const order = { text: 'sent', base: state('a').sha256 };
  const hash = state('sent').sha256;

  it('the edits rest on what was written', () => {
    expect(saved(page('a', 'sent'), order, hash)).toEqual(page('sent'));
    expect(saved(page('a', 'typed on'), order, hash)).toEqual({ disk: onDisk('sent'), mine: 'typed on' });
  });

  it('it is the same when the file was heard of before the answer', () => {
    const heardFirst = heard(page('a', 'typed on'), state('sent'), 'sent');
    expect(saved(heardFirst, order, hash)).toEqual({ disk: onDisk('sent'), mine: 'typed on' });
  });

  it('a later change on disk is not lost', () => {
    const later = heard(page('a', 'sent'), state('later'), 'sent');
    expect(saved(later, order, hash)).toEqual(page('later'));
    const typed = saved({ ...later, mine: 'typed on' }, order, hash);
    expect(typed.mine).toBe('typed on');
    expect(typed.disk).toMatchObject({ text: 'later', base: 'sent' });
    expect(clashOf(typed)).toBeDefined();
  });
});

describe('what changed on both sides', () => {
  const mine = withWritten(withWritten(BASE, 'base.feet', ['100']), 'column.tube.length', ['650']);
  const theirs = withWritten(withWritten(BASE, 'base.feet', ['95']), 'belt.width', ['40']);

  it('is told key by key, and what both changed', () => {
    expect(divergence(BASE, mine, theirs)).toEqual({
      mine: [
        { key: 'column.tube.length', from: '640', to: '650' },
        { key: 'base.feet', from: '90', to: '100' },
      ],
      theirs: [
        { key: 'belt.width', from: '45', to: '40' },
        { key: 'base.feet', from: '90', to: '95' },
      ],
      both: ['base.feet'],
      unreadable: [],
      canJoin: true,
    });
    expect(divergence(BASE, mine, mine).both).toEqual([]);
  });

  it('can be joined, and the page’s own edits count', () => {
    const joined = writtenValues(onTop(BASE, mine, theirs));
    expect(joined.get('base.feet')?.items).toEqual(['100']);
    expect(joined.get('column.tube.length')?.items).toEqual(['650']);
    expect(joined.get('belt.width')?.items).toEqual(['40']);
  });

  it('keeps the comments and the order of the file on disk', () => {
    const commented = `# measured again\n${theirs}`;
    expect(onTop(BASE, mine, commented)).toBe(
      commented.replace('length: 640', 'length: 650').replace('feet: 95', 'feet: 100'),
    );
  });

  it('can not be joined while one text can’t be read, and no edit is taken for a removal', () => {
    for (const [side, texts] of [
      ['theirs', [BASE, mine, 'machine: [']],
      ['mine', [BASE, 'machine: [', theirs]],
      ['base', ['machine: [', mine, theirs]],
    ] as const) {
      const [a, b, c] = texts;
      expect(divergence(a, b, c)).toMatchObject({ canJoin: false, unreadable: [side] });
      expect(() => onTop(a, b, c), side).toThrow(RangeError);
    }
    expect(divergence(BASE, mine, 'machine: [').theirs).toEqual([]);
    expect(divergence(BASE, mine, 'machine: [').mine).toHaveLength(2);
  });

  it('takes out what the page left out, and leaves out what the file left out', () => {
    const left = withWritten(BASE, 'base.bench', undefined);
    expect(changesBetween(BASE, left)).toEqual([{ key: 'base.bench', from: '750', to: undefined }]);
    expect(writtenValues(onTop(BASE, left, theirs)).has('base.bench')).toBe(false);
    expect(writtenValues(onTop(BASE, mine, left)).has('base.bench')).toBe(false);
  });
});

/** A few keys of one machine stating something else. */
const NUMBERS = ['belt.width', 'base.feet', 'column.tube.length', 'site.altitude', 'terminal.insertion'];
const edits = (keys: readonly string[]) =>
  fc.array(fc.record({ key: fc.constantFrom(...keys), item: fc.integer({ min: 1, max: 999 }).map(String) }), {
    minLength: 1,
    maxLength: 4,
  });
const edited = (text: string, list: readonly { key: string; item: string }[]) =>
  list.reduce((now, { key, item }) => withWritten(now, key, [item]), text);

describe('joining, for any edits', () => {
  const file = fc.constantFrom(...STARTERS).map(starterText);

  it('with edits on one side only that side counts', () => {
    fc.assert(
      fc.property(file, edits(NUMBERS), (base, list) => {
        const other = edited(base, list);
        expect(onTop(base, base, other)).toBe(other);
        expect(changesBetween(onTop(base, other, base), other)).toEqual([]);
      }),
      { seed: 11, numRuns: 60 },
    );
  });

  it('edits of different keys all survive, and nothing else changes', () => {
    fc.assert(
      fc.property(file, edits(NUMBERS.slice(0, 2)), edits(NUMBERS.slice(2)), (base, own, others) => {
        const [mine, theirs] = [edited(base, own), edited(base, others)];
        const joined = onTop(base, mine, theirs);
        expect(changesBetween(joined, edited(theirs, own))).toEqual([]);
        const keys = changesBetween(base, joined).map(({ key }) => key);
        const wanted = [...changesBetween(base, mine), ...changesBetween(base, theirs)].map(({ key }) => key);
        expect([...keys].sort()).toEqual([...wanted].sort());
      }),
      { seed: 12, numRuns: 60 },
    );
  });
});
