/** Finished headers leave as lines of an open file and come back elsewhere as they were, under the same checksum. */

import { describe, expect, test } from 'vitest';
import { type FinishedFigures, type FinishedRecord, sealOf } from '../../../electron/store/finished/record.ts';
import type { PictureFacts } from '../../../electron/store/pictures/picture-table.ts';
import { EVERYTHING } from '../../archive-asked.ts';
import { behindTheBack, exported, finishedHeader, numbered, shopWithFinished } from './finished-shop.ts';
import { headerWith, openShop, type Shop } from './shop.ts';

const bring = async (shop: Shop, text: string) =>
  (await shop.must('bringBackFinished', { lines: numbered(text) })).lines;
const kinds = async (shop: Shop, text: string) => (await bring(shop, text)).map(({ kind }) => kind);

test('on another computer each is what it was: document, figures, plans, pictures and checksum', async () => {
  const { shop, headerId } = await shopWithFinished();
  await finishedHeader(shop, 'Second');
  const { text, done } = await exported(shop);
  expect(done).toMatchObject({
    kind: 'exported',
    headers: 2,
    leftOut: [],
    fileName: null,
    bytes: Buffer.byteLength(text),
  });
  const other = openShop();
  await headerWith(other, [], 'In hand');
  const { lastHeaderId } = (await other.must('start', {})) as { lastHeaderId: string };
  expect(await bring(other, text)).toMatchObject([
    { kind: 'brought', line: 1, headerId, name: 'Bench four' },
    { kind: 'brought', line: 2, name: 'Second' },
  ]);
  for (const call of ['openHeader', 'listPictures', 'listCutPlans'] as const) {
    const [here, there] = [await shop.must(call, { headerId }), await other.must(call, { headerId })];
    if (call !== 'listPictures' && call !== 'openHeader') expect(there).toEqual(here);
  }
  const { header, damage } = await other.must('openHeader', { headerId });
  expect([header, damage]).toEqual([(await shop.must('openHeader', { headerId })).header, null]);
  const rows = async (at: Shop) =>
    (await at.must('searchArchive', EVERYTHING)).rows.toSorted((a, b) => a.name.localeCompare(b.name));
  expect(await rows(other)).toEqual(await rows(shop));
  const pictures = async (at: Shop) => {
    const list = (await at.must('listPictures', { headerId })).pictures;
    return Promise.all(
      list.map(async ({ id, ...facts }) => ({
        ...facts,
        ...(await at.must('readPicture', { headerId, pictureId: id })),
      })),
    );
  };
  expect(await pictures(other)).toEqual(await pictures(shop));
  expect(await pictures(other)).toHaveLength(2);
  // To the byte, the checksums included; and again after a start, when all is checked.
  expect((await exported(other)).text).toBe(text);
  await other.close();
  const again = openShop(other.folder);
  expect(await again.must('start', {})).toMatchObject({ state: 'ready', notices: [] });
  expect((await exported(again)).text).toBe(text);
  expect(lastHeaderId).not.toBe(headerId);
});

test('one that is brought in does not become the header that the program opens with', async () => {
  const { shop } = await shopWithFinished();
  const { text } = await exported(shop);
  const other = openShop();
  const { header } = await headerWith(other, [], 'In hand');
  await bring(other, text);
  expect(await other.must('start', {})).toMatchObject({ lastHeaderId: header.id });
});

test('it takes no steps there, and a copy of it does', async () => {
  const { shop, headerId } = await shopWithFinished();
  const other = openShop();
  await bring(other, (await exported(shop)).text);
  const steps = [
    { action: 'do' as const, stepId: 'brought-step', edit: { kind: 'setHeader' as const, set: { note: 'x' } } },
  ];
  expect(await other.call('commitSteps', { headerId, baseRevision: 0, steps })).toMatchObject({
    ok: false,
    problems: [{ kind: 'finished' }],
  });
  const copy = await other.must('duplicateHeader', { headerId, name: 'Again', as: 'again' });
  await other.must('commitSteps', { headerId: copy.header.id, baseRevision: 0, steps });
});

describe('doubles', () => {
  test('one that is here already is told, in the bin as well, and nothing is done', async () => {
    const { shop, headerId } = await shopWithFinished();
    const { text } = await exported(shop);
    expect(await bring(shop, text)).toEqual([{ kind: 'alreadyThere', line: 1, headerId, name: 'Bench four' }]);
    await shop.must('binHeader', { headerId });
    expect(await kinds(shop, text)).toEqual(['inBin']);
    const other = openShop();
    expect(await kinds(other, `${text}${text}`)).toEqual(['brought', 'alreadyThere']);
    expect((await other.must('listHeaders', { place: 'bench' })).headers).toHaveLength(1);
  });

  test('another header with the same id comes in beside the first, under the same checksum', async () => {
    const { shop, headerId } = await shopWithFinished();
    const { text } = await exported(shop);
    const other = openShop();
    const mine = await finishedHeader(other, 'Mine');
    const renamed = text.replace(`"id":"${headerId}"`, `"id":"${mine}"`);
    const [brought] = await bring(other, renamed);
    expect(brought).toMatchObject({ kind: 'broughtAsAnother', name: 'Bench four' });
    const checksums = (of: string) => of.match(/"checksum":"[0-9a-f]{64}"/g);
    const all = checksums((await exported(other)).text);
    expect(all).toHaveLength(2);
    expect(all).toContain(checksums(text)?.[0]);
    expect(await kinds(other, renamed)).toEqual(['alreadyThere']);
  });

  test('the sound one comes in beside one that was altered', async () => {
    const { shop, headerId } = await shopWithFinished();
    const { text } = await exported(shop);
    behindTheBack(shop.file, (db) => db.exec("UPDATE pictures SET caption = 'x'"));
    const [brought] = await bring(shop, text);
    expect(brought).toMatchObject({ kind: 'broughtAsAnother' });
    const sound = brought?.kind === 'broughtAsAnother' ? brought.headerId : '';
    const { altered } = await shop.must('checkFinished', { headerIds: [headerId, sound] });
    expect(altered.map((one) => one.headerId)).toEqual([headerId]);
  });
});

