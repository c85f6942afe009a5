/** Every call of the contract, asked once in the way it is meant. */

import { describe, expect, test } from 'vitest';
import { writeHeader } from '../../../core/header/file/header-file.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import type { StockItem } from '../../../core/stock/stock-item.ts';
import { contract } from '../../../electron/bridge/contract.ts';
import { adding, retiring, setting } from '../../shelf-changes.ts';
import { addPrimary, doStep, headerWith, openShop, primary, problemOf, straight } from './shop.ts';

const bend: StockItem = {
  kind: 'bend',
  id: 'b1',
  material: '304 stainless',
  od: { value: 1.75, unit: 'in' },
  wall: { value: 0.065, unit: 'in' },
  count: 4,
  note: '=not a formula',
  clr: { value: 3, unit: 'in' },
  angleDeg: 90,
  legs: [
    { value: 2, unit: 'in' },
    { value: 2, unit: 'in' },
  ],
};
const base64 = (text: string) => Buffer.from(text).toString('base64');

describe('starting and preferences', () => {
  test('a first start is ready and remembers nothing', async () => {
    const shop = openShop();
    expect(await shop.must('start', {})).toEqual({
      state: 'ready',
      version: '1.2.3',
      dataFolder: shop.folder,
      lastHeaderId: null,
      preferences: { theme: 'system', density: 'bench' },
      notices: [],
      cannotWrite: null,
    });
  });

  test('preferences and the last header are there again after a restart', async () => {
    const shop = openShop();
    const sizes = { panel: 380, board: 240 };
    const camera = { target: { x: 1.5, y: -2, z: 0.1 + 0.2 }, azimuthDeg: 100, elevationDeg: -20, heightMm: 400 };
    const standpoints = [{ headerId: 'h1', standpoint: { kind: 'free' as const, camera } }];
    await shop.must('savePreferences', { preferences: { theme: 'dark', density: 'desk', standpoints } });
    // What is left out of a later save stays as it was kept.
    await shop.must('savePreferences', { preferences: { theme: 'dark', density: 'desk', sizes } });
    const { header } = await headerWith(shop, []);
    await shop.close();
    const started = await openShop(shop.folder).must('start', {});
    expect(started).toMatchObject({
      lastHeaderId: header.id,
      preferences: { theme: 'dark', density: 'desk', sizes, standpoints },
    });
  });

  test("the shop's prices for moves are kept, and a price below zero is refused", async () => {
    const shop = openShop();
    const movePrices = { joint: 20, cut: 5, bend: 10, tube: 3.5, tubePer: 'ft', ordered: 45 } as const;
    const saved = (rankBy: 'minutes' | 'money', joint: number) => ({
      preferences: { theme: 'dark', density: 'desk', movePrices: { ...movePrices, rankBy, joint } } as const,
    });
    await shop.must('savePreferences', saved('minutes', 20));
    expect((await shop.call('savePreferences', saved('money', -1))).ok).toBe(false);
    await shop.close();
    const started = await openShop(shop.folder).must('start', {});
    expect(started).toMatchObject({ preferences: { movePrices: { ...movePrices, rankBy: 'minutes' } } });
  });

  test('a data folder in a synchronised folder is told', async () => {
    const shop = openShop();
    const inside = openShop(`${shop.folder}/Dropbox/Evenrun`);
    const started = await inside.must('start', {});
    expect(started.state === 'ready' && started.notices.join()).toMatch(/synchronised folder \(Dropbox\)/);
  });
});

