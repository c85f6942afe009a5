/** Opens the program's own address in the person's browser, by the system's own opener. */

import { spawn } from 'node:child_process';

export interface Opener {
  readonly command: string;
  readonly args: readonly string[];
}

/** Nothing but the loopback host's address is ever handed to another program; it holds no sign that any shell reads. */
const OWN_ADDRESS = /^http:\/\/127\.0\.0\.1:\d{1,5}\/#token=[\w-]+$/;

/** What opens the address; null for any other address. */
export function openerFor(platform: NodeJS.Platform, address: string): Opener | null {
  if (!OWN_ADDRESS.test(address)) return null;
  switch (platform) {
    case 'darwin':
      return { command: 'open', args: [address] };
    case 'win32':
      // `start` takes its first quoted word for a title.
      return { command: 'cmd', args: ['/d', '/c', 'start', '""', address] };
    default:
      return { command: 'xdg-open', args: [address] };
  }
}

/** Asks the system to open the address, and goes on at once: where there is no browser the printed address is still there. */
export function openInBrowser(address: string, platform: NodeJS.Platform = process.platform): void {
  const opener = openerFor(platform, address);
  if (opener === null) return;
  const child = spawn(opener.command, opener.args, {
    detached: true,
    stdio: 'ignore',
    windowsHide: true,
    windowsVerbatimArguments: true,
  });
  child.once('error', () => undefined);
  child.unref();
}