describe('a file that was damaged or is another', () => {
  test('each such line is named with what is wrong, and the others come in', async () => {
    const { shop } = await shopWithFinished();
    await finishedHeader(shop, 'Second');
    const { text } = await exported(shop);
    const [first = '', second = ''] = text.split('\n');
    const lines = [
      first.replace('Flange side', 'Plange side'),
      first.replace('"value":20', '"value":20.0'),
      first.slice(0, 500),
      '{"format":"evenrun-header","version":1}',
      'Bench four;10;20',
      second.replace('"version":1', '"version":2'),
      second.replace('{', '{"extra":1,'),
      second.replace('"state":"finished"', '"state":"open"'),
      '[]',
      second,
    ];
    const answer = await bring(openShop(), lines.join('\n'));
    const told = answer.map((one) =>
      one.kind === 'refused'
        ? `${one.line} ${'reason' in one.problem ? one.problem.reason : one.problem.kind}`
        : `${one.line} ${one.kind}`,
    );
    expect(told).toEqual([
      '1 altered',
      // Another spelling of the same number is the same header.
      '2 brought',
      '3 notJson',
      '4 notFinished',
      '5 notJson',
      '6 newerFormat',
      '7 altered',
      '8 altered',
      '9 notFinished',
      '10 brought',
    ]);
  });

  test('no letter can be changed without a line being refused or meaning the same', async () => {
    const { shop } = await shopWithFinished();
    const { text } = await exported(shop);
    const line = text.trimEnd();
    const { checksum } = JSON.parse(line);
    const step = Math.ceil(line.length / 150);
    let refused = 0;
    for (let at = 0; at < line.length; at += step) {
      const other = `${line.slice(0, at)}${line[at] === '3' ? '4' : '3'}${line.slice(at + 1)}`;
      const target = openShop();
      const [answer] = await bring(target, other);
      if (answer?.kind === 'refused') refused += 1;
      // Only the id may differ, which the checksum leaves out on purpose.
      else expect(JSON.parse((await exported(target)).text).checksum).toBe(checksum);
      await target.close();
    }
    expect(refused).toBeGreaterThan(140);
  });
});

/** A line that was changed by someone who worked out its checksum anew. */
function forged(line: string, change: (fields: Forged) => void): string {
  const fields = JSON.parse(line) as Forged;
  change(fields);
  const { header, figures, plans } = fields;
  const pictures = fields.pictures.map(({ content: _, ...facts }) => facts);
  return JSON.stringify({ ...fields, checksum: sealOf({ header, figures, plans, pictures }) });
}

type Forged = { -readonly [Field in Exclude<keyof FinishedRecord, 'pictures'>]: FinishedRecord[Field] } & {
  readonly pictures: readonly (PictureFacts & { readonly content: string })[];
};

describe('a line with a checksum that fits', () => {
  test.each<[string, Partial<FinishedFigures>]>([
    ['no time', { finishedAt: 'yesterday' }],
    ['a time beyond all dates', { finishedAt: '+300000-01-01T00:00:00Z' }],
    ['a tube of less than nothing', { odMm: -1 }],
    ['a wall of less than nothing', { wallMm: -1 }],
    ['a target below nothing', { targetMm: -1 }],
    ['a spread below nothing', { spreadMm: -1 }],
  ])('%s is refused, and the next line comes in', async (_what, wrong) => {
    const { shop } = await shopWithFinished();
    await finishedHeader(shop, 'Second');
    const [first = '', second = ''] = (await exported(shop)).text.split('\n');
    const line = forged(first, (fields) => {
      fields.figures = { ...fields.figures, ...wrong };
    });
    expect(await kinds(openShop(), `${line}\n${second}`)).toEqual(['refused', 'brought']);
  });

  test('as many cut plans as there were come back with their header', async () => {
    const { shop } = await shopWithFinished();
    const line = forged((await exported(shop)).text, (fields) => {
      fields.plans = Array.from({ length: 101 }, () => fields.plans[0] ?? { madeAt: '', kept: null as never });
    });
    const other = openShop();
    const [brought] = await bring(other, line);
    expect(brought?.kind).toBe('brought');
    const headerIds = brought?.kind === 'brought' ? [brought.headerId] : [];
    expect(await other.must('checkFinished', { headerIds })).toEqual({ altered: [] });
  });
});

test('an export that is stopped leaves nothing that goes on, and says so when it is asked again', async () => {
  const { shop } = await shopWithFinished();
  const { workId } = await shop.must('beginExport', { headerIds: null });
  await shop.must('stopWork', { workId: workId ?? '' });
  expect(await shop.call('continueWork', { workId: workId ?? '', piece: null })).toMatchObject({
    ok: false,
    problems: [{ kind: 'workGone' }],
  });
});
