/** How far a download has come, shown on a terminal: one line that counts up, or a line a quarter where it is written to a file. */

import type { Progress } from './watched-download.ts';

export interface ProgressOutput {
  readonly isTTY?: boolean;
  write(text: string): unknown;
}

export interface ProgressLine {
  readonly show: Progress;
  /** Ends the line, if one was begun. */
  end(): void;
}

const REDRAW_MS = 100;
/** Where nobody said how much there is. */
const UNTOLD_STEP_BYTES = 25_000_000;

const megabytes = (bytes: number): string => (bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0);

export function progressWords(receivedBytes: number, totalBytes: number | null): string {
  if (totalBytes === null) return `${megabytes(receivedBytes)} MB`;
  const percent = Math.floor((100 * receivedBytes) / totalBytes);
  return `${megabytes(receivedBytes)} of ${megabytes(totalBytes)} MB, ${percent} %`;
}

function onTerminal(output: ProgressOutput, nowMs: () => number): ProgressLine {
  let drawnMs = Number.NEGATIVE_INFINITY;
  return {
    show(receivedBytes, totalBytes) {
      if (nowMs() - drawnMs < REDRAW_MS && receivedBytes !== totalBytes) return;
      drawnMs = nowMs();
      // Back to the line's beginning, and what is left of the longer line before is wiped.
      output.write(`\r  ${progressWords(receivedBytes, totalBytes)}\u001b[K`);
    },
    end() {
      if (drawnMs !== Number.NEGATIVE_INFINITY) output.write('\n');
    },
  };
}

function inFile(output: ProgressOutput): ProgressLine {
  let steps = 0;
  return {
    show(receivedBytes, totalBytes) {
      const now = Math.floor(receivedBytes / (totalBytes === null ? UNTOLD_STEP_BYTES : totalBytes / 4));
      if (now <= steps) return;
      steps = now;
      output.write(`  ${progressWords(receivedBytes, totalBytes)}\n`);
    },
    end: () => undefined,
  };
}

export function progressLine(output: ProgressOutput, nowMs: () => number = () => performance.now()): ProgressLine {
  return output.isTTY === true ? onTerminal(output, nowMs) : inFile(output);
}
