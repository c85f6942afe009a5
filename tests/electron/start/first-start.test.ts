/** The first `npm start` of a fresh machine with a screen: the real process, a mirror on this machine, a script in the runtime's stead. */

import { type ChildProcess, spawn } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { BUNDLE_NAMES, bundleFile } from '../../../electron/build/bundles.ts';
import { temporaryFolder } from '../../temporary-folder.ts';
import { ANSWERS, installPackage, type Mirror, openMirror, standInArchive } from './stand-in-runtime.ts';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const ADDRESS = /http:\/\/127\.0\.0\.1:\d+\/#token=[\w-]+/;

/** A runtime that notes what it was started with. */
const NOTING = '#!/bin/sh\nprintf "%s\\n" "$@" "run as node: $ELECTRON_RUN_AS_NODE" > "$NOTES"\n';
/** One that stays until it is asked to end, or half a minute, so that a failed test leaves nothing running. */
const STAYING =
  '#!/bin/sh\ntrap "echo asked > $NOTES; exit 0" TERM\necho open > "$NOTES"\nfor turn in $(seq 600); do sleep 0.05; done\n';
/** One that ends as Chromium does where it may not make its sandbox. */
const REFUSED =
  '#!/bin/sh\necho "FATAL: The SUID sandbox helper binary was found, but is not configured correctly." >&2\nkill -TRAP $$\n';

/** The program as checked out and built, with an electron package that has no runtime; shared by all tests, for it is not written to. */
let template: string;
let project: string;
let mirror: Mirror;
let place: string;
const children: ChildProcess[] = [];

beforeAll(() => {
  template = temporaryFolder('template');
  for (const part of ['electron', 'package.json']) cpSync(join(ROOT, part), join(template, part), { recursive: true });
  mkdirSync(join(template, 'node_modules'));
  symlinkSync(join(ROOT, 'node_modules/better-sqlite3'), join(template, 'node_modules/better-sqlite3'));
  for (const name of BUNDLE_NAMES)
    cpSync(dirname(bundleFile(ROOT, name)), dirname(bundleFile(template, name)), { recursive: true });
});

beforeEach(async () => {
  place = temporaryFolder('first');
  mkdirSync(join(place, 'bin'));
  writeFileSync(join(place, 'bin/xdg-open'), '#!/bin/sh\necho "$@" >> "$OPENED"\n', { mode: 0o755 });
  mirror = await openMirror(ANSWERS.notThere());
  project = template;
});
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL');
});

/** A project of its own whose package expects the archive of this script, which the mirror serves. */
function serveRuntime(script: string): Buffer {
  project = temporaryFolder('project');
  cpSync(template, project, { recursive: true, verbatimSymlinks: true });
  // What was built is newer than what it was built from, or the program would build it again. A `Date` has whole milliseconds:
  // that of this moment may lie before the last file that was copied.
  const later = new Date(Date.now() + 1000);
  for (const name of BUNDLE_NAMES) utimesSync(bundleFile(project, name), later, later);
  const archive = standInArchive(script);
  installPackage(project, archive);
  mirror.answer = ANSWERS.whole(archive);
  return archive;
}

interface Run {
  readonly child: ChildProcess;
  readonly said: () => string;
  /** The code with which it ended. */
  readonly ended: Promise<number | null>;
}

function npmStart(args: readonly string[] = [], more: NodeJS.ProcessEnv = {}): Run {
  const env = {
    PATH: `${join(place, 'bin')}:/usr/bin:/bin`,
    HOME: place,
    DISPLAY: ':99',
    ELECTRON_MIRROR: mirror.address,
    electron_config_cache: join(place, 'cache'),
    NOTES: join(place, 'notes'),
    OPENED: join(place, 'opened'),
    ...more,
  };
  const child = spawn(process.execPath, [join(project, 'electron/start.mjs'), '--data', join(place, 'data'), ...args], {
    cwd: project,
    env,
  });
  children.push(child);
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => (said += String(part)));
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
  return { child, said: () => said, ended };
}

const noted = () => (existsSync(join(place, 'notes')) ? readFileSync(join(place, 'notes'), 'utf8') : '');
const opened = () => (existsSync(join(place, 'opened')) ? readFileSync(join(place, 'opened'), 'utf8') : '');
const electronFolder = () => join(project, 'node_modules/electron');

/** Waits for the address, sees that it is served and opened, and ends the program. */
async function expectBrowser(run: Run, isOpened = true): Promise<void> {
  await expect.poll(run.said).toMatch(ADDRESS);
  const address = ADDRESS.exec(run.said())?.[0] ?? '';
  expect((await fetch(new URL('/', address))).status).toBe(200);
  if (isOpened) await expect.poll(opened).toBe(`${address}\n`);
  run.child.kill('SIGTERM');
  expect(await run.ended).toBe(0);
  if (!isOpened) expect(opened()).toBe('');
}

