import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { CAUTIONS, DISCHARGE, keysTable } from '../../parts/index.js';

// The README is what a newcomer follows: its commands are run, and what it says they print is held against what they print.

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const README = join(ROOT, 'README.md');
const text = readFileSync(README, 'utf8');

const written: Readonly<Record<string, string>> = {
  keys: keysTable(),
  cautions: CAUTIONS.map((line) => `- ${line}`).join('\n'),
  discharge: DISCHARGE.map((line, i) => `${i + 1}. ${line}`).join('\n'),
};

/** The README with the parts that follow from the code put in. `README_WRITE=1 npx vitest …` writes it. */
function filled(): string {
  return Object.entries(written).reduce(
    (all, [name, body]) =>
      all.replace(
        new RegExp(`<!-- ${name} -->[\\s\\S]*?<!-- /${name} -->`),
        () => `<!-- ${name} -->\n${body.trim()}\n<!-- /${name} -->`,
      ),
    text,
  );
}

interface Run {
  readonly command: string;
  readonly expected: readonly string[];
}

/** Commands of the console blocks, in order, each with the lines said to follow; `...` stands for any. */
function consoleRuns(): Run[] {
  const blocks = [...text.matchAll(/```console\n([\s\S]*?)```/g)].map((match) => match[1]!);
  return blocks.flatMap((block) =>
    block
      .split(/^\$ /m)
      .slice(1)
      .map((part) => {
        const [command, ...expected] = part.trimEnd().split('\n');
        return { command: command!, expected };
      }),
  );
}

const folder = mkdtempSync(join(tmpdir(), 'tubewright-readme-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(command: string): string {
  const program = `"${process.execPath}" "${join(ROOT, 'cli', 'tubewright.js')}"`;
  const { stdout, stderr, status } = spawnSync('bash', ['-c', command.replace(/^npx tubewright/, program)], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect(status, `${command}\n${stderr}`).toBe(0);
  return stdout;
}

describe('the README', () => {
  it('opens with the job in one paragraph', () => {
    const [title, job] = text.split('\n\n');
    expect(title).toBe('# Tubewright');
    expect(job!.length).toBeGreaterThan(300);
    expect(job).not.toMatch(/^[#|-]/m);
  });

  it('has the keys, cautions and discharge steps that the code has', () => {
    if (process.env.README_WRITE) writeFileSync(README, filled());
    else expect(text).toBe(filled());
  });

  it('names scripts that exist', () => {
    const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
    const named = [...text.matchAll(/npm (?:run )?(demo|test|bench)\b/g)].map((match) => match[1]!);
    expect(named).toContain('demo');
    for (const name of named) expect(Object.keys(scripts)).toContain(name);
  });

  it.each(consoleRuns().map((each) => [each.command, each] as const))('$ %s', (command, { expected }) => {
    const lines = run(command)
      .split('\n')
      .map((line) => line.trimEnd());
    let at = 0;
    let free = false;
    for (const line of expected) {
      if (line.trim() === '...') {
        free = true;
        continue;
      }
      const found = free ? lines.indexOf(line.trimEnd(), at) : at;
      expect(lines[found] ?? '(nothing)', `after "${lines[at - 1] ?? ''}"`).toBe(line.trimEnd());
      at = found + 1;
      free = false;
    }
  });

  it('makes the first demo machine by the one command it names', {
    timeout: 120_000,
  }, () => {
    const { stdout, status } = spawnSync('npm', ['run', 'demo'], {
      cwd: ROOT,
      encoding: 'utf8',
    });
    expect(status).toBe(0);
    for (const heading of ['Predicted', 'Findings', 'Parts', 'Cautions']) expect(stdout).toContain(heading);
  });
});
