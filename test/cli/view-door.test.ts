import { readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { expect, it } from 'vitest';
import { sha256 } from '../../cli/files.js';
import { HEADERS } from '../../cli/view-door.js';
import { machineFile, temporaryFolder } from '../helpers/program.js';
import { type Asked, ask, exchange, put, type Reply } from './view-client.js';
import { SCRIPT, STYLE, serverOn } from './view-server-on.js';

// What does not come from the page itself gets nothing: no page, no file, and nothing is written.

const NAMES = ['', 'viewer.js', 'viewer.css', 'changes', 'file'];

async function shown() {
  const path = machineFile(temporaryFolder());
  const text = readFileSync(path, 'utf8');
  const { address, port } = await serverOn(path);
  const key = new URL(address).pathname.slice(1, -1);
  const order = { text: `${text}# changed\n`, base: sha256(Buffer.from(text)) };
  const unchanged = () => expect(readFileSync(path, 'utf8')).toBe(text);
  return { address, port, key, order, unchanged };
}

/** An answer with nothing in it, that no other site can read. */
function expectNothing({ status, headers, body }: Reply, expected: number): void {
  expect(status).toBe(expected);
  expect(body).toBe('');
  expect(headers).toMatchObject(HEADERS);
  expect(
    Object.keys(headers).filter((name) => /^access-control-|^content-type$|^server$/.test(name)),
  ).toEqual([]);
}

const nothing = /^HTTP\/1\.1 40[0-9] [A-Za-z ]+\r\n[\s\S]*\r\n\r\n$/;

it('answers the page itself, with the headers that keep it to itself', async () => {
  const { address, port } = await shown();
  const types = ['text/html', 'text/javascript', 'text/css'];
  for (const [i, name] of ['', 'viewer.js', 'viewer.css'].entries()) {
    for (const host of [`127.0.0.1:${port}`, `localhost:${port}`]) {
      for (const site of ['none', 'same-origin']) {
        const { status, headers } = await ask(address + name, {
          headers: { host, origin: `http://${host}`, 'sec-fetch-site': site },
        });
        expect(status).toBe(200);
        expect(headers).toMatchObject({ ...HEADERS, 'content-type': `${types[i]}; charset=utf-8` });
        expect(Object.keys(headers).join()).not.toContain('access-control');
      }
    }
  }
  expect((await ask(`${address}viewer.js`)).body).toBe(SCRIPT);
  expect((await ask(`${address}viewer.css`)).body).toBe(STYLE);
});

it('has a content policy that lets the page talk to nobody else', () => {
  expect(HEADERS['content-security-policy']).toBe(
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src blob:; style-src 'self' 'unsafe-inline'; " +
      "img-src 'self' blob: data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  );
});

it('answers HEAD like GET, with nothing in it', async () => {
  const { address } = await shown();
  for (const name of ['', 'viewer.js', 'viewer.css']) {
    const [got, head] = [await ask(address + name), await ask(address + name, { method: 'HEAD' })];
    expect(head.status).toBe(200);
    expect(head.body).toBe('');
    const { date: _, ...headers } = got.headers;
    expect(head.headers).toMatchObject(headers);
  }
  const head = await ask(`${address}changes`, { method: 'HEAD' });
  expect(head).toMatchObject({ status: 200, body: '', headers: { 'content-type': 'text/event-stream' } });
});

it('gives nothing to a foreign Host, Origin or site, whatever is asked for', async () => {
  const { address, port, order, unchanged } = await shown();
  const own = `http://127.0.0.1:${port}`;
  const strangers = [
    { host: 'evil.example' },
    { host: `evil.example:${port}` },
    { host: '127.0.0.1' },
    { host: 'localhost' },
    { host: `127.0.0.1:${port + 1}` },
    { host: `127.0.0.1:${port}.evil.example` },
    { host: `[::1]:${port}` },
    { host: `0.0.0.0:${port}` },
    { origin: 'http://evil.example' },
    { origin: 'null' },
    { origin: '' },
    { origin: `https://127.0.0.1:${port}` },
    { origin: 'http://127.0.0.1' },
    { origin: `http://127.0.0.1:${port + 1}` },
    { origin: `${own}.evil.example` },
    { origin: `${own}/` },
    { 'sec-fetch-site': 'cross-site' },
    { 'sec-fetch-site': 'same-site' },
    { 'sec-fetch-site': '' },
    { 'sec-fetch-site': 'same-origin, cross-site' },
  ];
  for (const headers of strangers) {
    for (const name of NAMES) expectNothing(await ask(address + name, { headers }), 403);
    expectNothing(await put(address, order, headers), 403);
    expectNothing(await ask(address, { method: 'OPTIONS', headers }), 403);
  }
  unchanged();
});

it('gives nothing where a Host is missing or said twice', async () => {
  const { port, key } = await shown();
  const own = `Host: 127.0.0.1:${port}\r\n`;
  for (const head of [
    `GET /${key}/ HTTP/1.0\r\n`,
    `GET /${key}/ HTTP/1.1\r\nConnection: close\r\n`,
    `GET /${key}/ HTTP/1.1\r\nConnection: close\r\n${own}Host: evil.example\r\n`,
    `GET /${key}/ HTTP/1.1\r\nConnection: close\r\nHost: evil.example\r\n${own}`,
    `GET /${key}/ HTTP/1.1\r\nConnection: close\r\n${own}Origin: http://127.0.0.1:${port}\r\nOrigin: http://evil.example\r\n`,
  ]) {
    const got = await exchange(port, `${head}\r\n`);
    expect(got, head).toMatch(/^HTTP\/1\.1 403 /);
    expect(got, head).toMatch(nothing);
  }
});

it('knows no way but its own names behind its key', async () => {
  const { address, port, key } = await shown();
  const off = (key.startsWith('0') ? '1' : '0') + key.slice(1);
  const last = key.slice(0, -1) + (key.endsWith('0') ? '1' : '0');
  const paths = [
    '/',
    '//',
    `/${key}`,
    `//${key}/`,
    `/${key}//`,
    `/${key}/../`,
    `/${key}/./`,
    `/${key}/../${key}/`,
    `/${key}/%2e%2e/`,
    `/${key}/%2e%2e%2f%2e%2e%2fetc%2fpasswd`,
    `/${key}/..%2f..%2fetc/passwd`,
    `/${key}/../../../../etc/passwd`,
    `/${key}/viewer.js/..`,
    `/${key}/viewer.js/`,
    `/${key}/viewer.js%00`,
    `/${key}/viewer%2ejs`,
    `/${key}/VIEWER.JS`,
    `/${key}/viewer.js?`,
    `/${key}/?x=1`,
    `/${key}/\\..\\machine.yaml`,
    `/${key}/machine.yaml`,
    `/${key}/page.html`,
    `/${key}/__proto__`,
    `/${key}/constructor`,
    `/${key.toUpperCase()}/viewer.js`.replace(key, 'A'.repeat(32)),
    `/${off}/`,
    `/${last}/`,
    `/${key.slice(0, -1)}/`,
    `/${key}0/`,
    `/${key.slice(0, -1)}/0`,
    `/%${key.charCodeAt(0).toString(16)}${key.slice(1)}/`,
    '*',
    `http://127.0.0.1:${port}/${key}/`,
    `http://evil.example/${key}/`,
    `https://evil.example:443/${key}/viewer.js`,
  ];
  for (const path of paths) {
    for (const method of ['GET', 'PUT', 'POST', 'OPTIONS']) {
      expectNothing(
        await ask(address, { method, path, headers: { origin: `http://127.0.0.1:${port}` } }),
        404,
      );
    }
  }
});

it('does not answer what is no HTTP', async () => {
  const { port, key, address } = await shown();
  const own = `Host: 127.0.0.1:${port}\r\n`;
  for (const text of [
    `GET /${key}/\0 HTTP/1.1\r\n${own}\r\n`,
    `GET /${key}/\0viewer.js HTTP/1.1\r\n${own}\r\n`,
    `GET etc/passwd HTTP/1.1\r\n${own}\r\n`,
    `GET ;/${key}/ HTTP/1.1\r\n${own}\r\n`,
    `GET /${key}/ HTTP/9.9\r\n${own}\r\n`,
    `GET /${key}/ HTTP/1.1\r\n${own}X: ${'x'.repeat(70_000)}\r\n\r\n`,
    `PUT /${key}/file HTTP/1.1\r\n${own}Content-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n`,
    `CONNECT evil.example:443 HTTP/1.1\r\n${own}\r\n`,
    '\x16\x03\x01\x00\xa5\x01\x00\x00\xa1\x03\x03',
    'hello\r\n\r\n',
  ]) {
    expect(await exchange(port, text), text.slice(0, 60)).toBe('');
  }
  expect((await ask(address)).status).toBe(200);
});

it('knows no other methods', async () => {
  const { address, port, order, unchanged } = await shown();
  const origin = `http://127.0.0.1:${port}`;
  const send = (name: string, asked: Asked) =>
    ask(address + name, {
      body: JSON.stringify(order),
      ...asked,
      headers: { origin, 'content-type': 'application/json' },
    });
  for (const method of ['POST', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE', 'PROPFIND']) {
    for (const name of NAMES) {
      const reply = await send(name, { method });
      expectNothing(reply, 405);
      expect(reply.headers.allow).toBe(name === 'file' ? 'PUT' : 'GET, HEAD');
    }
  }
  for (const name of NAMES.slice(0, 4)) expectNothing(await send(name, { method: 'PUT' }), 405);
  expectNothing(await ask(`${address}file`), 405);
  expectNothing(await ask(`${address}file`, { method: 'HEAD' }), 405);
  unchanged();
});

it('takes no form, and no save without an Origin', async () => {
  const { address, order, unchanged } = await shown();
  for (const type of [
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data; boundary=x',
    'application/json+x',
    'text/plain, application/json',
    'application/json; charset=utf-16',
    '',
  ]) {
    expectNothing(await put(address, order, { 'content-type': type }), 415);
  }
  const body = JSON.stringify(order);
  const headers = { 'content-type': 'application/json' };
  expectNothing(await ask(`${address}file`, { method: 'PUT', headers, body }), 403);
  expectNothing(await put(address, order, { expect: '100-continue' }), 417);
  unchanged();
});

it('takes no body that is too long, and reads none that does not end', async () => {
  const { address, port, key, order, unchanged } = await shown();
  const pad = (length: number) =>
    JSON.stringify({ ...order, pad: '' }).replace('"pad":""', `"pad":"${'x'.repeat(length)}"`);
  const rest = pad(0).length;
  expectNothing(await put(address, pad(600 * 1024 - rest + 1)), 413);
  // Of the largest size it is read, and then found to hold a key too many.
  expect((await put(address, pad(600 * 1024 - rest))).status).toBe(400);
  expectNothing(await put(address, pad(3 * 1024 * 1024)), 413);
  const head = `PUT /${key}/file HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nOrigin: http://127.0.0.1:${port}\r\nContent-Type: application/json\r\n`;
  expect(await exchange(port, `${head}Content-Length: 99999999\r\n\r\n${'x'.repeat(17 * 1024 * 1024)}`)).toBe(
    '',
  );
  expect((await ask(address)).status).toBe(200);
  unchanged();
});

it('lets go of requests that never end, and answers others meanwhile', { timeout: 60_000 }, async () => {
  const { address, port, key, unchanged } = await shown();
  const own = `Host: 127.0.0.1:${port}\r\n`;
  const slow = [
    exchange(port, `GET /${key}/ HTTP/1.1\r\n${own}`),
    exchange(
      port,
      `PUT /${key}/file HTTP/1.1\r\n${own}Origin: http://127.0.0.1:${port}\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{"text`,
    ),
  ];
  expect((await ask(address)).status).toBe(200);
  expect(await Promise.all(slow)).toEqual(['', '']);
  expect((await ask(address)).status).toBe(200);
  unchanged();
});

it('can be reached on the loopback address alone', async () => {
  const { port } = await shown();
  const reached = (host: string) =>
    new Promise<string>((resolve) => {
      const socket = connect(port, host, () => {
        socket.destroy();
        resolve('reached');
      });
      socket.on('error', (error: NodeJS.ErrnoException) => resolve(error.code ?? ''));
    });
  expect(await reached('127.0.0.1')).toBe('reached');
  const own = Object.values(networkInterfaces()).flatMap((each) => each ?? []);
  const others = own.filter(({ address, scopeid }) => address !== '127.0.0.1' && !scopeid);
  for (const { address } of others) expect(await reached(address), address).not.toBe('reached');
  // On Linux this is another address of every machine.
  expect(await reached('127.0.0.2')).not.toBe('reached');
});

it('has another key each time, too long to guess', async () => {
  const [a, b] = [await shown(), await shown()];
  expect(a.key).toMatch(/^[0-9a-f]{32}$/);
  expect(a.key).not.toBe(b.key);
});
