import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { WatchedFile } from '../../cli/watch-file.js';

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

/** Longer than between two askings. */
const WHILE = 130;

function following(first: string) {
  const disk = { holds: first };
  const told: string[] = [];
  const file = new WatchedFile(
    () => disk.holds,
    (word) => told.push(word),
  );
  return { disk, told, file };
}

describe('a file that is followed', () => {
  it('is told of once for each change, and not when it is as before', () => {
    const { disk, told, file } = following('a');
    vi.advanceTimersByTime(10 * WHILE);
    expect(told).toEqual([]);
    disk.holds = 'b';
    vi.advanceTimersByTime(10 * WHILE);
    expect(told).toEqual(['b']);
    disk.holds = 'a';
    vi.advanceTimersByTime(10 * WHILE);
    expect(told).toEqual(['b', 'a']);
    file.stop();
  });

  it('is told of when it changed right after the following began', () => {
    const { disk, told, file } = following('');
    disk.holds = 'at once';
    vi.advanceTimersByTime(3 * WHILE);
    expect(told).toEqual(['at once']);
    file.stop();
  });

  it('is not told of while it is being written', () => {
    const { disk, told, file } = following('a');
    disk.holds = '';
    vi.advanceTimersByTime(WHILE);
    disk.holds = 'whole';
    vi.advanceTimersByTime(10 * WHILE);
    expect(told).toEqual(['whole']);
    disk.holds = 'half';
    vi.advanceTimersByTime(WHILE);
    disk.holds = 'whole';
    vi.advanceTimersByTime(10 * WHILE);
    expect(told).toEqual(['whole']);
    file.stop();
  });

  it('is told of at once when it is looked at, and then not again', () => {
    const { disk, told, file } = following('a');
    disk.holds = 'b';
    expect(file.look()).toBe('b');
    expect(told).toEqual(['b']);
    vi.advanceTimersByTime(10 * WHILE);
    expect(told).toEqual(['b']);
    file.stop();
  });

  it('is left alone when the following has stopped', () => {
    const { disk, told, file } = following('a');
    file.stop();
    disk.holds = 'b';
    vi.advanceTimersByTime(10 * WHILE);
    expect(told).toEqual([]);
  });
});
