/** What a test holds of the program while it runs, on the desktop or in a browser. */

import type { Browser, BrowserContext, Page } from 'playwright-core';
import type { LoopbackHost } from '../../electron/loopback/loopback-host.ts';
import type { TestBackend } from '../trust/backend-under-test.ts';
import type { CallGate } from './call-gate.ts';
import type { Faults } from './watch-faults.ts';

/** One life of the program: backend and host, until they are stopped. */
export interface RunningApp {
  readonly backend: TestBackend;
  readonly host: LoopbackHost;
  readonly gate: CallGate;
  stop(): Promise<void>;
}

export interface AppUnderTest extends RunningApp {
  readonly folder: string;
  readonly browser: Browser;
  readonly context: BrowserContext;
  readonly page: Page;
  readonly faults: Faults;
  /** Stops backend and host and starts them again on the same files, with a new window. */
  restart(): Promise<AppUnderTest>;
  /** Ends all, and removes the files. */
  end(): Promise<void>;
}
