/** The runtime is fetched whole from a mirror on this machine, or not at all and with the reason. */

import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { findElectronRuntime } from '../../../electron/start/electron-runtime.ts';
import { type FetchedRuntime, fetchRuntime, type RuntimeFetch } from '../../../electron/start/fetch-runtime.ts';
import { unpackRuntime } from '../../../electron/start/unpack-runtime.ts';
import { WAIT_LIMITS } from '../../../electron/start/watched-download.ts';
import { temporaryFolder } from '../../temporary-folder.ts';
import { until } from '../../until.ts';
import {
  ANSWERS,
  type Answer,
  addressOfNobody,
  installPackage,
  type Mirror,
  openMirror,
  standInArchive,
} from './stand-in-runtime.ts';

const ARCHIVE = standInArchive('#!/bin/sh\necho stand-in\n');
const SCREEN = { DISPLAY: ':0' };

let mirror: Mirror;
let electronFolder: string;
let cache: string;
let shown: string;

beforeEach(async () => {
  electronFolder = installPackage(temporaryFolder('project'), ARCHIVE);
  cache = temporaryFolder('cache');
  shown = '';
  mirror = await openMirror(ANSWERS.whole(ARCHIVE));
  vi.stubEnv('ELECTRON_MIRROR', mirror.address);
});
afterEach(() => {
  vi.unstubAllEnvs();
});

function fetchIt(more: Partial<RuntimeFetch> = {}): Promise<FetchedRuntime> {
  return fetchRuntime({
    platform: 'linux',
    arch: 'x64',
    env: { electron_config_cache: cache },
    signal: new AbortController().signal,
    output: { write: (text) => (shown += text) },
    electronFolder,
    limits: { firstByteMs: 500, betweenBytesMs: 500 },
    ...more,
  });
}

const found = () => findElectronRuntime('linux', SCREEN, electronFolder);

/** Nothing of a fetch is left: neither a runtime nor anything half-written, beside it or in the cache. */
function expectNothingLeft(): void {
  expect(found()).toEqual({ kind: 'missing' });
  expect(readdirSync(electronFolder).sort()).toEqual(['checksums.json', 'package.json']);
  expect(readdirSync(cache)).toEqual([]);
}

test('people wait 15 seconds for the first byte and 30 for the next', () => {
  expect(WAIT_LIMITS).toEqual({ firstByteMs: 15_000, betweenBytesMs: 30_000 });
});

describe('a mirror that has it', () => {
  test('the runtime is in its place, found, and can be run', async () => {
    const executable = join(electronFolder, 'dist/electron');
    expect(await fetchIt()).toEqual({ kind: 'fetched', executable });
    expect(found()).toEqual({ kind: 'found', executable });
    expect(execFileSync(executable, { encoding: 'utf8' })).toBe('stand-in\n');
    expect(readdirSync(electronFolder).sort()).toEqual(['checksums.json', 'dist', 'package.json', 'path.txt']);
  });

  test('one line says what is fetched, from where and how to do without; then comes how far it is', async () => {
    await fetchIt();
    const lines = shown.split('\n');
    expect(lines[0]).toMatch(/^Fetching the Electron 45\.99\.1 runtime for linux-x64 from 127\.0\.0\.1:\d+/);
    expect(lines[0]).toContain('`npm start -- --browser` does without');
    expect(lines.at(-2)).toBe('  0.4 of 0.4 MB, 100 %');
  });

  test('an archive of untold length comes whole as well', async () => {
    mirror.answer = ANSWERS.ofUntoldLength(ARCHIVE);
    expect(await fetchIt()).toMatchObject({ kind: 'fetched' });
  });

  test('an archive in the cache is not asked for again', async () => {
    await fetchIt();
    const first = electronFolder;
    electronFolder = installPackage(temporaryFolder('project'), ARCHIVE);
    expect(await fetchIt()).toMatchObject({ kind: 'fetched' });
    expect(electronFolder).not.toBe(first);
    expect(mirror.asked).toHaveLength(1);
  });

  test('a damaged archive in the cache is asked for again', async () => {
    await fetchIt();
    const [folder] = readdirSync(cache);
    const [name] = readdirSync(join(cache, folder ?? ''));
    writeFileSync(join(cache, folder ?? '', name ?? ''), ARCHIVE.subarray(0, 1000));
    electronFolder = installPackage(temporaryFolder('project'), ARCHIVE);
    expect(await fetchIt()).toMatchObject({ kind: 'fetched' });
    expect(mirror.asked).toHaveLength(2);
  });

  test('a runtime of another version makes room', async () => {
    mkdirSync(join(electronFolder, 'dist'));
    for (const name of ['electron', 'of-old']) writeFileSync(join(electronFolder, 'dist', name), '');
    writeFileSync(join(electronFolder, 'dist/version'), '44.0.0');
    writeFileSync(join(electronFolder, 'path.txt'), 'electron');
    expect(found()).toEqual({ kind: 'missing' });
    expect(await fetchIt()).toMatchObject({ kind: 'fetched' });
    expect(existsSync(join(electronFolder, 'dist/of-old'))).toBe(false);
  });

  test('what a fetch that was killed left behind is cleared away; what another is at work on stays', async () => {
    // The first is above every number that Linux gives to a process; the second is a process that is alive.
    for (const pid of [2 ** 22 + 1, process.ppid]) mkdirSync(join(electronFolder, `fetching-${pid}`));
    await fetchIt();
    expect(readdirSync(electronFolder).filter((name) => name.startsWith('fetching-'))).toEqual([
      `fetching-${process.ppid}`,
    ]);
  });
});

