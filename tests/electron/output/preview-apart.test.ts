/** Files are read so that nothing else waits, and none is read for ever. */

import { describe, expect, test } from 'vitest';
import { partsRows } from '../../../core/header/parts/parts-rows.ts';
import { csvText, demoHeader, writeHeader } from '../../../core/index.ts';
import { previewApart } from '../../../electron/output/preview-apart.ts';

const base64 = (text: string) => Buffer.from(text).toString('base64');
const newId = (() => {
  let count = 0;
  return () => {
    count += 1;
    return `n${count}`;
  };
})();
const request = (text: string, expectKind: 'header' | 'parts' | 'stock') =>
  ({ fileName: 'x', content: base64(text), expect: expectKind, unit: 'in' }) as const;

/** No test waits for the program's own limit, which a busy machine could reach. */
const patient = { newId, limitMs: 50_000 };

const MIB = 1024 * 1024;
/** Valid white space, so that the file is large and says the same. */
const enlarged = (text: string) => text + ' '.repeat(MIB);
const fields = Array.from({ length: 300_000 }, (_, index) => `,"field${index}":0`).join('');
const HOSTILE: readonly (readonly [name: string, text: string])[] = [
  ['unknown fields', `{"format":"evenrun-header","version":1,"header":{"id":"a"${fields}}}`],
  ['accents', `{"format":"evenrun-header","version":1,"header":{"name":"${'\u0301\u0316'.repeat(2 * MIB)}"}}`],
  ['an endless list', `{"format":"evenrun-header","version":1,"header":{"primaries":[${'0,'.repeat(4 * MIB)}0]}}`],
];

/** The longest time, in ms, that a timer had to wait beyond its own while `work` went on. */
async function longestWait(work: Promise<unknown>): Promise<number> {
  let isDone = false;
  const ended = work.finally(() => {
    isDone = true;
  });
  let longestMs = 0;
  let before = performance.now();
  while (!isDone) {
    await new Promise((resolve) => setTimeout(resolve, 1));
    const now = performance.now();
    longestMs = Math.max(longestMs, now - before);
    before = now;
  }
  await ended;
  return longestMs;
}

describe('a large file', () => {
  test('gives what a small one gives, but for the ids that it makes up', async () => {
    const demo = demoHeader('demo');
    expect(await previewApart(request(enlarged(writeHeader(demo)), 'header'), patient)).toEqual({
      ok: true,
      value: { kind: 'header', header: demo },
    });
    const parts = await previewApart(request(enlarged(csvText(partsRows(demo, 'in'))), 'parts'), patient);
    expect(parts).toMatchObject({ ok: true, value: { kind: 'parts', primaries: { length: 4 }, refused: [] } });
  });

  test.each(HOSTILE)('of %s is refused with a reason', async (_name, text) => {
    const answer = await previewApart(request(text, 'header'), patient);
    expect(answer).toMatchObject({ ok: false });
    expect(answer.ok ? 0 : answer.problems.length).toBeLessThanOrEqual(51);
  });

  test('lets others have their turn while it is read', async () => {
    const asked = HOSTILE.map(([, text]) => request(text, 'header'));
    const readingMs: number[] = [];
    const waits: number[] = [];
    for (const one of asked) {
      const began = performance.now();
      waits.push(await longestWait(previewApart(one, patient)));
      readingMs.push(performance.now() - began);
    }
    // Not in milliseconds, which say more of the machine: no wait is near the time that the reading took.
    for (const [index, waitMs] of waits.entries()) expect(waitMs).toBeLessThan((readingMs[index] ?? 0) / 2);
  });

  test('that takes too long is put aside, with a reason, and its thread is ended', async () => {
    const [, text] = HOSTILE[0] as (typeof HOSTILE)[number];
    expect(await previewApart(request(text, 'header'), { newId, limitMs: 20 })).toEqual({
      ok: false,
      problems: [{ kind: 'unreadableFile', reason: 'tooSlow', path: [], detail: '0.02 seconds' }],
    });
  });
});

test('a small file is read at once, with the ids that it is given', async () => {
  const parts = await previewApart(request('primary,length\n1,2\n', 'parts'), patient);
  expect(parts).toMatchObject({ ok: true, value: { primaries: [{ id: expect.stringMatching(/^n\d+$/) }] } });
});
