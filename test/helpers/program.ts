import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished } from 'vitest';
import { type Starter, starterText } from './machines.js';

/** The launcher: tests run the built program as its users do. */
export const LAUNCHER = fileURLToPath(new URL('../../cli/tubewright.js', import.meta.url));
const PROGRAM = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

/** Parts and unfinished files of the longest `make` take a few seconds; a loaded machine takes its time. */
export const SLOW = 120_000;

export interface Outcome {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the program to its end. */
export function tubewright(args: readonly string[], environment: NodeJS.ProcessEnv = {}): Outcome {
  return run(process.execPath, [mustBeBuilt(), ...args], environment);
}

/** Runs the program in a shell that was told something first, such as a limit. `"$@"` stands for the program. */
export function tubewrightIn(script: string, args: readonly string[]): Outcome {
  return run('bash', ['-c', script, 'bash', process.execPath, mustBeBuilt(), ...args], {});
}

function run(command: string, args: readonly string[], environment: NodeJS.ProcessEnv): Outcome {
  const { status, stdout, stderr } = spawnSync(command, args, {
    encoding: 'utf8',
    env: { ...process.env, NO_COLOR: undefined, FORCE_COLOR: undefined, ...environment },
  });
  return { status, stdout, stderr };
}

/** Starts the program and lets it run. */
export function start(args: readonly string[]): {
  readonly child: ChildProcess;
  readonly ended: Promise<Outcome>;
} {
  const child = spawn(process.execPath, [mustBeBuilt(), ...args]);
  let [stdout, stderr] = ['', ''];
  child.stdout.on('data', (chunk) => {
    stdout += chunk;
  });
  child.stderr.on('data', (chunk) => {
    stderr += chunk;
  });
  const ended = new Promise<Outcome>((resolve) => {
    child.on('close', (status) => resolve({ status, stdout, stderr }));
  });
  return { child, ended };
}

function mustBeBuilt(): string {
  if (!existsSync(PROGRAM)) throw new Error('the program is not built: node cli/setup.js');
  return LAUNCHER;
}

/** A folder of its own for one test, gone afterwards. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'tubewright-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A starter as a file in a folder, with its text changed first where a test wants another machine. */
export function machineFile(
  folder: string,
  starter: Starter = 'travelling-demonstrator',
  change: (text: string) => string = (text) => text,
): string {
  const path = join(folder, 'machine.yaml');
  writeFileSync(path, change(starterText(starter)));
  return path;
}

/** Another text in place of one that must be there. */
export function swap(from: string, to: string): (text: string) => string {
  return (text) => {
    if (!text.includes(from)) throw new Error(`"${from}" is not in the machine file`);
    return text.replace(from, to);
  };
}

/** Names, bytes and times of what is in a folder. */
export function contentsOf(
  folder: string,
): Record<string, { readonly bytes: string; readonly time: number }> {
  return Object.fromEntries(
    readdirSync(folder)
      .sort()
      .map((name) => {
        const path = join(folder, name);
        return [name, { bytes: readFileSync(path).toString('base64'), time: statSync(path).mtimeMs }];
      }),
  );
}

export function bytesOf(folder: string): Record<string, string> {
  return Object.fromEntries(Object.entries(contentsOf(folder)).map(([name, { bytes }]) => [name, bytes]));
}