describe('a mirror that fails', () => {
  const other = standInArchive('#!/bin/sh\necho not ours\n');
  test.each<[string, Answer, string]>([
    ['other bytes', ANSWERS.whole(other), "not what Electron's own list of checksums says"],
    ['the first half, and then the end', ANSWERS.cutOff(ARCHIVE), 'broke off before all had come'],
    ['a whole answer that is too short', ANSWERS.ofUntoldLength(ARCHIVE.subarray(0, 5000)), 'list of checksums'],
    ['nothing at all', ANSWERS.silent(), 'nothing came within 0.5 seconds'],
    ['a head and no body', ANSWERS.headOnly(ARCHIVE), 'nothing came within 0.5 seconds'],
    ['half, and then silence', ANSWERS.stalledHalfWay(ARCHIVE), 'no more came for 0.5 seconds'],
    ['404', ANSWERS.notThere(), 'the answer was 404 Not Found'],
  ])('%s: the reason is said, and nothing is left', async (_what, answer, words) => {
    mirror.answer = answer;
    expect(await fetchIt()).toEqual({ kind: 'failed', why: expect.stringContaining(words) });
    expectNothingLeft();
  });

  test('refused: the reason is said, and nothing is left', async () => {
    vi.stubEnv('ELECTRON_MIRROR', await addressOfNobody());
    expect(await fetchIt()).toEqual({ kind: 'failed', why: expect.stringContaining('the connection was refused') });
    expectNothingLeft();
  });

  test('bytes that keep coming are waited for, however long it takes', async () => {
    // Longer in all than the limit between two parts, and each part well within it.
    const parts = 12;
    mirror.answer = (_request, response) => {
      response.writeHead(200, { 'content-length': ARCHIVE.length });
      const size = Math.ceil(ARCHIVE.length / parts);
      const send = (part: number): void => {
        if (part === parts) return void response.end();
        response.write(ARCHIVE.subarray(part * size, (part + 1) * size));
        setTimeout(() => send(part + 1), 50);
      };
      send(0);
    };
    expect(await fetchIt()).toMatchObject({ kind: 'fetched' });
  });

  test('a system that Electron is not built for asks nobody', async () => {
    expect(await fetchIt({ platform: 'aix' })).toEqual({
      kind: 'failed',
      why: 'The Electron runtime was not fetched: there is none for aix',
    });
    expect(mirror.asked).toEqual([]);
  });

  test('a processor that the list of checksums does not name', async () => {
    expect(await fetchIt({ arch: 'riscv64' })).toEqual({
      kind: 'failed',
      why: expect.stringContaining('there is no Electron runtime for this system'),
    });
    expectNothingLeft();
  });

  test('an archive that is listed and holds no runtime of this version takes no place', async () => {
    const stranger = standInArchive('#!/bin/sh\n', '1.2.3');
    electronFolder = installPackage(temporaryFolder('project'), stranger);
    mirror.answer = ANSWERS.whole(stranger);
    expect(await fetchIt()).toEqual({ kind: 'failed', why: expect.stringContaining('does not hold the runtime') });
    expect(found()).toEqual({ kind: 'missing' });
    expect(readdirSync(electronFolder).sort()).toEqual(['checksums.json', 'package.json']);
  });
});

