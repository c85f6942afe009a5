/** Brings a file from an address, and gives up with a plain reason when nothing comes for too long. */

import { createWriteStream } from 'node:fs';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';

/** How long to wait for bytes, in milliseconds. */
export interface WaitLimits {
  /** From asking to the first byte of the file. */
  readonly firstByteMs: number;
  /** From one byte to the next. */
  readonly betweenBytesMs: number;
}

export const WAIT_LIMITS: WaitLimits = { firstByteMs: 15_000, betweenBytesMs: 30_000 };

/** Bytes so far and in all; null where the other side did not say how many there are. */
export type Progress = (receivedBytes: number, totalBytes: number | null) => void;

/** A download that came to nothing for a foreseen reason; the message is words for people, without a full stop. */
export class DownloadFailure extends Error {
  override readonly name = 'DownloadFailure';
}

export interface DownloadOptions {
  readonly limits: WaitLimits;
  /** Ends the download at once, with the signal's own reason. */
  readonly signal: AbortSignal;
  readonly onProgress: Progress;
}

const seconds = (ms: number): string => `${ms / 1000} seconds`;

/** Aborts its signal unless bytes keep coming. */
class StallWatch {
  readonly #abort = new AbortController();
  readonly #limits: WaitLimits;
  #timer: NodeJS.Timeout;

  constructor(limits: WaitLimits) {
    this.#limits = limits;
    this.#timer = this.#wait(limits.firstByteMs, `nothing came within ${seconds(limits.firstByteMs)}`);
  }

  get signal(): AbortSignal {
    return this.#abort.signal;
  }

  bytesCame(): void {
    clearTimeout(this.#timer);
    const { betweenBytesMs } = this.#limits;
    this.#timer = this.#wait(betweenBytesMs, `it stopped half-way, and no more came for ${seconds(betweenBytesMs)}`);
  }

  end(): void {
    clearTimeout(this.#timer);
  }

  #wait(ms: number, reason: string): NodeJS.Timeout {
    return setTimeout(() => this.#abort.abort(new DownloadFailure(reason)), ms);
  }
}

function announcedBytes(response: Response): number | null {
  const stated = Number(response.headers.get('content-length') ?? Number.NaN);
  return Number.isSafeInteger(stated) && stated > 0 ? stated : null;
}

/**
 * Writes what stands at `address` to `targetFile`. Throws a `DownloadFailure` for a refusal or a stall, and the causes of `fetch`
 * and of the disk as they are; what was written until then is the caller's to remove.
 */
export async function downloadWatched(address: string, targetFile: string, options: DownloadOptions): Promise<void> {
  const watch = new StallWatch(options.limits);
  const signal = AbortSignal.any([options.signal, watch.signal]);
  try {
    const response = await fetch(address, { signal });
    if (!response.ok) throw new DownloadFailure(`the answer was ${response.status} ${response.statusText}`.trim());
    if (response.body === null) throw new DownloadFailure('the answer was empty');
    const totalBytes = announcedBytes(response);
    let receivedBytes = 0;
    const watched = async function* (source: AsyncIterable<Uint8Array>) {
      for await (const part of source) {
        watch.bytesCame();
        receivedBytes += part.length;
        options.onProgress(receivedBytes, totalBytes);
        yield part;
      }
    };
    await pipeline(Readable.fromWeb(response.body), watched, createWriteStream(targetFile), { signal });
  } catch (cause) {
    // The streams tell an abort in their own words; its reason is what people should read.
    throw signal.aborted ? signal.reason : cause;
  } finally {
    watch.end();
  }
}