describe('headers', () => {
  test('listed newest change first, whatever the clock says', async () => {
    const shop = openShop();
    const first = await headerWith(shop, [], 'First');
    shop.setClock('1996-01-01T00:00:00Z');
    await headerWith(shop, [], 'Second');
    await shop.must('commitSteps', {
      headerId: first.header.id,
      baseRevision: 0,
      steps: [doStep(addPrimary('p1', [straight('s1')]))],
    });
    const { headers } = await shop.must('listHeaders', { place: 'bench' });
    expect(headers.map((h) => [h.name, h.revision, h.primaryCount, h.pieceCount])).toEqual([
      ['First', 1, 1, 1],
      ['Second', 0, 0, 0],
    ]);
  });

  test('the demo is made under the name asked for', async () => {
    const { header } = await openShop().must('createHeader', { name: 'Try this', from: 'demo' });
    expect(header.name).toBe('Try this');
    expect(header.primaries.length).toBeGreaterThan(2);
  });

  test('readRevision tells revision and state, and what is not there', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('p1')]);
    expect(await shop.must('readRevision', { headerId: header.id })).toEqual({ revision: 1, state: 'open' });
    expect(problemOf(await shop.call('readRevision', { headerId: 'none' }))).toEqual({
      kind: 'notFound',
      what: 'header',
      id: 'none',
    });
  });

  test('a draft is kept over a restart and dropped when it is accepted', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    const draft = { field: 'quickEntry', text: 'b90 18' };
    await shop.must('saveDraft', { headerId: header.id, draft: { ...draft, text: 'b9' } });
    await shop.must('saveDraft', { headerId: header.id, draft });
    await shop.close();
    const again = openShop(shop.folder);
    expect((await again.must('openHeader', { headerId: header.id })).draft).toEqual(draft);
    await again.must('saveDraft', { headerId: header.id, draft: null });
    expect((await again.must('openHeader', { headerId: header.id })).draft).toBeNull();
  });

  test('binned and restored without losing anything', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('p1')]);
    await shop.must('binHeader', { headerId: header.id });
    await shop.must('binHeader', { headerId: header.id });
    expect((await shop.must('listHeaders', { place: 'bench' })).headers).toEqual([]);
    expect((await shop.must('listHeaders', { place: 'bin' })).headers).toHaveLength(1);
    await shop.must('restoreHeader', { headerId: header.id });
    expect((await shop.must('listHeaders', { place: 'bin' })).headers).toEqual([]);
    expect((await shop.must('openHeader', { headerId: header.id })).header).toEqual(header);
    expect(problemOf(await shop.call('binHeader', { headerId: 'none' }))?.kind).toBe('notFound');
  });

  test('are looked at for a list without being remembered as the last one, and those that are gone are left out', async () => {
    const shop = openShop();
    const { header: first } = await headerWith(shop, [addPrimary('p1')], 'First');
    const { header: second } = await headerWith(shop, [], 'Second');
    const looked = await shop.must('lookAtHeaders', { headerIds: [first.id, 'nobody', second.id] });
    expect(looked.headers).toEqual([first, second]);
    expect(await shop.must('start', {})).toMatchObject({ lastHeaderId: second.id });
    await shop.must('lookAtHeaders', { headerIds: [first.id] });
    expect(await shop.must('start', {})).toMatchObject({ lastHeaderId: second.id });
  });

  test('a new header follows the shop: the settings of the header before it, but not its target', async () => {
    const shop = openShop();
    const own = {
      display: { kind: 'mm' as const, places: 1 as const },
      tube: {
        material: 'mild steel',
        od: { value: 42.4, unit: 'mm' as const },
        wall: { value: 2, unit: 'mm' as const },
      },
      clr: { value: 60, unit: 'mm' as const },
      tolerance: { minus: { value: 1, unit: 'mm' as const }, plus: { value: 2, unit: 'mm' as const } },
      closure: { gap: { value: 0.3, unit: 'mm' as const }, tiltDeg: 0.5 },
    };
    const once = { weldShrinkage: { value: 0.2, unit: 'mm' as const } };
    const target = { kind: 'typed' as const, length: { value: 800, unit: 'mm' as const } };
    const { header } = await headerWith(shop, [{ kind: 'setSettings', set: { ...own, ...once, target } }]);
    const next = await shop.must('createHeader', { name: 'Next', from: 'blank' });
    expect(next.header.settings).toMatchObject(own);
    expect(next.header.settings.target).toEqual({ kind: 'longest' });
    expect(next.header.settings.weldShrinkage.value).toBe(0);
    expect(header.id).not.toBe(next.header.id);
  });

  test('a duplicate is the same header under another id and name, without history', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('p1', [straight('s1')])]);
    const copy = await shop.must('duplicateHeader', { headerId: header.id, name: 'Other bank', as: 'same' });
    expect(copy.header).toEqual({ ...header, id: copy.header.id, name: 'Other bank' });
    expect(copy.header.id).not.toBe(header.id);
    expect([copy.revision, copy.undo, copy.redo]).toEqual([0, [], []]);
  });

  test('what is exported comes in again as the same header', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('p1', [straight('s1')])], 'Four into one: "long"');
    const saved = await shop.must('exportHeader', { headerId: header.id });
    if (saved.kind !== 'download') throw new Error('not handed over');
    expect(saved.fileName).toBe('Four into one long.evenrun.json');
    expect(saved.text).toBe(writeHeader(header));
    const preview = await shop.must('previewFile', {
      fileName: saved.fileName,
      content: base64(saved.text),
      expect: 'header',
      unit: 'in',
    });
    if (preview.kind !== 'header') throw new Error('not a header');
    const imported = await shop.must('importHeader', { header: preview.header });
    expect(imported.header).toEqual({ ...header, id: imported.header.id });
  });

  test('a header whose references lead nowhere is not taken in', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    const broken = {
      ...header,
      primaries: [{ id: 'p1', name: '1', tube: null, port: null, inletId: 'gone', pieces: [] }],
    };
    expect(problemOf(await shop.call('importHeader', { header: broken }))?.kind).toBe('unknownId');
    expect((await shop.must('listHeaders', { place: 'bench' })).headers).toHaveLength(1);
  });
});

