/** Changes to the shelf arrive one after the other, and none is lost or made twice. */

import { expect, test } from 'vitest';
import { enterChanges } from '../../../core/stock/ledger/enter-changes.ts';
import type { ShelfRow } from '../../../core/stock/ledger/shelf-row.ts';
import type { StockStraight } from '../../../core/stock/stock-item.ts';
import type { CallName, HostBridge, Reply, RequestOf } from '../../../electron/bridge/contract.ts';
import { ShelfKeeper, type Stored } from '../../../renderer/shelf/shelf-keeper.ts';

const straight = (id: string, count: number, note = ''): StockStraight => ({
  kind: 'straight',
  id,
  material: 'mild steel',
  od: { value: 1.75, unit: 'in' },
  wall: { value: 0.065, unit: 'in' },
  length: { value: 48, unit: 'in' },
  count,
  note,
});

/** A host with one shelf that makes steps as the store does. */
function shelfHost(...items: readonly StockStraight[]) {
  const kept = new Map<string, ShelfRow>(items.map((item) => [item.id, { item, revision: 1, isRetired: false }]));
  const host = { kept, isGone: false, bridge: null as unknown as HostBridge };
  const list = (rows: readonly ShelfRow[]): Stored[] =>
    rows.flatMap(({ item, revision, isRetired }) => (isRetired ? [] : [{ item, revision, isDoubtful: false }]));
  const answer = (name: CallName, request: never): Reply<CallName> => {
    if (name === 'listStock') return { ok: true, value: { stock: list([...kept.values()]), history: NO_HISTORY } };
    if (name === 'readShelfHistory') return { ok: true, value: NO_HISTORY };
    const entered = enterChanges((id) => kept.get(id), (request as RequestOf<'changeShelf'>).changes);
    if (!entered.ok) return entered;
    const rows = entered.value.rows.map(({ after }) => after);
    for (const row of rows) kept.set(row.item.id, row);
    const gone = rows.filter(({ isRetired }) => isRetired).map(({ item }) => item.id);
    return { ok: true, value: { step: 1, stock: list(rows), gone } };
  };
  host.bridge = {
    host: 'browser',
    onEvent: () => () => undefined,
    async call<Name extends CallName>(name: Name, request: RequestOf<Name>): Promise<Reply<Name>> {
      await Promise.resolve();
      if (host.isGone) throw new Error('unreachable');
      return answer(name, request as never) as Reply<Name>;
    },
  };
  return host;
}

const NO_HISTORY = { undo: null, redo: null };
const row = (item: StockStraight, revision: number): ShelfRow => ({ item, revision, isRetired: false });

test('two quick changes of one item both hold', async () => {
  const host = shelfHost(straight('s1', 2));
  const keeper = new ShelfKeeper(host.bridge);
  await keeper.read();
  const changes = await Promise.all([
    keeper.change('s1', (item) => ({ ok: true, said: '', item: { ...item, count: 5 } })),
    keeper.change('s1', (item) => ({ ok: true, said: '', item: { ...item, note: 'bent' } })),
  ]);
  expect(changes).toEqual([null, null]);
  expect(host.kept.get('s1')).toEqual(row(straight('s1', 5, 'bent'), 3));
  expect(keeper.getState()).toMatchObject({ status: 'All saved', stock: [{ item: straight('s1', 5, 'bent') }] });
});

test('a change made elsewhere is not overwritten: the row shows it, and the second try is made on top of it', async () => {
  const host = shelfHost(straight('s1', 2));
  const keeper = new ShelfKeeper(host.bridge);
  await keeper.read();
  host.kept.set('s1', row(straight('s1', 9, 'theirs'), 2));
  const setCount = () => keeper.change('s1', (item) => ({ ok: true, said: '', item: { ...item, count: 3 } }));
  expect(await setCount()).toMatch(/changed in another window/);
  expect(host.kept.get('s1')?.item.count).toBe(9);
  expect(keeper.getState()).toMatchObject({ status: 'Not saved', stock: [{ item: { count: 9, note: 'theirs' } }] });
  expect(await setCount()).toBeNull();
  expect(host.kept.get('s1')?.item).toEqual(straight('s1', 3, 'theirs'));
});

test('a refused text changes nothing and says why', async () => {
  const host = shelfHost(straight('s1', 2));
  const keeper = new ShelfKeeper(host.bridge);
  await keeper.read();
  expect(await keeper.change('s1', () => ({ ok: false, problems: { count: 'Not a count.' } }))).toBe('Not a count.');
  expect(host.kept.get('s1')?.revision).toBe(1);
});

test('what was removed can be added again as it was, and is gone in between', async () => {
  const host = shelfHost(straight('s1', 2));
  const keeper = new ShelfKeeper(host.bridge);
  await keeper.read();
  expect(await keeper.remove(['s1'])).toBeNull();
  expect(keeper.getState().stock).toEqual([]);
  expect(await keeper.change('s1', (item) => ({ ok: true, said: '', item }))).toMatch(/not on the shelf/);
  expect(await keeper.add([straight('s1', 2)])).toBeNull();
  expect(host.kept.get('s1')?.item).toEqual(straight('s1', 2));
});

test('a host that does not answer is said, and nothing shown is called saved', async () => {
  const host = shelfHost();
  const keeper = new ShelfKeeper(host.bridge);
  await keeper.read();
  host.isGone = true;
  expect(await keeper.add([straight('s1', 1)])).toMatch(/does not answer/);
  expect(keeper.getState()).toMatchObject({ status: 'Not saved', stock: [] });
  host.isGone = false;
  expect(await keeper.add([straight('s1', 1)])).toBeNull();
  expect(keeper.getState().status).toBe('All saved');
});
