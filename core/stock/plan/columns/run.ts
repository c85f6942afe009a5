/** Straight tube that straights are cut from: a length of straight stock, or the leg of a stock bend. */

import { hundredths } from '../cut-plan.ts';
import { cutWidthMm, FIT, type SawSettings } from '../cut-problem.ts';

/**
 * `stick`: straight stock, free at both ends. `apart`: a leg whose bend is cut off, or kept with a shorter leg, so that what
 * is left of it comes off as well. `attached`: a leg that stays on what is left of the arc; what is left of it stays too.
 */
export interface Run {
  readonly kind: 'stick' | 'apart' | 'attached';
  readonly lengthMm: number;
}

/**
 * What the straights may take together, each counted with the cut after it, mm. On straight stock the last cut may run off
 * the end: pieces of s from a length L are pieces of s + w from L + w.
 */
export function runRoomMm({ kind, lengthMm }: Run, saw: SawSettings): number {
  return kind === 'stick' ? lengthMm + cutWidthMm(saw) : lengthMm;
}

/** What is left once straights that take `takenMm` with their cuts have come off: tube, and whether it is worth keeping. */
export function runRest(
  run: Run,
  takenMm: number,
  saw: SawSettings,
): { readonly restMm: number; readonly isKept: boolean } {
  const leftMm = Math.max(0, run.lengthMm - takenMm);
  if (run.kind === 'attached') return { restMm: leftMm, isKept: true };
  // A leg that comes off its bend costs one more cut, at the bend.
  const restMm = run.kind === 'stick' ? leftMm : Math.max(0, leftMm - cutWidthMm(saw));
  return { restMm, isKept: restMm > FIT && restMm >= saw.shortestRemnantMm - FIT };
}

/** Tube lost of the run, in hundredths of a millimetre. */
export function runLost(run: Run, lengthsMm: readonly number[], saw: SawSettings): number {
  const piecesMm = lengthsMm.reduce((sum, length) => sum + length, 0);
  const { restMm, isKept } = runRest(run, piecesMm + lengthsMm.length * cutWidthMm(saw), saw);
  return hundredths(run.lengthMm - piecesMm - (isKept ? restMm : 0));
}

/**
 * Every way to fill the run with straights, but for the empty one, as indexes of sizes, longest first; stops after `limit`.
 * @param sizes with how many of each there are
 */
export function waysToFill(
  run: Run,
  sizes: readonly { readonly lengthMm: number; readonly ids: readonly string[] }[],
  { saw, limit }: { readonly saw: SawSettings; readonly limit: number },
): { readonly ways: readonly (readonly number[])[]; readonly isComplete: boolean } {
  const widthMm = cutWidthMm(saw);
  const order = [...sizes.keys()].sort((a, b) => (sizes[b]?.lengthMm ?? 0) - (sizes[a]?.lengthMm ?? 0));
  const ways: (readonly number[])[] = [];
  const chosen: number[] = [];
  const extend = (from: number, roomMm: number): void => {
    for (let at = from; at < order.length && ways.length < limit; at += 1) {
      const size = order[at] ?? 0;
      const { lengthMm = 0, ids = [] } = sizes[size] ?? {};
      let leftMm = roomMm;
      for (let count = 1; count <= ids.length && ways.length < limit; count += 1) {
        leftMm -= lengthMm + widthMm;
        if (leftMm < -FIT) break;
        chosen.push(size);
        ways.push([...chosen]);
        extend(at + 1, leftMm);
      }
      while (chosen.at(-1) === size) chosen.pop();
    }
  };
  extend(0, runRoomMm(run, saw));
  return { ways, isComplete: ways.length < limit };
}
