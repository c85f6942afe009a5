/** Starts an editing child, collects what it tells, and ends it in the way that a test asks for. */

import { type ChildProcess, spawn } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { pathToFileURL } from 'node:url';
import { childFile } from './child-bundle.ts';
import { type ChildLine, readLines } from './protocol.ts';

export interface ChildOptions {
  readonly folder: string;
  readonly seed: number;
  /** What it works on; left out: a header. */
  readonly child?: 'editing-child' | 'shelf-child' | 'finishing-child';
  /** Ends by itself after this many commits; left out: goes on until it is killed. */
  readonly commits?: number;
  readonly mode?: 'alone' | 'shared';
  readonly env?: Readonly<Record<string, string>>;
  /** Loaded before the child, to sabotage it or to look at its settings. */
  readonly preload?: 'sabotage-synchronous' | 'spy-pragmas';
}

export interface ChildEnd {
  readonly lines: readonly ChildLine[];
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stderr: string;
}

export interface RunningChild {
  readonly process: ChildProcess;
  readonly ended: Promise<ChildEnd>;
  /** Resolves once the child has told so many lines of the kind, or has ended. */
  readonly seen: (kind: ChildLine['kind'], count?: number) => Promise<void>;
}

/** Node keeps the compiled child here, from any that ended by itself, and knows by its content whether it still counts. */
const COMPILED = join(tmpdir(), 'evenrun-compiled-children');

function childArguments(options: ChildOptions): readonly string[] {
  return [
    ...(options.preload === undefined ? [] : ['--import', pathToFileURL(childFile(options.preload)).href]),
    childFile(options.child ?? 'editing-child'),
    `--folder=${options.folder}`,
    `--seed=${options.seed}`,
    `--mode=${options.mode ?? 'alone'}`,
    ...(options.commits === undefined ? [] : [`--commits=${options.commits}`]),
  ];
}

/** Someone who waits for so many lines with the mark. */
interface Waiting {
  readonly mark: string;
  readonly count: number;
  readonly resolve: () => void;
}

export function startChild(options: ChildOptions): RunningChild {
  const child = spawn(process.execPath, ['--no-warnings', ...childArguments(options)], {
    env: { ...process.env, NODE_COMPILE_CACHE: COMPILED, ...options.env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  let stderr = '';
  let waiting: readonly Waiting[] = [];
  const resolveWaiting = () => {
    const isDone = ({ mark, count }: Waiting) => output.split(mark).length > count;
    for (const one of waiting.filter(isDone)) one.resolve();
    waiting = waiting.filter((one) => !isDone(one));
  };
  child.stdout.on('data', (chunk: Buffer) => {
    output += chunk.toString('utf8');
    resolveWaiting();
  });
  child.stderr.on('data', (chunk: Buffer) => {
    stderr += chunk.toString('utf8');
  });
  const ended = new Promise<ChildEnd>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (status, signal) => resolve({ lines: readLines(output), status, signal, stderr }));
  });
  const seen = (kind: ChildLine['kind'], count = 1): Promise<void> => {
    const told = new Promise<void>((resolve) => {
      waiting = [...waiting, { mark: `{"kind":"${kind}"`, count, resolve }];
    });
    resolveWaiting();
    return Promise.race([told, ended.then(() => undefined)]);
  };
  return { process: child, ended, seen };
}
