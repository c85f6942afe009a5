/** R2: the power goes at a chosen write while the program edits; what was not synced is lost, reordered or torn. */

import { mkdirSync, mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startChild } from './child-process.ts';
import {
  addVerdict,
  type CrashSubject,
  EMPTY_TALLY,
  HEADER_SUBJECT,
  type Tally,
  type Verdict,
} from './crash-verdict.ts';
import { randomBelow, seededRandom } from './seeded-random.ts';

/** With which the shim leaves after a cut. */
export const CUT_STATUS = 97;
/** Operations on disk after the opening that cuts are spread over. */
const EDITING_OPERATIONS = 900;

export interface CutOptions {
  readonly shim: string;
  /** The writes at which the power goes, one run each. */
  readonly cutsAt: readonly number[];
  readonly seed: number;
  /** Left out: a header. */
  readonly subject?: CrashSubject;
  /** Runs the same program at synchronous=NORMAL behind its back; such a run must lose something. */
  readonly sabotaged?: boolean;
  /** Ends the runs early, once they have shown what they are for. */
  readonly isEnough?: (tally: Tally) => boolean;
}

/** Cut points at random: one in five in the `opening` operations of making and opening it, the others while it is edited. */
export function randomCuts(count: number, opening: number, seed: number): readonly number[] {
  const random = seededRandom(seed);
  return Array.from({ length: count }, (_, index) =>
    index % 5 === 0 ? 1 + randomBelow(random, opening) : opening + randomBelow(random, EDITING_OPERATIONS),
  );
}

async function cutOnce(options: CutOptions, root: string, at: number, seed: number): Promise<Verdict> {
  const folder = join(root, 'data');
  mkdirSync(folder);
  const env = { LD_PRELOAD: options.shim, PCUT_FOLDER: folder, PCUT_AT: String(at), PCUT_SEED: String(seed) };
  const { child: childName, judge } = options.subject ?? HEADER_SUBJECT;
  const child = startChild({
    folder,
    seed,
    child: childName,
    env,
    ...(options.sabotaged === true ? { preload: 'sabotage-synchronous' as const } : {}),
  });
  const end = await child.ended;
  if (end.status !== CUT_STATUS) throw new Error(`no power cut at ${at} (${end.status}, ${end.signal}): ${end.stderr}`);
  return await judge(folder, end.lines);
}

export async function runPowerCuts(options: CutOptions): Promise<Tally> {
  let tally = EMPTY_TALLY;
  let { seed } = options;
  for (const at of options.cutsAt) {
    if (options.isEnough?.(tally) === true) break;
    const root = realpathSync(mkdtempSync(join(tmpdir(), 'evenrun-cut-')));
    try {
      tally = addVerdict(tally, await cutOnce(options, root, at, seed), `power cut at ${at}, seed ${seed}`);
    } finally {
      rmSync(root, { recursive: true });
    }
    seed += 1;
  }
  return tally;
}
