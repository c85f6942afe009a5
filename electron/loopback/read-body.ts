/** Takes in the body of a request, up to a limit. */

import type { IncomingMessage } from 'node:http';

/** A header file of 10 MiB in base64, with room for the words around it. */
export const BODY_LIMIT_BYTES = 16 * 1024 * 1024;

/**
 * The whole body, or `tooLarge` as soon as that is known, or `broken` when the other side went away.
 * Stops keeping what comes after the limit.
 */
export async function readBody(request: IncomingMessage): Promise<Buffer | 'tooLarge' | 'broken'> {
  if (Number(request.headers['content-length'] ?? 0) > BODY_LIMIT_BYTES) return 'tooLarge';
  const parts: Buffer[] = [];
  let byteCount = 0;
  try {
    for await (const part of request as AsyncIterable<Buffer>) {
      byteCount += part.length;
      if (byteCount > BODY_LIMIT_BYTES) return 'tooLarge';
      parts.push(part);
    }
  } catch (cause) {
    // The stream's own errors are the other side hanging up; anything else is a defect.
    if (cause instanceof Error && 'code' in cause) return 'broken';
    throw cause;
  }
  return Buffer.concat(parts);
}
