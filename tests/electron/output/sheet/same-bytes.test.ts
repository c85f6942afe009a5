/** The same header gives the same bytes: in two processes, in two time zones, and after a thousand steps undone and redone. */

import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { applyEdit } from '../../../../core/edits/apply-edit.ts';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import type { Header } from '../../../../core/header/header.ts';
import { temporaryFolder } from '../../../temporary-folder.ts';
import { seededRandom } from '../../../trust/seeded-random.ts';
import { EDIT_KINDS, randomEdit } from '../../store/random-edits.ts';
import { drawDigests } from './draw-digests.ts';

const SCRIPT = fileURLToPath(new URL('./draw-digests.ts', import.meta.url));

function inProcess(header: Header, zone: string): string {
  const file = join(temporaryFolder('sheet'), 'header.json');
  writeFileSync(file, JSON.stringify(header));
  const env = { ...process.env, TZ: zone, LANG: zone === 'Asia/Kathmandu' ? 'ne_NP.UTF-8' : 'C' };
  const { stdout, stderr, status } = spawnSync(process.execPath, ['--no-warnings', SCRIPT, file], { env });
  if (status !== 0) throw new Error(String(stderr));
  return String(stdout);
}

test('in two processes and two time zones', async () => {
  const header = demoHeader('demo');
  const here = `${JSON.stringify(await drawDigests(header))}\n`;
  expect(inProcess(header, 'Asia/Kathmandu')).toBe(here);
  expect(inProcess(header, 'America/St_Johns')).toBe(here);
});

test('after a thousand steps, undone and redone', async () => {
  const random = seededRandom(15);
  let header: Header = demoHeader('demo');
  const before = await drawDigests(header);
  let steps = 0;
  const step = (edit: Parameters<typeof applyEdit>[1]) => {
    const applied = applyEdit(header, edit);
    if (!applied.ok) return null;
    header = applied.value.header;
    steps += 1;
    return applied.value.inverse;
  };
  for (let at = 0; steps < 1000; at += 1) {
    const kind = EDIT_KINDS[at % EDIT_KINDS.length] ?? 'setHeader';
    const edit = randomEdit(kind, header, { id: `new-${at}`, draw: random });
    const undo = step(edit);
    if (undo === null) continue;
    const redo = step(undo);
    const again = redo === null ? null : step(redo);
    if (again === null || step(again) === null) throw new Error('an inverse was refused');
  }
  expect(await drawDigests(header)).toEqual(before);
});

test('another header gives other bytes', async () => {
  const demo = demoHeader('demo');
  const [one, other] = [await drawDigests(demo), await drawDigests(changed(demo))];
  for (const [name, digest] of Object.entries(one)) expect(other[name], name).not.toBe(digest);
});

/** Another name, and another length of the first piece: one of them is in every file. */
function changed(header: Header): Header {
  const primaries = header.primaries.map((primary, at) => {
    const [first, ...rest] = primary.pieces;
    if (at > 0 || first?.kind !== 'straight') return primary;
    return { ...primary, pieces: [{ ...first, length: { value: 5.75, unit: 'in' as const } }, ...rest] };
  });
  return { ...header, name: 'Hill-climb fours', primaries };
}
