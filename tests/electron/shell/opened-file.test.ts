/** Files that are opened are regular, of bearable size, and read whole. */

import { execFileSync } from 'node:child_process';
import { linkSync, mkdirSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { describeProblem } from '../../../core/describe-problem.ts';
import { OPENED_FILE_LIMIT_BYTES, readOpenedFile } from '../../../electron/shell/opened-file.ts';
import { limitHere } from '../../cpu-time.ts';
import { temporaryFolder } from '../../temporary-folder.ts';

const folder = temporaryFolder('open');
const at = (name: string) => join(folder, name);

async function refusalOf(path: string): Promise<string> {
  const opened = await readOpenedFile(path);
  return opened.ok ? 'opened' : opened.problems.map(describeProblem).join(' ');
}

test('a file is read whole, under its own name', async () => {
  const bytes = Buffer.from('{"a":"ß ⅜"}');
  writeFileSync(at('four.evenrun.json'), bytes);
  expect(await readOpenedFile(at('four.evenrun.json'))).toEqual({
    ok: true,
    value: { fileName: 'four.evenrun.json', content: bytes.toString('base64') },
  });
});

test('an empty file is read; what it lacks is for the reader to say', async () => {
  writeFileSync(at('empty.json'), '');
  expect(await readOpenedFile(at('empty.json'))).toEqual({ ok: true, value: { fileName: 'empty.json', content: '' } });
});

test('a file of exactly the limit is read, one byte more is not', async () => {
  writeFileSync(at('limit.json'), Buffer.alloc(OPENED_FILE_LIMIT_BYTES, 0x20));
  expect((await readOpenedFile(at('limit.json'))).ok).toBe(true);
  writeFileSync(at('over.json'), Buffer.alloc(OPENED_FILE_LIMIT_BYTES + 1, 0x20));
  expect(await refusalOf(at('over.json'))).toContain('larger than 10 MiB');
});

test('a sparse gibibyte is refused at once and not read', async () => {
  writeFileSync(at('huge.json'), '');
  truncateSync(at('huge.json'), 2 ** 30);
  const before = process.memoryUsage().rss;
  const cpu = process.cpuUsage();
  expect(await refusalOf(at('huge.json'))).toContain('larger than');
  const { user, system } = process.cpuUsage(cpu);
  expect((user + system) / 1000).toBeLessThan(limitHere(100));
  expect(process.memoryUsage().rss - before).toBeLessThan(20 * 2 ** 20);
});

test('a link is refused, also to a good file', async () => {
  writeFileSync(at('target.json'), '{}');
  symlinkSync(at('target.json'), at('link.json'));
  expect(await refusalOf(at('link.json'))).toContain('not a header');
});

test('a second name of the same file is the file', async () => {
  writeFileSync(at('first.json'), '{}');
  linkSync(at('first.json'), at('second.json'));
  expect((await readOpenedFile(at('second.json'))).ok).toBe(true);
});

test.runIf(process.platform === 'linux')('pipes and devices are refused without waiting', async () => {
  execFileSync('mkfifo', [at('pipe.json')]);
  expect(await refusalOf(at('pipe.json'))).toContain('not a header');
  expect(await refusalOf('/dev/zero')).toContain('not a header');
  expect(await refusalOf('/dev/null')).toContain('not a header');
});

test('a file that claims to be empty and is not is read to its end', async () => {
  const opened = await readOpenedFile('/proc/self/status');
  expect(opened.ok && Buffer.from(opened.value.content, 'base64').toString()).toContain('Name:');
});

test('a folder and a missing file are told apart', async () => {
  mkdirSync(at('folder.json'));
  expect(await refusalOf(at('folder.json'))).toContain('not a header');
  expect(await refusalOf(at('gone.json'))).toContain('is not there');
  expect(await refusalOf(at('first.json/below.json'))).toContain('is not there');
});
