/**
 * Makes the database that is kept of the present schema: `node tests/electron/store/make-fixture.ts` writes
 * fixtures/db/v<version>.sqlite. Run once before a release that has a new version, and never again for that version.
 */

import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Edit } from '../../../core/edits/edit.ts';
import type { StockBend, StockStraight } from '../../../core/stock/stock-item.ts';
import { SCHEMA_VERSION } from '../../../electron/store/schema/migrations.ts';
import { adding, setting } from '../../shelf-changes.ts';
import { openBackend, type TestBackend } from '../../trust/backend-under-test.ts';
import { seededRandom } from '../../trust/seeded-random.ts';

const FIXTURES = new URL('../../../fixtures/db/', import.meta.url).pathname;

const tube = {
  material: '304 stainless',
  od: { value: 1.75, unit: 'in' },
  wall: { value: 0.065, unit: 'in' },
} as const;
const STRAIGHT: StockStraight = {
  ...tube,
  kind: 'straight',
  id: 'stock-straight',
  count: 2,
  note: '',
  length: { value: 48, unit: 'in' },
};
const BEND: StockBend = {
  ...tube,
  kind: 'bend',
  id: 'stock-bend',
  count: 4,
  note: 'top shelf',
  clr: { value: 3, unit: 'in' },
  angleDeg: 90,
  legs: [
    { value: 2, unit: 'in' },
    { value: 2, unit: 'in' },
  ],
};

async function take(backend: TestBackend, headerId: string, edits: readonly Edit[]): Promise<void> {
  const steps = edits.map((edit, index) => ({ action: 'do' as const, stepId: `${headerId}-${index}`, edit }));
  await backend.must('commitSteps', { headerId, baseRevision: 0, steps });
}

async function fill(backend: TestBackend): Promise<void> {
  const extra = { id: 'extra', name: 'Extra', tube: null, port: null, inletId: null, pieces: [] };
  const { header: demo } = await backend.must('createHeader', { name: 'Demo', from: 'demo' });
  // Enough for a second snapshot, the last of them an undo.
  const notes = Array.from({ length: 68 }, (_, at): Edit => ({ kind: 'setHeader', set: { note: `note ${at}` } }));
  await take(backend, demo.id, [...notes, { kind: 'addPrimary', primary: extra, at: 4 }, ...notes.slice(0, 1)]);
  const undo = { action: 'undo' as const, stepId: `${demo.id}-undo` };
  await backend.must('commitSteps', { headerId: demo.id, baseRevision: 70, steps: [undo] });
  const { header: finished } = await backend.must('createHeader', { name: 'Finished', from: 'demo' });
  await take(backend, finished.id, [{ kind: 'setHeader', set: { note: 'welded' } }, { kind: 'finishHeader' }]);
  const { header: binned } = await backend.must('createHeader', { name: 'Binned', from: 'blank' });
  await backend.must('binHeader', { headerId: binned.id });
  await backend.must('saveDraft', { headerId: demo.id, draft: { field: 'entry:extra', text: 'b90 1' } });
  await backend.must('changeShelf', adding(STRAIGHT, BEND));
  const cut = { kind: 'move', itemId: 'stock-bend', pieces: 1, reason: 'cut' } as const;
  const left: StockBend = { ...BEND, id: 'stock-remnant', angleDeg: 30, count: 1, note: '', cutFrom: 'stock-bend' };
  await backend.must('changeShelf', { changes: [cut, { kind: 'add', item: left }], because: 'Cut plan' });
  const { step } = await backend.must('changeShelf', setting({ ...STRAIGHT, count: 5, cost: 12.5, least: 2 }, 1));
  await backend.must('turnShelfBack', { action: 'undo', step });
  await backend.must('savePreferences', { preferences: { theme: 'dark', density: 'desk', sizes: { panel: 380 } } });
  await backend.must('openHeader', { headerId: demo.id });
}

const folder = mkdtempSync(join(tmpdir(), 'evenrun-fixture-'));
try {
  const backend = openBackend(folder, seededRandom(1));
  await fill(backend);
  await backend.close();
  mkdirSync(FIXTURES, { recursive: true });
  copyFileSync(join(folder, 'evenrun.sqlite'), join(FIXTURES, `v${SCHEMA_VERSION}.sqlite`));
} finally {
  rmSync(folder, { recursive: true });
}
