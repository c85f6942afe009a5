/** `npm start` as a person on a machine without Electron meets it: the real process, a real Chromium, a real database. */

import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchBrowser } from '../../browser.ts';
import { temporaryFolder } from '../../temporary-folder.ts';
import { until } from '../../until.ts';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const START = join(ROOT, 'electron/start.mjs');

interface Started {
  readonly child: ChildProcess;
  readonly address: string;
  readonly said: () => string;
}

async function startInBrowser(dataFolder: string): Promise<Started> {
  const child = spawn(process.execPath, [START, '--browser', '--no-open', '--data', dataFolder], { cwd: ROOT });
  let said = '';
  const { promise, resolve, reject } = Promise.withResolvers<string>();
  const hear = (part: Buffer) => {
    said += String(part);
    const address = /http:\/\/127\.0\.0\.1:\d+\/#token=[\w-]+/.exec(said)?.[0];
    if (address !== undefined) resolve(address);
  };
  child.stdout.on('data', hear);
  child.stderr.on('data', hear);
  child.once('exit', () => reject(new Error(`It ended: ${said}`)));
  return { child, address: await promise, said: () => said };
}

async function endOf(child: ChildProcess): Promise<number | null> {
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  child.kill('SIGTERM');
  return ended;
}

describe('in the browser', () => {
  const dataFolder = temporaryFolder('start');
  let browser: Browser;
  let first: Started;
  let second: Started;

  beforeAll(async () => {
    browser = await launchBrowser();
    // Two processes on one folder is allowed: the store keeps them apart.
    first = await startInBrowser(dataFolder);
    second = await startInBrowser(dataFolder);
  });
  afterAll(async () => {
    await browser.close();
    first.child.kill('SIGKILL');
    second.child.kill('SIGKILL');
  });

  test('it says where, and that the address is a secret', () => {
    expect(first.said()).toContain('do not pass it on');
    expect(first.address).not.toBe(second.address);
  });

  test('the page opens without a complaint, asks nobody else, and hides the token', async () => {
    const page = await browser.newPage();
    const complaints: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('pageerror', (fault) => complaints.push(String(fault)));
    page.on('request', (request) => {
      if (!request.url().startsWith(new URL(first.address).origin)) complaints.push(request.url());
    });
    await page.goto(first.address);
    await page.getByRole('button').first().waitFor();
    await page.evaluate(() => document.fonts.ready.then(() => undefined));
    expect(complaints).toEqual([]);
    expect(page.url()).not.toContain('token');
    expect(existsSync(join(dataFolder, 'evenrun.sqlite'))).toBe(true);
    await page.close();
  });

  test('the database is opened ahead once all that the page names has gone out, and not before', async () => {
    const folder = temporaryFolder('ahead');
    const isOpened = () => existsSync(join(folder, 'evenrun.sqlite'));
    const { child, address } = await startInBrowser(folder);
    const { origin } = new URL(address);
    const page = await (await fetch(origin)).text();
    const named = Array.from(page.matchAll(/(?:src|href)="(\/[^"]+)"/g), ([, path = '']) => path);
    expect(named.some((path) => path.endsWith('.js')) && named.some((path) => path.endsWith('.css'))).toBe(true);
    for (const path of named.slice(1)) await (await fetch(origin + path)).arrayBuffer();
    expect(isOpened()).toBe(false);
    await (await fetch(origin + named[0])).arrayBuffer();
    await until('the database is opened', isOpened);
    expect(await endOf(child)).toBe(0);
  });

  test('what it compiled is kept for the next start, though it still runs', async () => {
    const folder = join(ROOT, 'node_modules/.cache/evenrun/compiled');
    const kept = () => readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
    await until('its own code is kept', () => existsSync(folder) && kept().length > 10);
  });

  test('a page without the token is shown nothing of the headers', async () => {
    const { origin } = new URL(second.address);
    const answer = await fetch(`${origin}/bridge/listHeaders`, {
      method: 'POST',
      headers: { origin, 'content-type': 'application/json' },
      body: '{"place":"bench"}',
    });
    expect(answer.status).toBe(401);
  });

  test('it ends when asked, with nothing wrong', async () => {
    expect(await endOf(second.child)).toBe(0);
    expect(await endOf(first.child)).toBe(0);
  });
});

test('a wrong option is answered with what may be said', () => {
  const { status, stderr } = spawnSync(process.execPath, [START, '--colour'], { encoding: 'utf8', cwd: ROOT });
  expect(status).toBe(1);
  expect(stderr).toContain('--colour');
  expect(stderr).toContain('npm start -- --data <folder>');
});

test('a Node that is too old is told so plainly, before anything else', () => {
  const pretend = "Object.defineProperty(process.versions, 'node', { value: '20.20.2' });";
  const { status, stderr } = spawnSync(
    process.execPath,
    ['--import', `data:text/javascript,${encodeURIComponent(pretend)}`, START],
    { encoding: 'utf8', cwd: ROOT },
  );
  expect(status).toBe(1);
  expect(stderr).toBe(
    'Evenrun wants Node 24 or newer, and this is Node 20.20.2.\n`npm ci` brings the right one along; run it, then start with `npm start` so that npm finds it.\n',
  );
});