describe('files', () => {
  test('a parts list is previewed with the lines that could not be read', async () => {
    const shop = openShop();
    const csv = 'primary,kind,length,clr,angle\r\n1,straight,2 1/4,,\r\n1,bend,,3,90\r\n2,straight,two,,\r\n';
    const preview = await shop.must('previewFile', {
      fileName: 'a.csv',
      content: base64(csv),
      expect: 'parts',
      unit: 'in',
    });
    if (preview.kind !== 'parts') throw new Error('not parts');
    expect(preview.primaries.map((p) => p.pieces.map((piece) => piece.kind))).toEqual([['straight', 'bend']]);
    expect(preview.refused.map((r) => [r.line, r.column])).toEqual([[4, 'length']]);
  });

  test('a column that shows that its commas are decimal is read so, and the preview says how', async () => {
    const shop = openShop();
    const csv = 'primary;kind;length;note\r\n1;straight;57,25;2,5 over\r\n1;straight;60;\r\n';
    const preview = await shop.must('previewFile', {
      fileName: 'a.csv',
      content: base64(csv),
      expect: 'parts',
      unit: 'mm',
    });
    if (preview.kind !== 'parts') throw new Error('not parts');
    expect(preview.refused).toEqual([]);
    expect(preview.primaries[0]?.pieces).toMatchObject([
      { length: { value: 57.25, unit: 'mm' }, note: '2,5 over' },
      { length: { value: 60, unit: 'mm' } },
    ]);
    expect(preview.commas).toEqual(['57,25']);
  });

  test('a file that is not what it should be is refused whole', async () => {
    const shop = openShop();
    const ask = (content: Buffer, expectKind: 'header' | 'parts' | 'stock') =>
      shop.call('previewFile', { fileName: 'x', content: content.toString('base64'), expect: expectKind, unit: 'mm' });
    expect(problemOf(await ask(Buffer.from('{}'), 'header'))?.kind).toBe('unreadableFile');
    expect(problemOf(await ask(Buffer.from([0xff, 0xfe, 0x41]), 'parts'))).toMatchObject({ reason: 'notUtf8' });
    expect(problemOf(await ask(Buffer.from(''), 'stock'))).toMatchObject({ reason: 'empty' });
  });
});

