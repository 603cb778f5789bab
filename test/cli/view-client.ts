import { spawn } from 'node:child_process';
import { type IncomingHttpHeaders, type IncomingMessage, type OutgoingHttpHeaders, request } from 'node:http';
import { connect } from 'node:net';
import { onTestFinished } from 'vitest';
import { LAUNCHER, type Outcome } from '../helpers/program.js';

// The other side of the page's address: a browser's requests, and those no browser would send.

export interface Reply {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

export interface Asked {
  readonly method?: string;
  /** Sent letter by letter, whatever it holds; else the address's own. */
  readonly path?: string;
  readonly headers?: OutgoingHttpHeaders;
  readonly body?: string | Uint8Array;
}

/** Sends one request on a connection of its own. */
export function ask(address: string, { method, path, headers, body }: Asked = {}): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const sent = request(address, {
      agent: false,
      ...(method !== undefined && { method }),
      ...(path !== undefined && { path }),
      ...(headers && { headers }),
    });
    sent.on('error', reject);
    sent.on('response', async (answer) => {
      let text = '';
      answer.setEncoding('utf8').on('error', reject);
      for await (const chunk of answer) text += chunk;
      resolve({ status: answer.statusCode!, headers: answer.headers, body: text });
    });
    sent.end(body);
  });
}

/** Saves as the page does. */
export function put(address: string, order: unknown, headers: OutgoingHttpHeaders = {}): Promise<Reply> {
  return ask(`${address}file`, {
    method: 'PUT',
    headers: { origin: new URL(address).origin, 'content-type': 'application/json', ...headers },
    body: typeof order === 'string' ? order : JSON.stringify(order),
  });
}

/** Sends bytes as they are and gives back all that came until the other side closed. */
export function exchange(port: number, text: string): Promise<string> {
  return new Promise((resolve) => {
    let got = '';
    const socket = connect(port, '127.0.0.1', () => socket.write(text));
    socket.setEncoding('latin1').on('data', (chunk) => {
      got += chunk;
    });
    // A connection that was cut has told what it had to tell.
    socket.on('error', () => {});
    socket.on('close', () => resolve(got));
  });
}

/** What the page begins with. */
export function startOf(page: string): Record<string, unknown> {
  const found = /<script type="application\/json" id="start">([^<]*)<\/script>/.exec(page);
  if (!found) throw new Error(`no start in ${page}`);
  return JSON.parse(found[1]!);
}

export interface Told {
  readonly event: string;
  readonly word: Record<string, unknown>;
}

/** An open page's stream of what happens. */
export class Changes {
  private readonly told: Told[] = [];
  private wake: () => void = () => {};
  /** Resolves with whether the stream ended in good order. */
  readonly ended: Promise<boolean>;

  private constructor(answer: IncomingMessage) {
    let text = '';
    answer.setEncoding('utf8').on('data', (chunk) => {
      text += chunk;
      const blocks = text.split('\n\n');
      text = blocks.pop()!;
      for (const block of blocks) this.take(block);
    });
    this.ended = new Promise((resolve) => {
      answer.on('end', () => resolve(true));
      answer.on('error', () => resolve(false));
    });
  }

  static open(address: string): Promise<Changes> {
    return new Promise((resolve, reject) => {
      const sent = request(`${address}changes`, { agent: false }, (answer) => resolve(new Changes(answer)));
      sent.on('error', reject).end();
      onTestFinished(() => {
        sent.destroy();
      });
    });
  }

  /** The next word not yet taken, waited for. */
  async next(): Promise<Told> {
    while (this.told.length === 0) {
      await new Promise<void>((resolve) => {
        this.wake = resolve;
      });
    }
    return this.told.shift()!;
  }

  private take(block: string): void {
    // A line that begins with a colon is a comment: it keeps the connection alive.
    if (block.startsWith(':')) return;
    const found = /^event: (\w+)\ndata: (.*)$/.exec(block);
    if (!found) throw new Error(`no event: ${block}`);
    this.told.push({ event: found[1]!, word: JSON.parse(found[2]!) });
    this.wake();
  }
}

export interface Running {
  readonly address: string;
  readonly port: number;
  readonly ended: Promise<Outcome>;
  /** What it has said so far. */
  said(): Outcome;
  stop(signal?: NodeJS.Signals): Promise<Outcome>;
}

/**
 * Starts `view` and waits for its address.
 * @param before what a shell is told first, such as a limit
 */
export async function viewing(
  args: readonly string[],
  { env = {}, before }: { readonly env?: NodeJS.ProcessEnv; readonly before?: string } = {},
): Promise<Running> {
  const program = [process.execPath, LAUNCHER, 'view', ...args];
  const [command, ...rest] = before
    ? ['/bin/bash', '-c', `${before}; exec "$@"`, 'bash', ...program]
    : program;
  const child = spawn(command!, rest, { env: { ...process.env, ...env } });
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  let [stdout, stderr] = ['', ''];
  const said = (): Outcome => ({ status: child.exitCode, stdout, stderr });
  child.stderr.setEncoding('utf8').on('data', (chunk) => {
    stderr += chunk;
  });
  const ended = new Promise<Outcome>((resolve) => {
    child.on('close', () => resolve(said()));
  });
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout.setEncoding('utf8').on('data', (chunk) => {
      stdout += chunk;
      const found = /http:\/\/[^\s"]+/.exec(stdout);
      if (found && stdout.endsWith('\n')) resolve(found[0]);
    });
    child.on('close', () => reject(new Error(`it ended: ${stderr}`)));
  });
  const stop = (signal: NodeJS.Signals = 'SIGTERM') => {
    child.kill(signal);
    return ended;
  };
  return { address, port: Number(new URL(address).port), ended, said, stop };
}
