import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { basename } from 'node:path';
import type { FileState, FileWord, LedgerWord } from '../parts/index.js';
import { EventStreams } from './event-streams.js';
import { OutputError } from './exit.js';
import { reason } from './files.js';
import { HEADERS, isFromHere, isJson, mayChange, nameBehind } from './view-door.js';
import { fileWord, ledgerWord, save } from './view-file.js';
import { type PageFiles, pageWith } from './view-page.js';
import { WatchedFile } from './watch-file.js';

/** The address of this machine that no other machine can reach. */
const LOOPBACK = '127.0.0.1';
/** What a save may send, bytes: a machine file of the largest size, written as JSON. */
const MOST_BODY = 600 * 1024;
/** A longer body is read to its end for the sake of an answer that arrives; beyond this it is cut off (bytes). */
const MOST_DROPPED = 16 * 1024 * 1024;
/** For all of a request's head, and for all of it (ms): this machine sends it at once or never. */
const HEAD_WITHIN = 5_000;
const REQUEST_WITHIN = 10_000;
/** A connection on which nothing moves is closed (ms); the heartbeat keeps the pages' open. */
const SILENT_FOR = 60_000;
const MOST_CONNECTIONS = 128;

const JSON_TYPE = 'application/json; charset=utf-8';

/** What is shown. */
export interface Shown {
  /** The machine file. */
  readonly path: string;
  /** As it was when it was opened. */
  readonly state: FileState;
  readonly ledgerPath: string;
  readonly page: PageFiles;
}

type Handler = (request: IncomingMessage, response: ServerResponse) => void | Promise<void>;
type Method = 'GET' | 'PUT';

/** Shows a page on the loopback address, follows file and ledger, and saves the file when the page asks. */
export class ViewServer {
  private readonly key = randomBytes(16).toString('hex');
  private readonly server: Server;
  private readonly streams = new EventStreams();
  private readonly file: WatchedFile<FileWord>;
  private readonly ledger: WatchedFile<LedgerWord>;
  /** What the page begins with while the file is gone. */
  private lastState: FileState;

  /** Everything there is to ask for, by its name behind the key. Nothing leads to the disk by a name. */
  private readonly table: Readonly<Record<string, Partial<Record<Method, Handler>>>> = {
    '': { GET: (_, response) => send(response, 200, 'text/html; charset=utf-8', this.page()) },
    'viewer.js': {
      GET: (_, response) => send(response, 200, 'text/javascript; charset=utf-8', this.shown.page.script),
    },
    'viewer.css': {
      GET: (_, response) => send(response, 200, 'text/css; charset=utf-8', this.shown.page.style),
    },
    changes: { GET: (request, response) => this.tellChanges(request, response) },
    file: { PUT: (request, response) => this.saveFile(request, response) },
  };

  private constructor(private readonly shown: Shown) {
    this.lastState = shown.state;
    this.server = createServer({
      headersTimeout: HEAD_WITHIN,
      requestTimeout: REQUEST_WITHIN,
      connectionsCheckingInterval: 1_000,
      // A request without a Host is refused like one with a foreign Host.
      requireHostHeader: false,
    });
    this.server.maxConnections = MOST_CONNECTIONS;
    this.server.timeout = SILENT_FOR;
    const answer = (request: IncomingMessage, response: ServerResponse) => {
      this.answer(request, response).catch((fault: unknown) => {
        console.error('This is a fault of tubewright, please report it:\n', fault);
        if (response.headersSent) response.destroy();
        else refuse(response, 500);
      });
    };
    for (const event of ['request', 'checkContinue', 'checkExpectation']) this.server.on(event, answer);
    // What is no HTTP gets no answer at all.
    this.server.on('clientError', (_, socket) => socket.destroy());
    this.file = new WatchedFile(
      () => fileWord(shown.path),
      (word) => this.streams.send('file', word),
    );
    this.ledger = new WatchedFile(
      () => ledgerWord(shown.ledgerPath),
      (word) => this.streams.send('ledger', word),
    );
  }

