import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { History } from '../../viewer/session/history.js';

function undoneAll(history: History): string[] {
  const texts = [history.text];
  while (history.canUndo) {
    history.undo();
    texts.push(history.text);
  }
  return texts;
}

describe('undo and redo', () => {
  it('lead through every text, one by one', () => {
    const history = new History('a');
    for (const text of ['b', 'c', 'd']) history.change(text);
    expect(undoneAll(history)).toEqual(['d', 'c', 'b', 'a']);
    history.undo();
    expect(history.text).toBe('a');
    for (const text of ['b', 'c', 'd', 'd']) {
      history.redo();
      expect(history.text).toBe(text);
    }
    expect(history.canRedo).toBe(false);
  });

  it('take the strokes of one group together', () => {
    const history = new History('');
    for (const text of ['7', '79', '79.']) history.change(text, 'outer');
    history.change('79.x', 'wall');
    for (const text of ['79.xy', '79.xyz']) history.change(text, 'outer');
    expect(undoneAll(history)).toEqual(['79.xyz', '79.x', '79.', '']);
  });

  it('keep a sealed group apart from the next strokes', () => {
    const history = new History('');
    history.change('1', 'outer');
    history.seal();
    history.change('12', 'outer');
    expect(undoneAll(history)).toEqual(['12', '1', '']);
  });

  it('do not join strokes with what was undone to', () => {
    const history = new History('');
    history.change('1', 'outer');
    history.change('2', 'wall');
    history.undo();
    history.change('3', 'outer');
    expect(undoneAll(history)).toEqual(['3', '1', '']);
  });

  it('have no step for a group that came back to where it began', () => {
    const history = new History('a');
    history.change('b');
    history.change('bc', 'outer');
    history.change('b', 'outer');
    expect(history.canRedo).toBe(false);
    history.change('bd', 'outer');
    expect(undoneAll(history)).toEqual(['bd', 'b', 'a']);
  });

  it('have no step for a change that changes nothing', () => {
    const history = new History('a');
    history.change('a');
    expect(history.canUndo).toBe(false);
    history.change('b');
    history.undo();
    history.change('a');
    expect(history.canRedo).toBe(true);
  });

  it('forget what could be redone with the next own edit, and only then', () => {
    const history = new History('a');
    history.change('b');
    history.undo();
    history.change('c');
    expect(undoneAll(history)).toEqual(['c', 'a']);
  });

  it('lose nothing when a text arrives from outside', () => {
    const history = new History('a');
    history.change('b');
    history.undo();
    history.arrive('from disk');
    expect(undoneAll(history)).toEqual(['from disk', 'b', 'a']);
  });

  it('never reach a text twice in a row, and always lead back to the first', () => {
    const step = fc.oneof(
      fc.record({
        do: fc.constant('change' as const),
        text: fc.constantFrom('a', 'b', 'c'),
        group: fc.constantFrom(undefined, 'x', 'y'),
      }),
      fc.record({ do: fc.constant('arrive' as const), text: fc.constantFrom('a', 'b', 'c') }),
      fc.record({ do: fc.constantFrom('undo' as const, 'redo' as const, 'seal' as const) }),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 30 }), (steps) => {
        const history = new History('a');
        for (const each of steps) {
          if (each.do === 'change') history.change(each.text, each.group);
          else if (each.do === 'arrive') history.arrive(each.text);
          else history[each.do]();
          if (each.do === 'change' || each.do === 'arrive') expect(history.text).toBe(each.text);
        }
        const back = undoneAll(history);
        expect(back.at(-1)).toBe('a');
        for (const [i, text] of back.entries()) expect(text).not.toBe(back[i + 1]);
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});
