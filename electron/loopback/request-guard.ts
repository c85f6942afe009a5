/** Who may ask the loopback host for what: checks on a request before anything is done for it. */

import { createHash, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

export const TOKEN_HEADER = 'x-evenrun-token';

/** The one name under which the host answers, so that a name pointed at this machine by someone else gets nothing. */
export function hostName(port: number): string {
  return `127.0.0.1:${port}`;
}

export function ownOrigin(port: number): string {
  return `http://127.0.0.1:${port}`;
}

export interface Refusal {
  readonly status: 400 | 401 | 403 | 404 | 405 | 413 | 415 | 421;
  readonly reason: string;
}

/** Compares without telling by its duration how much was right. */
function isSameSecret(offered: string, expected: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(offered), digest(expected));
}

/** For every request: it must name this host, and if it tells where it comes from, that must be this host's page. */
export function refuseStranger(headers: IncomingHttpHeaders, port: number): Refusal | null {
  if (headers.host !== hostName(port)) return { status: 421, reason: 'Wrong host' };
  if (headers.origin !== undefined && headers.origin !== ownOrigin(port)) {
    return { status: 403, reason: 'Wrong origin' };
  }
  return null;
}

/** For calls over the bridge: sent by this host's page, with the token, as JSON. */
export function refuseCall(headers: IncomingHttpHeaders, port: number, token: string): Refusal | null {
  if (headers.origin !== ownOrigin(port)) return { status: 403, reason: 'Wrong origin' };
  const site = headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin') return { status: 403, reason: 'Wrong site' };
  const offered = headers[TOKEN_HEADER];
  if (typeof offered !== 'string' || !isSameSecret(offered, token)) return { status: 401, reason: 'Wrong token' };
  if (!/^application\/json(?:;\s*charset=utf-8)?$/i.test(headers['content-type'] ?? '')) {
    return { status: 415, reason: 'Calls are JSON' };
  }
  return null;
}
