import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Finding, isLower } from '../../parts/checks/finding.js';
import { findingsOf as found } from '../../parts/checks/index.js';
import { withValue, withWritten } from '../../parts/machine/edit.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { resolveMachine } from '../../parts/machine/resolve.js';
import { STARTERS, type Starter, starterText } from '../helpers/machines.js';
import { randomMachine } from '../helpers/random-machine.js';

const SEED = 20_261_125;
/** ms: the field of some hundred machines is solved. */
const LONG = 600_000;

function findingsOf(text: string): readonly Finding[] {
  const read = readMachineFile(text, 'm.yaml');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return found(resolveMachine(read.values, read.assumed));
}

/**
 * Writes every trial of every finding into the text and reads it again. The field is solved for each of them.
 * @param known ids whose trials were seen to help already
 * @returns ids of the findings that carry trials
 */
function expectTriesToHelp(text: string, known: ReadonlySet<string> = new Set()): string[] {
  return findingsOf(text).flatMap(({ id, severity, tries }) => {
    if (severity === 'ok') expect(tries, id).toBeUndefined();
    for (const { what, values } of known.has(id) ? [] : (tries ?? [])) {
      expect(what, id).not.toMatch(/NaN|undefined|Infinity|\d\.\d{4,}/);
      const tried = values.reduce((so, { key, value }) => withValue(so, key, value), text);
      const again = findingsOf(tried).find((finding) => finding.id === id);
      if (again)
        expect(isLower(again.severity, severity), `${id}: ${what}; still ${again.severity}`).toBe(true);
    }
    return tries ? [id] : [];
  });
}

type Changes = Readonly<Record<string, readonly string[]>>;

function changedText(name: Starter, changes: Changes): string {
  return Object.entries(changes).reduce(
    (text, [key, items]) => withWritten(text, key, items),
    starterText(name),
  );
}

const A = 'travelling-demonstrator';
const C = 'inch-built';

/** Machines that miss a check, and what the trials of its finding are. */
const MISSES: readonly (readonly [id: string, name: Starter, changes: Changes, what: readonly RegExp[]])[] = [
  ['way/column-outer', C, {}, [/^a tube of \S+ mm \(\S+ in\)$/, /^a tube of/, /^a target of \d+ kV$/]],
  [
    'way/terminal-lip',
    A,
    { 'terminal.opening.lip': ['2'] },
    [/^a bead of \S+ mm radius$/, /^a target of \d+ kV$/],
  ],
  ['way/terminal-to-plate', A, { 'target.voltage': ['300 kV'] }, [/^a tube of|^a target of/]],
  ['target/voltage', A, { 'target.voltage': ['300 kV'] }, [/^a target of \d+ kV$/]],
  ['energy/alone', 'lecture-hall', {}, [/^a target of \d+ kV$/]],
  [
    'belt/room',
    A,
    { 'belt.width': ['54'], 'rollers.lower.length': ['64'], 'rollers.upper.length': ['64'] },
    [/^a belt \S+ mm wide$/],
  ],
  [
    'belt/room-rim-ring',
    A,
    { 'belt.width': ['54'], 'rollers.lower.length': ['64'], 'rollers.upper.length': ['64'] },
    [/^a belt \S+ mm wide$/],
  ],
  ['belt/speed', A, { 'drive.motor.speed': ['9000'] }, [/^a motor of \d+ rpm$/]],
  ['belt/grip', A, { 'belt.stretch': ['2'] }, [/^a stretch of \S+ %$/]],
  ['belt/stretch', A, { 'belt.stretch': ['20'] }, [/^a stretch of 12 %$/]],
  [
    'belt/roller-face-lower',
    A,
    { 'rollers.lower.length': ['50'] },
    [/^a roller of 55 mm$/, /^a belt 40 mm wide$/],
  ],
  [
    'belt/roller-face-upper',
    C,
    { 'rollers.upper.length': ['2.2 in'] },
    [/^a roller of 64 mm/, /with combs that fit it$/],
  ],
  ['belt/comb-width-upper', C, { 'combs.upper.width': ['2'] }, [/^a comb of 47.9 mm/]],
  [
    'belt/charging',
    A,
    { 'rollers.lower.material': ['pom'] },
    [/^a lower roller of ptfe$/, /^a lower roller of nylon$/],
  ],
  ['comb/gap-lower', A, { 'combs.lower.gap': ['1.6'] }, [/^a gap of \S+ mm$/]],
  ['comb/gap-upper-widest', A, { 'combs.upper.gap': ['7.9'] }, [/^a gap of \S+ mm$/]],
  ['comb/gap-lower-set', A, { 'combs.lower.gap': ['1.9'] }, [/^a gap of 2 mm$/]],
  ['lip/upper-metal', A, { 'terminal.insertion': ['10'] }, [/^an insertion of \S+ mm$/]],
  ['lip/tube-clearance', A, { 'terminal.opening.diameter': ['90'] }, [/^an opening of 92.4 mm$/]],
  ['lip/parts-pass', A, { 'terminal.opening.diameter': ['92'] }, [/^an opening of \S+ mm$/]],
  ['clearance/roller-to-bench', A, { 'base.feet': ['50'] }, [/^feet of 66 mm$/]],
  ['clearance/motor-to-bracket', A, { 'drive.motor.body.diameter': ['54'] }, [/^a motor of 52 mm diameter$/]],
  [
    'supply/motor-to-plate',
    A,
    { 'drive.motor.supply': ['400'], 'drive.motor.body.diameter': ['70'] },
    [/^a motor of \S+ mm diameter$/],
  ],
  ['print/walls', A, { 'print.nozzle': ['1'] }, [/^a nozzle of \S+ mm$/]],
  ['wand/length', A, { 'wand.length': ['500'] }, [/^a wand of \S+ mm$/]],
  ['wand/length', C, { 'wand.length': ['20'] }, [/^a wand of \S+ mm \(\S+ in\)$/]],
  ['print/bed-base-collar', A, { 'print.bed.x': ['100'] }, [/^a printer that takes \d+ x \d+ x \d+ mm$/]],
  [
    'print/bed-terminal-seat-leg',
    A,
    { 'terminal.diameter': ['520'] },
    [/^a printer that takes \d+ x \d+ x \d+ mm$/, /^the lip \d+ mm below the tube’s rim$/],
  ],
  ['fit/pilot-on-tube', A, { 'print.calibration.scatter': ['0.2'] }, [/^fit class slide$/]],
  ['fit/rim-ring-in-tube', A, { 'print.calibration.scatter': ['0.3'] }, [/^fit class free$/]],
  ['fit/hub-lower-in-shell', A, { 'print.calibration.scatter': ['0.2'] }, [/^fit class slide$/]],
  ['fit/hub-lower-on-axle', A, { 'print.calibration.scatter': ['0.3'] }, [/^fit class free$/]],
  [
    'fit/bearing-upper-in-hub',
    A,
    { 'print.calibration.scatter': ['0.15'] },
    [/^a scatter of \S+ mm, if that is what the printer measures$/],
  ],
  [
    'fit/collar-on-foot',
    A,
    { 'print.calibration.scatter': ['0.25'] },
    [/^a scatter of 0.20 mm, if that is what the printer measures$/],
  ],
  [
    'strength/tube-squeeze',
    A,
    { 'assume.hand_torque': ['20'], 'assume.friction_low': ['0.02'] },
    [/^a hand’s torque of \S+ N m$/],
  ],
];

