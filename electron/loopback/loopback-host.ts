/** Serves the page and the bridge to a browser on this machine, where no Electron runtime can be had. */

import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { answerForPage, type PageFiles } from '../page/page-files.ts';
import { readBody } from './read-body.ts';
import { ownOrigin, type Refusal, refuseCall, refuseStranger } from './request-guard.ts';

/** The part of the dispatcher that is called; it answers every name and every request, right or wrong, with a reply. */
export interface BridgeCalls {
  call(name: string, request: unknown): Promise<unknown>;
}

export interface LoopbackOptions {
  readonly files: PageFiles;
  readonly calls: BridgeCalls;
  /** 0 or absent takes any free port. */
  readonly port?: number;
  /** Called once, when all that the page names has gone out: the browser is busy compiling it, and this process has nothing to do. */
  readonly pageSent?: () => void;
}

export interface LoopbackHost {
  readonly port: number;
  readonly token: string;
  /** What to open in a browser; holds the token. */
  readonly address: string;
  /** Ends once the calls under way are answered. */
  close(): Promise<void>;
}

/** How long calls under way may take before closing cuts them off. */
const CLOSE_LIMIT_MS = 5_000;

function refuse(response: ServerResponse, { status, reason }: Refusal, method: string): void {
  response.writeHead(status, {
    'content-type': 'text/plain; charset=utf-8',
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
    ...(status === 405 ? { allow: 'GET, HEAD, POST' } : {}),
    // A body that was not read to its end would be taken for the next request.
    ...(method === 'GET' || method === 'HEAD' ? {} : { connection: 'close' }),
  });
  response.end(method === 'HEAD' ? undefined : reason);
}

function servePage(response: ServerResponse, { options, onSent }: Served, path: string, method: string): void {
  const answer = answerForPage(options.files, method, path);
  response.writeHead(answer.status, { ...answer.headers, 'content-length': answer.body.length });
  response.once('finish', () => onSent(path));
  response.end(method === 'HEAD' ? undefined : answer.body);
}

/** Returns what is to be told of each file that has gone out. It acts once: when all that the page names has. */
function onceAllAreSent(files: PageFiles, act: () => void): (path: string) => void {
  const page = files.get('/index.html')?.bytes.toString('utf8') ?? '';
  const awaited = new Set(Array.from(page.matchAll(/ (?:src|href)="(\/[^"]+)"/g), ([, path]) => path));
  return (path) => {
    if (awaited.delete(path) && awaited.size === 0) act();
  };
}

function parseJson(body: Buffer): { readonly value: unknown } | null {
  try {
    return { value: JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(body)) };
  } catch {
    return null;
  }
}

async function answerCall(request: IncomingMessage, calls: BridgeCalls, name: string): Promise<Refusal | string> {
  const body = await readBody(request);
  if (body === 'tooLarge') return { status: 413, reason: 'Too large' };
  if (body === 'broken') return { status: 400, reason: 'Incomplete' };
  const parsed = parseJson(body);
  if (parsed === null) return { status: 400, reason: 'Not JSON' };
  return JSON.stringify(await calls.call(name, parsed.value));
}

async function handle(request: IncomingMessage, response: ServerResponse, served: Served): Promise<void> {
  const method = request.method ?? '';
  const refuseWith = (refusal: Refusal) => refuse(response, refusal, method);
  const stranger = refuseStranger(request.headers, served.port);
  if (stranger !== null) return refuseWith(stranger);
  const path = (request.url ?? '').split('?', 1)[0] ?? '';
  if (method === 'GET' || method === 'HEAD') return servePage(response, served, path, method);
  if (method !== 'POST') return refuseWith({ status: 405, reason: 'Method not allowed' });
  const name = /^\/bridge\/([A-Za-z]{1,64})$/.exec(path)?.[1];
  if (name === undefined) return refuseWith({ status: 404, reason: 'Not found' });
  const refusal = refuseCall(request.headers, served.port, served.token);
  if (refusal !== null) return refuseWith(refusal);
  const answer = await answerCall(request, served.options.calls, name);
  if (typeof answer !== 'string') return refuseWith(answer);
  response.writeHead(200, {
    'content-type': 'application/json; charset=utf-8',
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
  });
  response.end(answer);
}

interface Served {
  readonly options: LoopbackOptions;
  readonly token: string;
  readonly port: number;
  /** A file of the page has gone out. */
  readonly onSent: (path: string) => void;
}

async function listen(server: Server, port: number): Promise<number> {
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', reject);
      resolve();
    });
  });
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('The server has no port');
  return address.port;
}

async function closeServer(server: Server): Promise<void> {
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  // A connection that is kept alive becomes idle only once its call is answered.
  const sweep = setInterval(() => server.closeIdleConnections(), 50);
  const cutOff = setTimeout(() => server.closeAllConnections(), CLOSE_LIMIT_MS);
  await closed;
  clearInterval(sweep);
  clearTimeout(cutOff);
}

/** Rejects when the port is taken or not allowed. */
export async function startLoopbackHost(options: LoopbackOptions): Promise<LoopbackHost> {
  const token = randomBytes(32).toString('base64url');
  let served: Served | null = null;
  const server = createServer({ requestTimeout: 60_000, headersTimeout: 10_000 }, (request, response) => {
    if (served === null) return void response.destroy();
    handle(request, response, served).catch((cause: unknown) => {
      // The dispatcher answers for its own failures, so this is a defect here; the page sees a broken call and keeps its entry.
      console.error(cause);
      response.destroy();
    });
  });
  const port = await listen(server, options.port ?? 0);
  served = { options, token, port, onSent: onceAllAreSent(options.files, options.pageSent ?? (() => undefined)) };
  return { port, token, address: `${ownOrigin(port)}/#token=${token}`, close: () => closeServer(server) };
}
