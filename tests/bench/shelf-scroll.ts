/** P10 scroll: a shelf of 20,000 rows scrolls as smoothly as a hand can follow, painted by the processor alone. */

import { launchApp } from '../e2e/app-under-test.ts';
import { openPlace, PLACES } from '../e2e/page-parts.ts';
import type { Measure, RunSize } from '../measure.ts';
import { adding } from '../shelf-changes.ts';
import { SHELF_ROWS, shelfRow } from './shelf-speed.ts';

const GOAL_FRAMES = 30;
const ROWS_A_STEP = 5000;
/** Two rows and a bit a frame: a fast turn of the wheel, so that new rows come into sight all the time. */
const PX_A_FRAME = 97;

/** Runs in the page: scrolls on with every frame for so long, and gives the times of the frames. */
async function scrollThrough([forMs, pxAFrame]: readonly [number, number]): Promise<readonly number[]> {
  const scroller = document.querySelector('.shelf-scroll');
  if (scroller === null) throw new Error('nothing scrolls');
  const times: number[] = [];
  return await new Promise((resolve) => {
    const frame = (now: number) => {
      times.push(now);
      scroller.scrollTop += pxAFrame;
      if (now - (times[0] ?? now) >= forMs) resolve(times);
      else requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
}

/** The fewest frames in any second that begins with a frame. */
function fewestASecond(times: readonly number[]): number {
  const last = times.at(-1) ?? 0;
  const counts = times
    .filter((start) => start + 1000 <= last)
    .map((start) => times.filter((time) => time > start && time <= start + 1000).length);
  return Math.min(...counts);
}

export async function measureShelfScroll(size: RunSize): Promise<readonly Measure[]> {
  const app = await launchApp({ host: 'loopback' });
  try {
    for (let start = 0; start < SHELF_ROWS; start += ROWS_A_STEP)
      await app.backend.must(
        'changeShelf',
        adding(...Array.from({ length: ROWS_A_STEP }, (_, at) => shelfRow(start + at))),
      );
    await openPlace(app.page, PLACES.shelf);
    await app.page.locator('.shelf-table tr[data-place]').first().waitFor();
    const times = await app.page.evaluate(scrollThrough, [size === 'quick' ? 4000 : 10_000, PX_A_FRAME] as const);
    const value = fewestASecond(times);
    const what = `frames in the slowest second of scrolling through ${SHELF_ROWS} rows, ${times.length} frames in all`;
    return [{ id: 'P10 scroll', what, value, unit: 'frames', goal: `>= ${GOAL_FRAMES}`, ok: value >= GOAL_FRAMES }];
  } finally {
    await app.end();
  }
}