describe('stock', () => {
  const stored = (item: StockItem, revision: number) => ({ item, revision, isDoubtful: false });

  test('rows are added, changed, taken off, each against the revision that is known', async () => {
    const shop = openShop();
    expect(await shop.must('changeShelf', adding(bend))).toEqual({ step: 1, stock: [stored(bend, 1)], gone: [] });
    const fewer = { ...bend, count: 3 };
    expect((await shop.must('changeShelf', setting(fewer, 1))).stock).toEqual([stored(fewer, 2)]);
    const stale = problemOf(await shop.call('changeShelf', setting(bend, 1)));
    expect(stale).toEqual({ kind: 'changedElsewhere', expected: 1, found: 2 });
    expect((await shop.must('listStock', {})).stock).toEqual([stored(fewer, 2)]);
    expect(problemOf(await shop.call('changeShelf', retiring('b1', 1)))?.kind).toBe('changedElsewhere');
    expect(await shop.must('changeShelf', retiring('b1', 2))).toEqual({ step: 3, stock: [], gone: ['b1'] });
    expect(problemOf(await shop.call('changeShelf', retiring('b1', 3)))?.kind).toBe('notFound');
    expect((await shop.must('listStock', {})).stock).toEqual([]);
  });

  test('many rows go in together or not at all', async () => {
    const shop = openShop();
    await shop.must('changeShelf', adding(bend));
    const reply = await shop.call('changeShelf', adding({ ...bend, id: 'b2' }, bend));
    expect(problemOf(reply)?.kind).toBe('changedElsewhere');
    await shop.must('changeShelf', adding({ ...bend, id: 'b2' }));
    expect((await shop.must('listStock', {})).stock.map(({ item }) => item.id)).toEqual(['b1', 'b2']);
  });

  test('the list is asked for by size of tube, whatever the material', async () => {
    const shop = openShop();
    const other = { ...bend, id: 'b2', material: 'mild steel' };
    const thick = { ...bend, id: 'b3', wall: { value: 2, unit: 'mm' as const } };
    await shop.must('changeShelf', adding(bend, other, thick));
    const { stock } = await shop.must('listStock', { sizes: [{ od: bend.od, wall: bend.wall }] });
    expect(stock.map(({ item }) => item.id)).toEqual(['b1', 'b2']);
    expect((await shop.must('listStock', { sizes: [] })).stock).toEqual([]);
  });

  test('the list that goes out comes in again', async () => {
    const shop = openShop();
    await shop.must('changeShelf', adding(bend));
    const saved = await shop.must('exportStock', {});
    if (saved.kind !== 'download') throw new Error('not handed over');
    expect(saved.text).toContain(`"'=not a formula"`);
    const preview = await shop.must('previewFile', {
      fileName: saved.fileName,
      content: base64(saved.text),
      expect: 'stock',
      unit: 'mm',
    });
    expect(preview).toMatchObject({ kind: 'stock', refused: [], items: [{ ...bend, id: expect.any(String) }] });
  });
});

test('the page may say that it holds nothing more', async () => {
  expect(await openShop().must('readyToClose', {})).toEqual({});
});

test('every call refuses a request of another shape, and changes nothing', async () => {
  const shop = openShop();
  await headerWith(shop, [addPrimary('p1')]);
  const before = await shop.must('listHeaders', { place: 'bench' });
  for (const name of Object.keys(contract)) {
    for (const request of [null, [], { extra: 1 }, 'text']) {
      expect(problemOf(await shop.send(name, request)), name).toMatchObject({ kind: 'invalidRequest', call: name });
    }
  }
  expect(await shop.must('listHeaders', { place: 'bench' })).toEqual(before);
});

test('a header whose file could not be read back is not exported, and that is said', async () => {
  const shop = openShop();
  const note = '管'.repeat(2000);
  const pieces = (at: number) => Array.from({ length: 300 }, (_, index) => ({ ...straight(`${at}-${index}`), note }));
  const primaries = [0, 1, 2, 3, 4, 5].map((at) => primary(`p${at}`, pieces(at)));
  const { header } = await shop.must('importHeader', {
    header: { ...newHeader({ id: 'given', name: 'Noted' }), primaries },
  });
  const refused = problemOf(await shop.call('exportHeader', { headerId: header.id }));
  expect(refused).toMatchObject({ kind: 'unreadableFile', reason: 'tooLargeToWrite' });
});

test('the shelf takes as many rows as a file of stock can bring back, 25,000, and no more', async () => {
  const shop = openShop();
  const many = (count: number, from: number) =>
    adding(...Array.from({ length: count }, (_, at) => ({ ...bend, id: `n${from + at}`, count: 0 })));
  await shop.must('changeShelf', many(20_000, 0));
  await shop.must('changeShelf', many(4999, 20_000));
  expect((await shop.must('changeShelf', adding(bend))).stock).toHaveLength(1);
  const more = { ...bend, id: 'b2' };
  expect(problemOf(await shop.call('changeShelf', adding(more)))).toMatchObject({ kind: 'tooMany', limit: 25_000 });
  await shop.must('changeShelf', retiring(bend.id, 1));
  await shop.must('changeShelf', adding(more));
});
