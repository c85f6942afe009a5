/** The loopback host over real sockets: who gets in, what is served, and how it closes. */

import { type IncomingHttpHeaders, request } from 'node:http';
import { connect } from 'node:net';
import fc from 'fast-check';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { type LoopbackHost, startLoopbackHost } from '../../../electron/loopback/loopback-host.ts';
import { BODY_LIMIT_BYTES } from '../../../electron/loopback/read-body.ts';
import { readPageFiles } from '../../../electron/page/page-files.ts';
import { hostilePath } from '../page/hostile-paths.ts';
import { makePageFolder, PAGE_HTML } from '../page/page-folder.ts';

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

interface Asked {
  readonly method?: string;
  readonly path?: string;
  readonly headers?: Record<string, string>;
  readonly body?: string | Buffer;
}

let host: LoopbackHost;
let heard: { name: string; request: unknown }[] = [];
let answerWith: (name: string, request: unknown) => Promise<unknown> = async () => ({ ok: true, value: {} });

const files = readPageFiles(makePageFolder());
const calls = {
  call(name: string, asked: unknown) {
    heard.push({ name, request: asked });
    return answerWith(name, asked);
  },
};

beforeAll(async () => {
  host = await startLoopbackHost({ files, calls });
});
afterAll(() => host.close());
beforeEach(() => {
  heard = [];
});

function ask({ method = 'GET', path = '/', headers = {}, body }: Asked): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request({ host: '127.0.0.1', port: host.port, method, path, headers, agent: false }, (answer) => {
      const parts: Buffer[] = [];
      answer.on('data', (part: Buffer) => parts.push(part));
      answer.on('end', () =>
        resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body: Buffer.concat(parts).toString() }),
      );
    });
    asked.on('error', reject);
    asked.end(body);
  });
}

function callHeaders(changed: Record<string, string> = {}): Record<string, string> {
  return {
    host: `127.0.0.1:${host.port}`,
    origin: `http://127.0.0.1:${host.port}`,
    'content-type': 'application/json',
    'x-evenrun-token': host.token,
    ...changed,
  };
}

const post = (changed: Record<string, string> = {}, body: string | Buffer = '{}', path = '/bridge/start') =>
  ask({ method: 'POST', path, headers: callHeaders(changed), body });

function without(name: string): Record<string, string> {
  const { [name]: _dropped, ...rest } = callHeaders();
  return rest;
}

test('the address names this machine only and carries the token behind the hash', () => {
  expect(host.address).toBe(`http://127.0.0.1:${host.port}/#token=${host.token}`);
  expect(Buffer.from(host.token, 'base64url')).toHaveLength(32);
});

test('a call from the page is passed on as it is and answered as it comes', async () => {
  answerWith = async () => ({ ok: true, value: { words: 'ß 3/16″' } });
  const answer = await post({}, '{"place":"bench"}', '/bridge/listHeaders');
  expect(heard).toEqual([{ name: 'listHeaders', request: { place: 'bench' } }]);
  expect(answer.status).toBe(200);
  expect(JSON.parse(answer.body)).toEqual({ ok: true, value: { words: 'ß 3/16″' } });
  expect(answer.headers).toMatchObject({
    'content-type': 'application/json; charset=utf-8',
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
  });
});

test.each([
  ['a wrong token', { 'x-evenrun-token': 'x'.repeat(43) }, 401],
  ['an empty token', { 'x-evenrun-token': '' }, 401],
  ['another origin', { origin: 'https://evil.example' }, 403],
  ['a look-alike origin', { origin: 'http://127.0.0.1.evil.example' }, 403],
  ['an origin on another port', { origin: 'http://127.0.0.1:1' }, 403],
  ['a null origin', { origin: 'null' }, 403],
  ['another site, as browsers tell', { 'sec-fetch-site': 'cross-site' }, 403],
  ['another host name', { host: 'evil.example' }, 421],
  ['localhost by name', { host: 'localhost' }, 421],
  ['the bare address without its port', { host: '127.0.0.1' }, 421],
  ['a form', { 'content-type': 'application/x-www-form-urlencoded' }, 415],
  ['plain text', { 'content-type': 'text/plain' }, 415],
])('a call with %s is refused and not passed on', async (_what, changed: Record<string, string>, status) => {
  expect((await post(changed)).status).toBe(status);
  expect(heard).toEqual([]);
});

test.each([
  ['x-evenrun-token', 401],
  ['origin', 403],
  ['content-type', 415],
])('a call without %s is refused and not passed on', async (name, status) => {
  const answer = await ask({ method: 'POST', path: '/bridge/start', headers: without(name), body: '{}' });
  expect(answer.status).toBe(status);
  expect(heard).toEqual([]);
});

test('a token almost right is wrong', async () => {
  const last = host.token.endsWith('A') ? 'B' : 'A';
  expect((await post({ 'x-evenrun-token': host.token.slice(0, -1) + last })).status).toBe(401);
  expect((await post({ 'x-evenrun-token': `${host.token}A` })).status).toBe(401);
});

test.each([
  ['not JSON', '{'],
  ['nothing', ''],
  ['broken UTF-8', Buffer.from([0x22, 0xff, 0x22])],
])('a call whose body is %s is refused and not passed on', async (_what, body) => {
  expect((await post({}, body)).status).toBe(400);
  expect(heard).toEqual([]);
});

