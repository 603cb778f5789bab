import { describe, expect, it } from 'vitest';
import type { Finding } from '../../parts/index.js';
import { outcomeInWords } from '../../viewer/panels/outcome.js';
import { itemBeside, pinItems, spanItems } from '../../viewer/rail/items.js';
import type { DressedMesh, MachineView, PieceView } from '../../viewer/worker/messages.js';

/** A mesh that reaches from one height to another in its own frame: the rail looks at corners only. */
function reaching(low: number, high: number): DressedMesh {
  const positions = Float32Array.from([0, 0, low, 10, 0, low, 0, 10, high]);
  return {
    mesh: { positions, triangles: Uint32Array.from([0, 1, 2]) },
    surfaces: { of: new Uint32Array(1), normals: new Float32Array(9), edges: new Float32Array(0) },
  };
}

function piece(id: string, title: string, key: string, move: readonly [number, number, number]): PieceView {
  const placement = { turn: [0, 0, 0], move } as PieceView['placement'];
  return { id, of: id, title, material: 'petg', printed: true, key, step: 1, placement, moves: [] };
}

function finding(id: string, severity: Finding['severity'], at?: Finding['at']): Finding {
  return {
    id,
    severity,
    title: `Title of ${id}`,
    measured: 241,
    required: 338,
    unit: 'kV',
    sense: 'min',
    margin: -0.29,
    basis: 'textbook',
    status: 'computed',
    remedy: '',
    ...(at && { at }),
  };
}

const meshes = new Map([
  ['a', reaching(0, 100)],
  ['b', reaching(0, 20)],
]);
const machine = {
  pieces: [
    piece('tube', 'tube', 'a', [0, 0, 5]),
    piece('hub#1', 'hub', 'b', [0, 30, 40]),
    piece('hub#2', 'hub', 'b', [0, -30, 40]),
    piece('hub#3', 'hub', 'b', [0, 0, 80]),
  ],
  findings: [
    finding('way/outer', 'danger', {
      path: [
        [0, 0, 90],
        [0, 0, 10],
      ],
      surfaces: ['lip', 'stud'],
    }),
    finding('lip', 'caution', { point: [54, 0, 95] }),
    finding('nowhere', 'caution'),
  ],
} as unknown as MachineView;

describe('items of the rail', () => {
  const spans = spanItems(machine, meshes, 'mm');
  const pins = pinItems(machine, 'mm');

  it('reach from the lowest to the highest point of each piece where it stands; copies at one height are one', () => {
    expect(spans.map(({ name }) => name)).toEqual([
      'hub, 80 to 100 mm',
      'tube, 5 to 105 mm',
      'hub ×2, 40 to 60 mm',
    ]);
    expect(spans[2]!.pieces.map(({ id }) => id)).toEqual(['hub#1', 'hub#2']);
  });

  it('leave out a piece that has no mesh yet', () => {
    expect(spanItems(machine, new Map([['a', reaching(0, 100)]]), 'mm').map(({ title }) => title)).toEqual([
      'tube',
    ]);
  });

  it('have the findings that have a place, a way from its lowest to its highest', () => {
    expect(pins.map(({ name }) => name)).toEqual([
      'caution: Title of lip, at 95 mm',
      'danger: Title of way/outer, at 10 to 90 mm',
    ]);
    expect(pins[1]!.stretch).toEqual({ low: 10, high: 90 });
  });

  it('are told in inches where the machine is', () => {
    expect(pinItems(machine, 'in')[0]!.name).toBe('caution: Title of lip, at 3.7 in');
  });

  it('follow one another by height, and across to what lies nearest', () => {
    const items = [...spans, ...pins];
    const [top, tube, low] = spans as [(typeof spans)[0], (typeof spans)[0], (typeof spans)[0]];
    expect(itemBeside(items, top, 'ArrowDown')).toBe(tube);
    expect(itemBeside(items, top, 'ArrowUp')).toBe(top);
    expect(itemBeside(items, low, 'ArrowDown')).toBe(low);
    expect(itemBeside(items, top, 'End')).toBe(low);
    expect(itemBeside(items, low, 'Home')).toBe(top);
    expect(itemBeside(items, top, 'ArrowRight')).toBe(pins[0]);
    expect(itemBeside(items, low, 'ArrowRight')).toBe(pins[1]);
    expect(itemBeside(items, pins[0]!, 'ArrowLeft')).toBe(top);
    expect(itemBeside(items, top, 'ArrowLeft')).toBe(top);
    expect(itemBeside(spans, top, 'ArrowRight')).toBe(top);
  });
});

describe('outcome of a remedy', () => {
  const before = finding('way/outer', 'danger');
  it('says what became of the finding', () => {
    expect(outcomeInWords(before, [])).toBe('way/outer: no longer arises');
    expect(outcomeInWords(before, [{ ...before, severity: 'caution' }])).toBe('way/outer: danger -> caution');
    expect(outcomeInWords(before, [{ ...before, measured: 300 }])).toBe(
      'way/outer: still danger, now 300 kV, at least 338',
    );
  });
});
