/** Words that change with every keystroke are said at most once a second, and the last of them always is. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { paced } from '../../../renderer/ui/paced.ts';

const GAP_MS = 1_000;

/** A clock and timers moved on by hand, and what was said when. */
function stage() {
  let nowMs = 0;
  let due: { readonly atMs: number; readonly act: () => void } | null = null;
  const said: { readonly atMs: number; readonly text: string }[] = [];
  const pace = paced({
    gapMs: GAP_MS,
    now: () => nowMs,
    timers: {
      set: (act, afterMs) => {
        due = { atMs: nowMs + afterMs, act };
        return due;
      },
      clear: () => {
        due = null;
      },
    },
    say: (text) => said.push({ atMs: nowMs, text }),
  });
  const goOn = (byMs: number) => {
    const untilMs = nowMs + byMs;
    while (due !== null && due.atMs <= untilMs) {
      const { atMs, act } = due;
      due = null;
      nowMs = atMs;
      act();
    }
    nowMs = untilMs;
  };
  return { pace, said, goOn };
}

test('the first is said at once, the last of a burst a second later, those between not at all', () => {
  const { pace, said, goOn } = stage();
  pace.give('short');
  goOn(100);
  pace.give('shorter');
  goOn(100);
  pace.give('in band');
  goOn(5_000);
  pace.give('long');
  expect(said).toEqual([
    { atMs: 0, text: 'short' },
    { atMs: 1_000, text: 'in band' },
    { atMs: 5_200, text: 'long' },
  ]);
});

test('whatever is given when: gaps of a second at least, and the last words are said', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.nat(1_500), fc.constantFrom('a', 'b', 'c')), { minLength: 1 }), (given) => {
      const { pace, said, goOn } = stage();
      for (const [waitMs, text] of given) {
        goOn(waitMs);
        pace.give(text);
      }
      goOn(GAP_MS);
      const gapsMs = said.slice(1).map(({ atMs }, index) => atMs - (said[index]?.atMs ?? 0));
      expect(gapsMs.every((gapMs) => gapMs >= GAP_MS)).toBe(true);
      expect(said.at(-1)?.text).toBe(given.at(-1)?.[1]);
    }),
  );
});

test('words that are given again are not said again, and nothing is said once it is over', () => {
  const { pace, said, goOn } = stage();
  pace.give('in band');
  pace.give('short');
  pace.give('in band');
  goOn(3_000);
  pace.give('long');
  pace.give('longer');
  pace.stop();
  goOn(3_000);
  expect(said.map(({ text }) => text)).toEqual(['in band', 'long']);
});