test.each([
  '/bridge/',
  '/bridge/start/',
  '/bridge/../bridge/start',
  '/bridge/__proto__',
  '/bridge/st%61rt',
  '/start',
  '/',
])('POST %s is no call', async (path) => {
  expect((await post({}, '{}', path)).status).toBe(404);
  expect(heard).toEqual([]);
});

test('a body over the limit is refused, whether it says so or not', async () => {
  expect(
    (await post({ 'content-length': String(BODY_LIMIT_BYTES + 1) }, '{}').catch(() => ({ status: 413 }))).status,
  ).toBe(413);
  const long = Buffer.alloc(BODY_LIMIT_BYTES + 1, 0x20);
  // The host may hang up before all is sent; both ways nothing is passed on.
  const answer = await post({ 'transfer-encoding': 'chunked' }, long).catch(() => null);
  expect(answer === null || answer.status === 413).toBe(true);
  expect(heard).toEqual([]);
});

test('a body of nearly the limit is taken', async () => {
  const text = 'a'.repeat(14_000_000);
  expect((await post({}, JSON.stringify({ text }))).status).toBe(200);
  expect(heard).toEqual([{ name: 'start', request: { text } }]);
});

test.each(['PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE'])('%s is answered with what is allowed', async (method) => {
  const answer = await ask({ method, headers: callHeaders(), path: '/bridge/start' });
  expect(answer.status).toBe(405);
  expect(answer.headers.allow).toBe('GET, HEAD, POST');
});

test('the page is served to its own host name only', async () => {
  const own = { host: `127.0.0.1:${host.port}` };
  const answer = await ask({ headers: own });
  expect(answer.status).toBe(200);
  expect(answer.headers['content-security-policy']).toContain("default-src 'none'");
  expect((await ask({ headers: { host: 'evil.example' } })).status).toBe(421);
  expect((await ask({ headers: { ...own, origin: 'https://evil.example' } })).status).toBe(403);
});

test('HEAD has the headers of GET and no body', async () => {
  const headers = { host: `127.0.0.1:${host.port}` };
  const [head, get] = await Promise.all([
    ask({ method: 'HEAD', path: '/assets/main.js', headers }),
    ask({ path: '/assets/main.js', headers }),
  ]);
  expect(head.status).toBe(200);
  expect(head.body).toBe('');
  expect(head.headers['content-length']).toBe(get.headers['content-length']);
});

/** Sends the path byte for byte, as no HTTP client would. */
function rawStatus(path: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const socket = connect(host.port, '127.0.0.1', () => {
      socket.write(`GET ${path} HTTP/1.1\r\nhost: 127.0.0.1:${host.port}\r\nconnection: close\r\n\r\n`);
    });
    let text = '';
    socket.setEncoding('utf8');
    socket.on('data', (part: string) => {
      text += part;
    });
    socket.on('close', () => resolve(text));
    socket.on('error', reject);
  });
}

test('hostile paths over a bare socket never bring the secret', async () => {
  await fc.assert(
    fc.asyncProperty(
      hostilePath.filter((path) => [...path].every((character) => character > ' ')),
      async (path) => {
        const text = await rawStatus(path);
        return /^HTTP\/1\.1 (?:400|404|431) /.test(text) && !text.includes('secret');
      },
    ),
    { numRuns: 300 },
  );
});

test('a defect behind a call breaks that call and nothing else', async () => {
  const silent = console.error;
  console.error = () => undefined;
  answerWith = () => Promise.reject(new Error('a defect'));
  await expect(post()).rejects.toThrow();
  console.error = silent;
  answerWith = async () => ({ ok: true, value: {} });
  expect((await post()).status).toBe(200);
});

test('a port that is taken is told by rejecting', async () => {
  await expect(startLoopbackHost({ files, calls, port: host.port })).rejects.toThrow('EADDRINUSE');
});

test('closing waits for the call under way, and then nobody answers', async () => {
  const gate = Promise.withResolvers<unknown>();
  const come = Promise.withResolvers<void>();
  const call = () => {
    come.resolve();
    return gate.promise;
  };
  const slow = await startLoopbackHost({ files, calls: { call } });
  const origin = `http://127.0.0.1:${slow.port}`;
  const answer = fetch(`${origin}/bridge/start`, {
    method: 'POST',
    headers: { origin, 'content-type': 'application/json', 'x-evenrun-token': slow.token },
    body: '{}',
  });
  await come.promise;
  const closed = slow.close();
  gate.resolve({ ok: true, value: {} });
  expect((await answer).status).toBe(200);
  await closed;
  await expect(fetch(origin)).rejects.toThrow();
});

test('that a page has gone out is told once, when all that it names has', async () => {
  const html = `${PAGE_HTML}<link rel="icon" href="data:," /><link rel="stylesheet" crossorigin href="/assets/look.css">`;
  const named = ['/assets/main.js', '/assets/look.css'];
  const page = new Map(files).set('/index.html', { contentType: 'text/html', bytes: Buffer.from(html) });
  let told = 0;
  const other = await startLoopbackHost({ files: page, calls, pageSent: () => (told += 1) });
  const fetched = async (path: string) => (await fetch(`http://127.0.0.1:${other.port}${path}`)).text();
  // What is told is told before the next answer, for both are of one process.
  for (const path of ['/', '/assets/main.js', '/assets/main.js', '/assets/letters.woff2', '/']) await fetched(path);
  expect(told).toBe(0);
  await fetched('/assets/look.css');
  await fetched('/');
  expect(told).toBe(1);
  for (const path of named) await fetched(path);
  expect(told).toBe(1);
  await other.close();
});
