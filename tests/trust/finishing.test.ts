/** Killed while it finishes headers with pictures or brings others back, the program has each of them whole or not at all. */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBackend, type TestBackend } from './backend-under-test.ts';
import { startChild } from './child-process.ts';
import type { ChildLine } from './protocol.ts';
import { randomBelow, seededRandom } from './seeded-random.ts';

const { EVENRUN_LONG } = process.env;
const KILLS = EVENRUN_LONG === '1' ? 300 : 14;
const MINUTES = 60_000;
/** Longer than a commit with a picture mostly takes. */
const LATEST_MS = 8;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenrun-finishing-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function killOnce(seed: number): Promise<readonly ChildLine[]> {
  const random = seededRandom(seed);
  const child = startChild({ folder, seed, child: 'finishing-child' });
  await child.seen('sent', 1 + randomBelow(random, 4));
  await pause(random() * LATEST_MS);
  child.process.kill('SIGKILL');
  const { signal, lines, stderr } = await child.ended;
  if (signal !== 'SIGKILL') throw new Error(`the child ended by itself: ${stderr}`);
  return lines;
}

/** How a header stands: `finished` only where nothing of it is altered and its pictures are there. */
async function stateOf(backend: TestBackend, headerId: string, pictures: number) {
  const opened = await backend.call('openHeader', { headerId });
  if (!opened.ok) return 'absent';
  const { header, damage } = opened.value;
  const count = (await backend.must('listPictures', { headerId })).pictures.length;
  if (damage !== null || count !== pictures) return `broken: ${JSON.stringify(damage)}, ${count} pictures`;
  return header.state;
}

type Told = Extract<ChildLine, { kind: 'sent' }>;

test(
  `${KILLS} kills: what was acknowledged is finished, all else is whole or absent`,
  async () => {
    let midway = 0;
    for (let seed = 1; seed <= KILLS; seed += 1) {
      const lines = await killOnce(seed);
      const backend = openBackend(folder, seededRandom(seed));
      const started = await backend.must('start', {});
      expect(started, `seed ${seed}`).toMatchObject({ state: 'ready', notices: [] });
      const acked = new Set(lines.flatMap((line) => (line.kind === 'acked' ? [line.stepIds[0]] : [])));
      for (const { stepIds, digest } of lines.filter((line): line is Told => line.kind === 'sent')) {
        const isFinish = digest === 'finish';
        const states = new Set(await Promise.all(stepIds.map((id) => stateOf(backend, id, isFinish ? 2 : 0))));
        const isAcked = acked.has(stepIds[0]);
        if (!isAcked) midway += 1;
        const allowed = isAcked ? ['finished'] : ['finished', isFinish ? 'open' : 'absent'];
        // Of one request all lines are in, or none.
        expect([...states], `seed ${seed}, ${digest} ${stepIds[0]}`).toHaveLength(1);
        expect(allowed).toContain([...states][0]);
      }
      await backend.close();
    }
    expect(midway).toBeGreaterThan(0);
  },
  5 * MINUTES,
);
