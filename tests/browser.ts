/** A headless Chromium for the tests: unpacked once from its package, never downloaded. */

import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium } from 'playwright-core';

const CACHE = fileURLToPath(new URL('../node_modules/.cache/evenrun/', import.meta.url));
const UNPACKED = join(CACHE, 'chromium');
/** The package opens these only where it believes itself on a hosted function, so they are opened by hand. */
const LIBRARIES = fileURLToPath(new URL('../node_modules/@sparticuz/chromium/bin/al2023.tar.br', import.meta.url));

/**
 * Same pictures on every machine, WebGL in software, and no sandbox because tests may run as root. Without a graphics
 * card the page itself is painted by the processor, as Chromium does there by default: painted through the software
 * WebGL, each opening of a header takes up to five times as much.
 */
const ARGUMENTS = [
  '--no-sandbox',
  '--font-render-hinting=none',
  '--force-device-scale-factor=1',
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--disable-gpu-rasterization',
  '--disable-gpu-compositing',
] as const;

/** The package unpacks into the system's temporary folder, where a half-written file would be taken for a whole one. */
async function unpackInto(folder: string): Promise<void> {
  const before = process.env['TMPDIR'];
  process.env['TMPDIR'] = folder;
  try {
    const { default: packed, inflate } = await import('@sparticuz/chromium');
    await packed.executablePath();
    await inflate(LIBRARIES);
  } finally {
    if (before === undefined) delete process.env['TMPDIR'];
    else process.env['TMPDIR'] = before;
  }
}

/** The path of the browser. Unpacks it if need be, beside its place, so that any number of workers may ask at once. */
export async function chromiumExecutable(): Promise<string> {
  if (!existsSync(UNPACKED)) {
    const staging = join(CACHE, `unpacking-${process.pid}`);
    mkdirSync(staging, { recursive: true });
    await unpackInto(staging);
    try {
      renameSync(staging, UNPACKED);
    } catch (cause) {
      if (!existsSync(UNPACKED)) throw cause;
      // Another worker was quicker; its copy is as good.
      rmSync(staging, { recursive: true });
    }
  }
  return join(UNPACKED, 'chromium');
}

/** The libraries that come with the package, only where the machine lacks its own. */
function environment(executable: string): Record<string, string | undefined> {
  const linked = spawnSync('ldd', [executable], { encoding: 'utf8' }).stdout ?? '';
  if (!linked.includes('not found')) return process.env;
  return { ...process.env, LD_LIBRARY_PATH: join(UNPACKED, 'al2023', 'lib') };
}

/** Slows every page down so many times, so that tests can show that they do not count on a quick machine. */
const { EVENRUN_THROTTLE } = process.env;
/** There to end what hangs: under the limit of a test, so that the failure says what was waited for. */
const WAIT_LIMIT_MS = 90_000;

/** With patience for a busy machine in every page, and slowed down where that is asked for. */
function patient(browser: Browser): Browser {
  const rate = Number(EVENRUN_THROTTLE ?? '1');
  const newContext = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await newContext(options);
    context.setDefaultTimeout(WAIT_LIMIT_MS);
    if (rate === 1) return context;
    context.on('page', async (page) => {
      const session = await context.newCDPSession(page);
      await session.send('Emulation.setCPUThrottlingRate', { rate });
    });
    return context;
  };
  return browser;
}

export interface BrowserOptions {
  readonly extraArguments?: readonly string[];
  /** False: no WebGL, as on a machine without a graphics driver. */
  readonly hasGraphics?: boolean;
}

/** Starts a browser of one's own; close it when done. Off Linux, where the package does not run, it is the machine's own Chrome. */
export async function launchBrowser({
  extraArguments = [],
  hasGraphics = true,
}: BrowserOptions = {}): Promise<Browser> {
  const args = [...ARGUMENTS, ...extraArguments, ...(hasGraphics ? [] : ['--disable-3d-apis'])];
  if (process.platform !== 'linux') return patient(await chromium.launch({ channel: 'chrome', args }));
  const executablePath = await chromiumExecutable();
  return patient(await chromium.launch({ executablePath, args, env: environment(executablePath) }));
}