describe('stopped by the person at the terminal', () => {
  test.each<[string, Answer, () => boolean]>([
    ['before anything came', ANSWERS.silent(), () => mirror.asked.length === 1],
    ['half-way', ANSWERS.stalledHalfWay(ARCHIVE), () => shown.includes(' %')],
  ])('%s: nothing is left, and no reason is given', async (_when, answer, isThere) => {
    mirror.answer = answer;
    const stop = new AbortController();
    const fetching = fetchIt({ signal: stop.signal, limits: WAIT_LIMITS });
    await until('it is that far', isThere);
    stop.abort();
    expect(await fetching).toEqual({ kind: 'stopped' });
    expectNothingLeft();
  });

  test('at the last byte: nothing is left', async () => {
    const stop = new AbortController();
    const output = { write: (text: string) => (text.includes('100 %') ? stop.abort() : undefined) };
    expect(await fetchIt({ signal: stop.signal, output })).toEqual({ kind: 'stopped' });
    expectNothingLeft();
  });

  test('while it is unpacked: no runtime takes its place', async () => {
    const [archive, workFolder] = [join(cache, 'archive.zip'), join(electronFolder, 'fetching')];
    writeFileSync(archive, ARCHIVE);
    const stop = new AbortController();
    const executable = 'electron';
    const unpacking = unpackRuntime({ archive, electronFolder, workFolder, executable, signal: stop.signal });
    stop.abort();
    await expect(unpacking).rejects.toThrow('aborted');
    expect(existsSync(join(workFolder, 'dist/electron'))).toBe(true);
    expect(found()).toEqual({ kind: 'missing' });
  });
});

describe('settings are passed on', () => {
  test('the mirror and its folder', async () => {
    vi.stubEnv('ELECTRON_CUSTOM_DIR', 'shop/{{ version }}');
    expect(await fetchIt()).toMatchObject({ kind: 'fetched' });
    expect(mirror.asked).toEqual(['/shop/45.99.1/electron-v45.99.1-linux-x64.zip']);
  });

  test("npm's own setting of the mirror", async () => {
    vi.stubEnv('ELECTRON_MIRROR', '');
    vi.stubEnv('npm_config_electron_mirror', mirror.address);
    expect(await fetchIt()).toMatchObject({ kind: 'fetched' });
  });

  test('the cache', async () => {
    await fetchIt();
    const [folder] = readdirSync(cache);
    expect(readFileSync(join(cache, folder ?? '', 'electron-v45.99.1-linux-x64.zip')).equals(ARCHIVE)).toBe(true);
  });

  test.each(['HTTP_PROXY', 'http_proxy', 'npm_config_proxy'])('the proxy, as %s', async (name) => {
    const throughProxy: string[] = [];
    const proxy = createServer();
    proxy.on('connect', (request, socket) => {
      throughProxy.push(request.url ?? '');
      // Whatever name is asked for, the mirror of this machine is reached.
      const onward = connect(Number(mirror.host.split(':')[1]), '127.0.0.1', () => {
        socket.write('HTTP/1.1 200 Connection established\r\n\r\n');
        onward.pipe(socket).pipe(onward);
      });
    });
    await new Promise<void>((resolve) => proxy.listen(0, '127.0.0.1', resolve));
    // A name that exists nowhere: only the proxy can know the way.
    vi.stubEnv('ELECTRON_MIRROR', 'http://localhost.invalid/');
    const env = { electron_config_cache: cache, [name]: `http://127.0.0.1:${(proxy.address() as AddressInfo).port}` };
    expect(await fetchIt({ env })).toMatchObject({ kind: 'fetched' });
    expect(throughProxy).toEqual(['localhost.invalid:80']);
    proxy.close();
    // From here on this process asks directly again.
    vi.stubEnv('ELECTRON_MIRROR', mirror.address);
    electronFolder = installPackage(temporaryFolder('project'), ARCHIVE);
    cache = temporaryFolder('cache');
    expect(await fetchIt()).toMatchObject({ kind: 'fetched' });
    expect(throughProxy).toHaveLength(1);
  });
});
