/** A header of which a step is damaged on disk: said where it is opened, shown as far as it is sound, and gone on with in a copy. */

import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readPdfPages } from '../electron/output/sheet/read-back.ts';
import { withoutTrigger } from '../electron/store/shop.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import {
  command,
  downloadedText,
  enterLine,
  entryLine,
  expectNoFaults,
  openBench,
  openPlace,
  PLACES,
  pieceRows,
  saveMark,
} from './page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp();
  const { header } = await app.backend.must('createHeader', { name: 'Damaged four', from: 'demo' });
  headerId = header.id;
  const steps = ['one', 'two', 'three'].map((note) => ({
    action: 'do' as const,
    stepId: `step-${note}-of-this-test`,
    edit: { kind: 'setHeader' as const, set: { note } },
  }));
  await app.backend.must('commitSteps', { headerId, baseRevision: 0, steps });
  withoutTrigger(join(app.folder, 'evenrun.sqlite'), 'journal_no_update', (db) =>
    db.exec("UPDATE journal SET label = 'x' WHERE revision = 3"),
  );
});
afterAll(async () => await app.end());

test('it says so, takes nothing, and goes on in a copy that does', async () => {
  const { page } = app;
  await openBench(page, headerId);
  const note = page.getByRole('alert').filter({ hasText: 'This header is damaged on disk' });
  await note.waitFor();
  expect(await note.textContent()).toContain('step 3 is damaged');
  expect(await entryLine(page).count()).toBe(0);
  const count = (await pieceRows(page)).length;
  await note.getByRole('button', { name: 'Go on in a copy' }).click();
  await entryLine(page).waitFor();
  expect(await note.count()).toBe(0);
  await entryLine(page).focus();
  await enterLine(page, '2 3/16');
  await expect.poll(() => pieceRows(page)).toHaveLength(count + 1);
  await expect.poll(() => saveMark(page).textContent()).toBe('All saved');
  const { headers } = await app.backend.must('listHeaders', { place: 'bench' });
  const copy = headers.find((header) => header.headerId !== headerId);
  const { header } = await app.backend.must('openHeader', { headerId: copy?.headerId ?? '' });
  expect(header.note).toBe(
    'Copied from "Damaged four", which was damaged on disk: its last steps may be missing.\ntwo',
  );
  expectNoFaults(app.faults);
});

test('a finished header that was altered behind the back of the program is told of, in the archive and where it is opened', async () => {
  const { page, backend } = app;
  const names = ['Sound four', 'Altered four'] as const;
  const ids: string[] = [];
  for (const name of names) {
    const { header } = await backend.must('createHeader', { name, from: 'demo' });
    const steps = [{ action: 'do' as const, stepId: `finish-${header.id}`, edit: { kind: 'finishHeader' as const } }];
    await backend.must('commitSteps', { headerId: header.id, baseRevision: 0, steps });
    ids.push(header.id);
  }
  withoutTrigger(join(app.folder, 'evenrun.sqlite'), 'snapshots_no_update', (db) =>
    db
      .prepare(
        `UPDATE snapshots SET document = replace(document, '"value":5.5', '"value":5.25') WHERE header_id = ? AND revision = 1`,
      )
      .run(ids[1]),
  );
  await openPlace(page, PLACES.archive);
  const row = (name: string) => page.getByRole('listitem').filter({ hasText: name });
  await row('Altered four').getByText('Damaged: not as it was finished.').waitFor();
  expect(await row('Sound four').getByText('Damaged').count()).toBe(0);
  await openBench(page, ids[1] ?? '');
  await page.getByRole('alert').filter({ hasText: '"Altered four" is not as it was finished' }).waitFor();
  expect(await page.getByText('Finished: it does not change any more.').count()).toBe(0);
  await command(page, 'sheets');
  await page.getByRole('img', { name: /^Build sheet, page 1 of/ }).waitFor();
  const onPage = () => page.locator('svg.sheet-page text').allTextContents();
  expect((await onPage()).join(' ')).toContain('DO NOT BUILD FROM THIS.');
  await page.getByRole('button', { name: 'Next page' }).click();
  await page.getByRole('img', { name: /^Build sheet, page 2 of/ }).waitFor();
  expect((await onPage()).join(' ')).toContain('DO NOT BUILD FROM THIS.');
  const csv = await downloadedText(page, () => page.getByRole('button', { name: 'Save CSV' }).click());
  expect(csv.split('\r\n')[0]).toContain('DO NOT BUILD FROM THIS.');
  await openBench(page, ids[1] ?? '');
  // The bench as it is printed: the sentence at its head, and a line in the margin of every page.
  await page.emulateMedia({ media: 'print' });
  await page.locator('.print-fault').waitFor();
  const printed = await readPdfPages(await page.pdf({ format: 'A4' }));
  expect(printed.length).toBeGreaterThan(1);
  for (const { words } of printed) expect(words).toContain('DO NOT BUILD FROM THIS');
  await page.emulateMedia({ media: 'screen' });
  await openBench(page, ids[0] ?? '');
  await page.getByText('Finished: it does not change any more.').waitFor();
});
