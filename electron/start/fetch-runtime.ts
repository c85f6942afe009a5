/** Fetches the Electron runtime that belongs to the installed package, since `npm ci` does not. */

import { readFileSync, rmSync } from 'node:fs';
import { setGlobalProxyFromEnv } from 'node:http';
import { join } from 'node:path';
import { electronPackageFolder, executableWithin, wantedVersion } from './electron-runtime.ts';
import { whyNotFetched } from './fetch-words.ts';
import { type ProgressOutput, progressLine } from './progress-line.ts';
import { makeWorkFolder, unpackRuntime } from './unpack-runtime.ts';
import { downloadWatched, WAIT_LIMITS, type WaitLimits } from './watched-download.ts';

export type FetchedRuntime =
  | { readonly kind: 'fetched'; readonly executable: string }
  /** The person at the terminal stopped it. */
  | { readonly kind: 'stopped' }
  /** A sentence without its full stop says why not. */
  | { readonly kind: 'failed'; readonly why: string };

export interface RuntimeFetch {
  readonly platform: NodeJS.Platform;
  readonly arch: string;
  /** Proxy and cache; the mirror is read by `@electron/get` from the process's own environment. */
  readonly env: NodeJS.ProcessEnv;
  /** Stops the fetch; nothing of it is left behind. */
  readonly signal: AbortSignal;
  readonly output: ProgressOutput;
  /** By default the installed package. */
  readonly electronFolder?: string;
  readonly limits?: WaitLimits;
}

/** What the environment and npm say about proxies, in that order. `fetch` heeds neither by itself. */
function proxySettings(env: NodeJS.ProcessEnv) {
  const first = (...names: string[]) => names.map((name) => env[name]).find(Boolean);
  return {
    HTTP_PROXY: first('HTTP_PROXY', 'http_proxy', 'npm_config_proxy'),
    HTTPS_PROXY: first('HTTPS_PROXY', 'https_proxy', 'npm_config_https_proxy', 'npm_config_proxy'),
    NO_PROXY: first('NO_PROXY', 'no_proxy', 'npm_config_noproxy'),
  };
}

function cacheFolder(env: NodeJS.ProcessEnv): { readonly cacheRoot?: string } {
  const folder = env['electron_config_cache'] || env['npm_config_electron_config_cache'];
  return folder ? { cacheRoot: folder } : {};
}

/** Path of the archive, in the cache; its checksum is that of the list which came with the package. */
async function archiveOf(wanted: RuntimeFetch, electronFolder: string, workFolder: string): Promise<string> {
  const { platform, arch, env, signal, output, limits = WAIT_LIMITS } = wanted;
  const version = wantedVersion(electronFolder);
  // Loaded only where it is wanted: most starts fetch nothing.
  const { downloadArtifact } = await import('@electron/get');
  const line = progressLine(output);
  const download = async (address: string, targetFile: string): Promise<void> => {
    output.write(
      `Fetching the Electron ${version} runtime for ${platform}-${arch} from ${new URL(address).host}, this once: some 100 MB. ` +
        'Ctrl+C stops it; `npm start -- --browser` does without.\n',
    );
    try {
      await downloadWatched(address, targetFile, { limits, signal, onProgress: line.show });
    } finally {
      line.end();
    }
  };
  return downloadArtifact({
    version,
    platform,
    arch,
    artifactName: 'electron',
    checksums: JSON.parse(readFileSync(join(electronFolder, 'checksums.json'), 'utf8')) as Record<string, string>,
    tempDirectory: workFolder,
    downloader: { download },
    ...cacheFolder(env),
  });
}

async function fetchInto(electronFolder: string, wanted: RuntimeFetch, executable: string): Promise<string> {
  const workFolder = makeWorkFolder(electronFolder);
  try {
    const archive = await archiveOf(wanted, electronFolder, workFolder);
    wanted.signal.throwIfAborted();
    const { signal } = wanted;
    return await unpackRuntime({ archive, electronFolder, workFolder, executable, signal });
  } finally {
    rmSync(workFolder, { recursive: true, force: true, maxRetries: 3 });
  }
}

/** Ends with the runtime in its place, or with nothing changed. An archive that came whole stays in the cache. */
export async function fetchRuntime(wanted: RuntimeFetch): Promise<FetchedRuntime> {
  const electronFolder = wanted.electronFolder ?? electronPackageFolder();
  const executable = executableWithin(wanted.platform);
  const failed = (why: string): FetchedRuntime => ({
    kind: 'failed',
    why: `The Electron runtime was not fetched: ${why}`,
  });
  if (executable === null) return failed(`there is none for ${wanted.platform}`);
  let undoProxy = (): void => undefined;
  try {
    undoProxy = setGlobalProxyFromEnv(proxySettings(wanted.env));
    return { kind: 'fetched', executable: await fetchInto(electronFolder, wanted, executable) };
  } catch (cause) {
    return wanted.signal.aborted ? { kind: 'stopped' } : failed(whyNotFetched(cause));
  } finally {
    undoProxy();
  }
}
