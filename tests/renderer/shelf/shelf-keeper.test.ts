/** Changes to the shelf arrive one after the other, and none is lost or made twice. */

import { expect, test } from 'vitest';
import type { Problem } from '../../../core/problem.ts';
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

/** A host with one shelf that checks revisions as the store does. */
function shelfHost(...items: readonly StockStraight[]) {
  const kept = new Map<string, Stored>(items.map((item) => [item.id, { item, revision: 1 }]));
  const host = { kept, isGone: false, bridge: null as unknown as HostBridge };
  const refuse = (problem: Problem) => ({ ok: false as const, problems: [problem] });
  const stale = (id: string, base: number | null): Problem | null => {
    const found = kept.get(id)?.revision ?? null;
    return found === base ? null : { kind: 'changedElsewhere', expected: base ?? 0, found: found ?? 0 };
  };
  const answer = (name: CallName, request: never): unknown => {
    if (name === 'listStock') return { ok: true, value: { stock: [...kept.values()] } };
    if (name === 'saveStockItem') {
      const { item, baseRevision } = request as RequestOf<'saveStockItem'>;
      const problem = stale(item.id, baseRevision);
      if (problem) return refuse(problem);
      const stored = { item, revision: (baseRevision ?? 0) + 1 };
      kept.set(item.id, stored);
      return { ok: true, value: stored };
    }
    const { itemId, baseRevision } = request as RequestOf<'removeStockItem'>;
    const problem = stale(itemId, baseRevision);
    if (problem) return refuse(problem);
    kept.delete(itemId);
    return { ok: true, value: {} };
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

test('two quick changes of one item both hold', async () => {
  const host = shelfHost(straight('s1', 2));
  const keeper = new ShelfKeeper(host.bridge);
  await keeper.read();
  const changes = await Promise.all([
    keeper.change('s1', (item) => ({ ok: true, item: { ...item, count: 5 } })),
    keeper.change('s1', (item) => ({ ok: true, item: { ...item, note: 'bent' } })),
  ]);
  expect(changes).toEqual([null, null]);
  expect(host.kept.get('s1')).toEqual({ item: straight('s1', 5, 'bent'), revision: 3 });
  expect(keeper.getState()).toMatchObject({ status: 'All saved', stock: [{ item: straight('s1', 5, 'bent') }] });
});

test('a change made elsewhere is not overwritten: the row shows it, and the second try is made on top of it', async () => {
  const host = shelfHost(straight('s1', 2));
  const keeper = new ShelfKeeper(host.bridge);
  await keeper.read();
  host.kept.set('s1', { item: straight('s1', 9, 'theirs'), revision: 2 });
  const setCount = () => keeper.change('s1', (item) => ({ ok: true, item: { ...item, count: 3 } }));
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
  expect(await keeper.remove('s1')).toBeNull();
  expect(keeper.getState().stock).toEqual([]);
  expect(await keeper.change('s1', (item) => ({ ok: true, item }))).toMatch(/not on the shelf/);
  expect(await keeper.add(straight('s1', 2))).toBeNull();
  expect(host.kept.get('s1')?.item).toEqual(straight('s1', 2));
});

test('a host that does not answer is said, and nothing shown is called saved', async () => {
  const host = shelfHost();
  const keeper = new ShelfKeeper(host.bridge);
  await keeper.read();
  host.isGone = true;
  expect(await keeper.add(straight('s1', 1))).toMatch(/does not answer/);
  expect(keeper.getState()).toMatchObject({ status: 'Not saved', stock: [] });
  host.isGone = false;
  expect(await keeper.add(straight('s1', 1))).toBeNull();
  expect(keeper.getState().status).toBe('All saved');
});
