/** A file is read line by line, whatever its size and however its lines fall on the pieces that are read. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type FileLine, fileLines } from '../../../renderer/archive/files/file-lines.ts';

const LIMIT = 3_000_000;

async function read(content: string | Uint8Array, limit = LIMIT): Promise<readonly FileLine[]> {
  const lines: FileLine[] = [];
  for await (const line of fileLines(new Blob([content as BlobPart]), limit)) lines.push(line);
  return lines;
}

test('lines are counted from 1 as an editor counts them, empty ones too, and the last needs no end', async () => {
  expect((await read('a\r\n\n  \nb\nc')).map(({ line, text }) => [line, text])).toEqual([
    [1, 'a'],
    [4, 'b'],
    [5, 'c'],
  ]);
  expect(await read('')).toEqual([]);
});

test('every line comes as it was, across pieces of a megabyte', async () => {
  const lengths = fc.array(fc.integer({ min: 1, max: 900_000 }), { minLength: 1, maxLength: 6 });
  await fc.assert(
    fc.asyncProperty(lengths, async (given) => {
      const texts = given.map((length, at) => `${at}ä`.padEnd(length, 'x'));
      const content = `${texts.join('\n')}\n`;
      const lines = await read(content);
      expect(lines.map(({ text }) => text)).toEqual(texts);
      expect(lines.at(-1)?.end).toBe(new Blob([content]).size);
    }),
    { numRuns: 12 },
  );
});

test('a line that is too long is told by its number, and those after it come', async () => {
  const lines = await read(`a\n${'x'.repeat(2_500_000)}\nb`, 1000);
  expect(lines.map(({ line, text }) => [line, text])).toEqual([
    [1, 'a'],
    [2, null],
    [3, 'b'],
  ]);
});

test('a byte order mark is no part of the first line, and bytes that are no text do not stop the rest', async () => {
  const bytes = new Uint8Array([0xef, 0xbb, 0xbf, 0x61, 0x0a, 0xff, 0x0a, 0x62]);
  expect((await read(bytes)).map(({ text }) => text)).toEqual(['a', '\ufffd', 'b']);
});
