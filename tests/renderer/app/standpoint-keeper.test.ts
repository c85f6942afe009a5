/** Where headers are looked at from: known at once, saved when the hand rests, the last few only. */

import { expect, test } from 'vitest';
import { preferencesSchema } from '../../../electron/bridge/messages.ts';
import { StandpointKeeper, type StandpointList } from '../../../renderer/app/preferences/standpoint-keeper.ts';
import type { Standpoint } from '../../../renderer/view/camera/view-camera.ts';

function turned(azimuthDeg: number): Standpoint {
  return { kind: 'free', camera: { target: { x: 1, y: 2, z: 3 }, azimuthDeg, elevationDeg: 20, heightMm: 400 } };
}

function keeper(atStart: StandpointList = []) {
  const saved: StandpointList[] = [];
  let due: (() => void) | null = null;
  const timers = {
    set: (act: () => void) => {
      due = act;
      return act;
    },
    clear: () => {
      due = null;
    },
  };
  const kept = new StandpointKeeper({ atStart, save: (list) => saved.push(list), timers });
  return { kept, saved, rest: () => due?.() };
}

test('a turn by hand is saved once, when the hand rests', () => {
  const { kept, saved, rest } = keeper();
  for (let deg = 0; deg < 90; deg += 1) kept.keep('one', turned(deg));
  expect(kept.of('one')).toEqual(turned(89));
  expect(saved).toEqual([]);
  rest();
  kept.flush();
  expect(saved).toEqual([[{ headerId: 'one', standpoint: turned(89) }]]);
});

test('what was saved is there at the next start, and another header does not take it away', () => {
  const { kept, saved } = keeper([{ headerId: 'one', standpoint: turned(10) }]);
  expect([kept.of('one'), kept.of('two')]).toEqual([turned(10), null]);
  kept.keep('two', turned(20));
  kept.flush();
  expect(saved.at(-1)?.map(({ headerId }) => headerId)).toEqual(['one', 'two']);
});

test('of many headers those looked at last are saved, as many as the store takes at their longest', () => {
  const { kept, saved } = keeper();
  const long = (number: number) => `${number}`.padStart(64, 'h');
  const third = -1e9 / 3;
  const camera = {
    target: { x: third, y: third, z: third },
    azimuthDeg: 100 / 3,
    elevationDeg: -10 / 3,
    heightMm: 1e5 / 3,
  };
  for (let number = 0; number < 30; number += 1) kept.keep(long(number), { kind: 'free', camera });
  kept.flush();
  const list = saved.at(-1) ?? [];
  expect(list.map(({ headerId }) => headerId)).toEqual(Array.from({ length: 10 }, (_none, at) => long(20 + at)));
  expect(preferencesSchema.shape.standpoints.safeParse(list).success).toBe(true);
  // The column of the store takes 4000 characters.
  expect(JSON.stringify(list).length).toBeLessThanOrEqual(4000);
});