describe('with a mirror that has the runtime', () => {
  test('it is fetched and the window opens, on the folder asked for, and never as plain Node', async () => {
    serveRuntime(NOTING);
    const run = npmStart([], { ELECTRON_RUN_AS_NODE: '1' });
    expect(await run.ended, run.said()).toBe(0);
    expect(run.said()).toMatch(/^Fetching the Electron 45\.99\.1 runtime/);
    expect(noted()).toBe(`${project}/\n--data=${join(place, 'data')}\nrun as node: \n`);
    expect(opened()).toBe('');
  });

  test('the second start fetches nothing', async () => {
    serveRuntime(NOTING);
    await npmStart().ended;
    const second = npmStart();
    expect(await second.ended).toBe(0);
    expect(second.said()).toBe('');
    expect(mirror.asked).toHaveLength(1);
  });

  test('a runtime in a folder that the environment names is used, and nothing is fetched', async () => {
    serveRuntime(REFUSED);
    const named = join(place, 'named');
    mkdirSync(named);
    writeFileSync(join(named, 'electron'), NOTING, { mode: 0o755 });
    expect(await npmStart([], { ELECTRON_OVERRIDE_DIST_PATH: named }).ended).toBe(0);
    expect(noted()).toContain('--data=');
    expect(mirror.asked).toEqual([]);
  });

  test('the program waits for its window, and passes on that it should end', async () => {
    serveRuntime(STAYING);
    const run = npmStart();
    await expect.poll(noted).toBe('open\n');
    // At a terminal the window hears Ctrl+C itself.
    run.child.kill('SIGINT');
    // Signals come in order: had the first ended the program, this one would not be passed on.
    run.child.kill('SIGTERM');
    expect(await run.ended).toBe(0);
    expect(noted()).toBe('asked\n');
  });
});

describe('without the runtime', () => {
  test('one sentence says why, and the browser is opened on the address', async () => {
    serveRuntime(NOTING);
    mirror.answer = ANSWERS.notThere();
    const run = npmStart();
    await expectBrowser(run);
    const why =
      'The Electron runtime was not fetched: the answer was 404 Not Found; Evenrun runs in your browser instead.';
    expect(run.said().split('\n')).toContain(why);
    expect(noted()).toBe('');
  });

  test('a runtime that may not make its sandbox: the reason, two mends, and the browser', async () => {
    serveRuntime(REFUSED);
    const run = npmStart();
    await expectBrowser(run);
    expect(run.said()).toContain('this system does not let Electron make its sandbox');
    expect(run.said()).toContain(`chown root:root ${join(electronFolder(), 'dist/chrome-sandbox')}`);
    expect(run.said()).toMatch(/sudo sysctl -w \S+=\d+/);
  });

  test('a machine without anything that opens a browser still serves the page', async () => {
    serveRuntime(REFUSED);
    const run = npmStart([], { PATH: join(place, 'nothing') });
    await expectBrowser(run, false);
    expect(run.said()).toContain('If it does not, open this address on this machine');
  });

  test('a machine without a screen asks nobody for a runtime and opens nothing', async () => {
    serveRuntime(NOTING);
    const run = npmStart([], { DISPLAY: '' });
    await expectBrowser(run, false);
    expect(run.said()).toContain('There is no screen for a desktop window; Evenrun runs in your browser instead.');
    expect(mirror.asked).toEqual([]);
  });

  test('--browser asks nobody for a runtime, and --no-open opens nothing', async () => {
    serveRuntime(NOTING);
    await expectBrowser(npmStart(['--browser']));
    writeFileSync(join(place, 'opened'), '');
    await expectBrowser(npmStart(['--browser', '--no-open']), false);
    expect(mirror.asked).toEqual([]);
  });
});

describe('Ctrl+C while it is fetched', () => {
  test('ends the program and leaves nothing', async () => {
    const archive = serveRuntime(NOTING);
    mirror.answer = ANSWERS.stalledHalfWay(archive);
    const run = npmStart();
    await expect.poll(() => mirror.asked.length).toBe(1);
    await expect.poll(run.said).toContain('MB');
    run.child.kill('SIGINT');
    expect(await run.ended).toBe(130);
    expect(run.said()).toContain('Stopped; nothing was left behind.');
    expect(readdirSync(electronFolder()).sort()).toEqual(['checksums.json', 'package.json']);
    expect(existsSync(join(place, 'cache'))).toBe(false);
    expect(opened()).toBe('');
  });

  test('and even killed outright, the next start fetches it whole', async () => {
    const archive = serveRuntime(NOTING);
    mirror.answer = ANSWERS.stalledHalfWay(archive);
    const run = npmStart();
    await expect.poll(run.said).toContain('MB');
    run.child.kill('SIGKILL');
    await run.ended;
    mirror.answer = ANSWERS.whole(archive);
    expect(await npmStart().ended).toBe(0);
    expect(noted()).toContain('--data=');
    expect(readdirSync(electronFolder()).sort()).toEqual(['checksums.json', 'dist', 'package.json', 'path.txt']);
  });
});
