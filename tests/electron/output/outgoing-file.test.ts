/** A file that leaves piece by piece is whole under its name, whoever else writes beside it. */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { outgoingFile } from '../../../electron/output/outgoing-file.ts';
import { temporaryFolder } from '../store/shop.ts';

test('two that are written to one name at once are each whole, and the last to finish stays', () => {
  const folder = temporaryFolder();
  const path = join(folder, 'everything.sqlite');
  const [first, second] = [outgoingFile(path), outgoingFile(path)];
  first.write(Buffer.from('first, '));
  second.write(Buffer.from('second, '));
  first.write(Buffer.from('whole'));
  first.finish();
  expect(readFileSync(path, 'utf8')).toBe('first, whole');
  second.write(Buffer.from('whole'));
  second.finish();
  expect(readFileSync(path, 'utf8')).toBe('second, whole');
  expect(readdirSync(folder)).toEqual(['everything.sqlite']);
});

test('a name as long as a file system takes has room for what is unfinished', () => {
  const folder = temporaryFolder();
  const file = outgoingFile(join(folder, `${'管'.repeat(82)}.jsonl`));
  file.write(Buffer.from('x'));
  file.finish();
  expect(readdirSync(folder)).toEqual([file.fileName]);
});