  /** Begins to serve on a free port. @throws OutputError when the system gives none */
  static async start(shown: Shown): Promise<ViewServer> {
    const view = new ViewServer(shown);
    try {
      await new Promise<void>((resolve, reject) => {
        view.server.once('error', reject);
        view.server.listen(0, LOOPBACK, resolve);
      });
    } catch (error) {
      await view.stop();
      throw new OutputError(`nothing can be shown on ${LOOPBACK}: ${reason(error)}`);
    }
    return view;
  }

  get port(): number {
    return (this.server.address() as AddressInfo).port;
  }

  /** What to open; who does not know it gets nothing. */
  get address(): string {
    return `http://${LOOPBACK}:${this.port}/${this.key}/`;
  }

  /** Ends the open pages' streams and closes every connection. */
  async stop(): Promise<void> {
    this.file.stop();
    this.ledger.stop();
    this.streams.end();
    const closed = new Promise<void>((resolve) => this.server.close(() => resolve()));
    this.server.closeAllConnections();
    await closed;
  }

  private async answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (!isFromHere(request, this.port)) return refuse(response, 403);
    const name = nameBehind(this.key, request.url ?? '');
    if (name === undefined || !Object.hasOwn(this.table, name)) return refuse(response, 404);
    const handlers = this.table[name]!;
    const method = request.method === 'HEAD' ? 'GET' : request.method;
    const handler = method === 'GET' || method === 'PUT' ? handlers[method] : undefined;
    if (!handler) {
      const allowed = Object.keys(handlers).flatMap((each) => (each === 'GET' ? ['GET', 'HEAD'] : [each]));
      response.setHeader('allow', allowed.join(', '));
      return refuse(response, 405);
    }
    if (request.headers.expect !== undefined) return refuse(response, 417);
    await handler(request, response);
  }

  /** As things are on disk now; the last that could be read while the file is gone. */
  private page(): string {
    const word = this.file.look();
    if ('sha256' in word) this.lastState = word;
    const { ledger } = this.ledger.look();
    const file = basename(this.shown.path);
    return pageWith(this.shown.page, { file, ...this.lastState, ledger, served: true });
  }

  private tellChanges(request: IncomingMessage, response: ServerResponse): void {
    if (this.streams.isFull) {
      refuse(response, 503);
      return;
    }
    response.writeHead(200, { ...HEADERS, 'content-type': 'text/event-stream' });
    if (request.method === 'HEAD') {
      response.end();
      return;
    }
    this.streams.add(response, [
      ['file', this.file.look()],
      ['ledger', this.ledger.look()],
    ]);
  }

  private async saveFile(request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (!mayChange(request)) return refuse(response, 403);
    if (!isJson(request)) return refuse(response, 415);
    const body = await bodyOf(request);
    if (body === 'broken off') return;
    if (body === 'too long') return refuse(response, 413);
    const { status, body: told } = save(this.shown.path, body);
    send(response, status, JSON_TYPE, JSON.stringify(told));
    this.file.look();
  }
}

async function bodyOf(request: IncomingMessage): Promise<Buffer | 'too long' | 'broken off'> {
  const { socket } = request;
  const chunks: Buffer[] = [];
  let size = 0;
  try {
    for await (const chunk of request as AsyncIterable<Buffer>) {
      size += chunk.length;
      if (size <= MOST_BODY) chunks.push(chunk);
      else chunks.length = 0;
      if (size > MOST_DROPPED) break;
    }
  } catch {
    return 'broken off';
  }
  if (size > MOST_DROPPED) {
    socket.destroy();
    return 'broken off';
  }
  return size > MOST_BODY ? 'too long' : Buffer.concat(chunks);
}

/** Nothing in the body: a refusal explains itself to nobody. */
function refuse(response: ServerResponse, status: number): void {
  response.writeHead(status, { ...HEADERS, 'content-length': 0 }).end();
}

function send(response: ServerResponse, status: number, type: string, content: string | Uint8Array): void {
  const bytes = Buffer.from(content as Uint8Array);
  response.writeHead(status, { ...HEADERS, 'content-type': type, 'content-length': bytes.length }).end(bytes);
}
