/** What follows the page holds up neither the frame that shows an edit nor, where it may wait for a rest, the keys after it. */

import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { afterNextFrame } from '../../../renderer/view/use-after-paint.ts';

const FRAME_MS = 16;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  vi.stubGlobal('requestAnimationFrame', (act: () => void) => setTimeout(act, FRAME_MS));
  vi.stubGlobal('cancelAnimationFrame', clearTimeout);
  // A browser that cannot tell when it is idle.
  vi.stubGlobal('window', {});
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

test('without a rest it comes right after the next frame', () => {
  const act = vi.fn();
  afterNextFrame(act, 0);
  expect(act).not.toHaveBeenCalled();
  vi.advanceTimersByTime(FRAME_MS);
  vi.advanceTimersByTime(1);
  expect(act).toHaveBeenCalledOnce();
});

test('of selections that come faster than the rest only the last is drawn', () => {
  const drawn: number[] = [];
  let cancel: (() => void) | null = null;
  for (let row = 0; row < 10; row += 1) {
    cancel?.();
    cancel = afterNextFrame(() => drawn.push(row), 60);
    vi.advanceTimersByTime(33);
  }
  expect(drawn).toEqual([]);
  vi.advanceTimersByTime(60);
  expect(drawn).toEqual([9]);
});

test('called off in its rest it never comes', () => {
  const act = vi.fn();
  const cancel = afterNextFrame(act, 60);
  vi.advanceTimersByTime(40);
  cancel();
  vi.runAllTimers();
  expect(act).not.toHaveBeenCalled();
});