describe('trials of a missed check', () => {
  it.each(MISSES)('%s', (id, name, changes, what) => {
    const text = changedText(name, changes);
    const finding = findingsOf(text).find((each) => each.id === id);
    expect(finding?.severity, id).not.toBe('ok');
    const words = (finding?.tries ?? []).map((trial) => trial.what);
    for (const each of what) expect(words).toContainEqual(expect.stringMatching(each));
    expect(expectTriesToHelp(text)).toContain(id);
  });
});

it.each(STARTERS)('%s: every trial helps', (name) => {
  expect(expectTriesToHelp(starterText(name)).length).toBeGreaterThan(0);
});

it(
  `every trial helps, for random machines (seed ${SEED})`,
  () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(randomMachine, ({ text }) => {
        for (const id of expectTriesToHelp(text, seen)) seen.add(id);
      }),
      { seed: SEED, numRuns: 4 },
    );
    expect(seen.size).toBeGreaterThan(3);
  },
  LONG,
);

/** Values that stretch the checks, written into a starter all at once. */
const stretched = fc.record({
  name: fc.constantFrom(...STARTERS),
  changes: fc.record(
    {
      'target.voltage': fc.integer({ min: 50, max: 500 }).map((kilovolts) => [`${kilovolts} kV`]),
      'terminal.insertion': fc.integer({ min: 0, max: 90 }).map((mm) => [`${mm} mm`]),
      'terminal.opening.lip': fc.integer({ min: 1, max: 12 }).map((mm) => [`${mm} mm`]),
      'belt.stretch': fc.integer({ min: 0, max: 30 }).map((percent) => [`${percent}`]),
      'drive.motor.speed': fc.integer({ min: 1000, max: 20_000 }).map((rpm) => [`${rpm}`]),
      'drive.motor.body.diameter': fc.integer({ min: 20, max: 100 }).map((mm) => [`${mm} mm`]),
      'combs.lower.gap': fc.integer({ min: 10, max: 90 }).map((tenths) => [`${tenths / 10} mm`]),
      'base.feet': fc.integer({ min: 40, max: 120 }).map((mm) => [`${mm} mm`]),
      'print.nozzle': fc.constantFrom(['0.4'], ['0.8'], ['1.2']),
      'print.calibration.scatter': fc
        .integer({ min: 0, max: 40 })
        .map((hundredths) => [`${hundredths / 100}`]),
    },
    { requiredKeys: [] },
  ),
});

it(
  `every trial helps, for starters with values that miss the checks (seed ${SEED})`,
  () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(stretched, ({ name, changes }) => {
        const text = changedText(name, changes as Changes);
        fc.pre(readMachineFile(text, 'm.yaml').ok);
        for (const id of expectTriesToHelp(text, seen)) seen.add(id);
      }),
      { seed: SEED, numRuns: 6 },
    );
  },
  LONG,
);
