/**
 * P9: the header in space follows edits nearly as soon as a bare three.js scene of as many triangles would be redrawn, rests
 * when nothing changes, and leaks nothing.
 */

import type { Browser, Page } from 'playwright-core';
import type { Header } from '../../core/header/header.ts';
import { newHeader } from '../../core/header/new-header.ts';
import { inches } from '../../core/units/length.ts';
import { type AppUnderTest, launchApp } from '../e2e/app-under-test.ts';
import { goTo } from '../e2e/page-parts.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { type BareScene, openBareScene } from './bare-scene.ts';
import { type GlCounts, installGlCounter, installRedrawRecorder, type RedrawRecorderInPage } from './gl-recorder.ts';
import { largeHeader } from './large-header.ts';

const GOAL_RATIO = 1.5;
const IDLE_MS = 2000;
const WARM_UP = 5;
const SIZE_COLUMN = 2;

/** Eight primaries of twenty pieces with ports in a row, so that gaps are worked out and drawn as well. */
function placedHeader(id: string): Header {
  const header = largeHeader(newHeader({ id, name: `Placed ${id}` }));
  const primaries = header.primaries.map((primary, index) => ({
    ...primary,
    id: `${id}-${primary.id}`,
    pieces: primary.pieces.map((piece) => ({ ...piece, id: `${id}-${piece.id}` })),
    port: {
      at: { x: inches(-4 * index), y: inches(0), z: inches(0) },
      direction: { x: 0, y: 1, z: 0 },
      up: { x: 0, y: 0, z: 1 },
    },
  }));
  return { ...header, primaries };
}

interface ViewCounts {
  readonly frames: number;
  readonly geometries: number;
  readonly textures: number;
}

/** What three's renderer says of itself, as the picture shows it. */
async function rendererCounts(page: Page): Promise<ViewCounts> {
  const shown = await page.locator('.solid-canvas').evaluate((element) => ({ ...(element as HTMLElement).dataset }));
  return {
    frames: Number(shown['frames']),
    geometries: Number(shown['geometries']),
    textures: Number(shown['textures']),
  };
}

async function glCounts(page: Page): Promise<GlCounts> {
  return await page.evaluate<GlCounts>('glCounter.counts()');
}

async function openView(page: Page): Promise<void> {
  await page.locator('.solid-canvas[data-frames]').waitFor({ state: 'attached' });
}

/** What was on its way before the key, the picture of the edit before among it, must be over: nobody edits ten times a second. */
const SETTLE_MS = 100;

async function measureKey(page: Page, chord: string): Promise<number> {
  await page.waitForTimeout(SETTLE_MS);
  const key = chord.split('+').at(-1) ?? chord;
  const recorder = await page.evaluateHandle<RedrawRecorderInPage>('redrawRecorder');
  await recorder.evaluate((inPage, armed) => inPage.arm(armed), key);
  await page.keyboard.press(chord);
  const ms = await recorder.evaluate((inPage) => inPage.redrawnMs());
  await recorder.dispose();
  return ms;
}

/** A size retyped and taken, then undone and redone: three edits. */
async function threeEdits(page: Page, round: number): Promise<readonly number[]> {
  const row = 2 * ((round * 7) % 10);
  await page.locator(`[data-row="${row}"][data-column="${SIZE_COLUMN}"]`).focus();
  await page.keyboard.type(String(2 + ((round * 13) % 17) / 16));
  const samples = [await measureKey(page, 'Enter')];
  samples.push(await measureKey(page, 'Control+z'));
  samples.push(await measureKey(page, 'Control+y'));
  return samples;
}

interface EditRun {
  readonly samplesMs: readonly number[];
  /** Of the bare scene, in turn with them. */
  readonly bareMs: readonly number[];
  readonly bareScene: BareScene;
  readonly idleDraws: number;
  /** What there is more of after the edits than before, in words; empty when nothing. */
  readonly leaks: string;
}

function leaksBetween(before: object, after: object, ignored: readonly string[]): string {
  const [from, to] = [Object.entries(before), new Map(Object.entries(after))];
  return from
    .filter(([name, count]) => !ignored.includes(name) && to.get(name) !== count)
    .map(([name, count]) => `${name} ${count} became ${to.get(name)}`)
    .join(', ');
}

/** What one picture of the program holds, counted over the edits of one round. */
async function sceneOfSameSize(page: Page): Promise<BareScene> {
  const shape = await page.locator('.solid-canvas canvas').evaluate((canvas) => ({
    widthPx: (canvas as HTMLCanvasElement).width,
    heightPx: (canvas as HTMLCanvasElement).height,
  }));
  const [from, framesBefore] = [await glCounts(page), (await rendererCounts(page)).frames];
  await threeEdits(page, 0);
  await page.waitForTimeout(SETTLE_MS);
  const [to, framesAfter] = [await glCounts(page), (await rendererCounts(page)).frames];
  return { ...shape, triangles: Math.round((to.triangles - from.triangles) / (framesAfter - framesBefore)) };
}

async function editRun(page: Page, browser: Browser, edits: number): Promise<EditRun> {
  const bareScene = await sceneOfSameSize(page);
  const bare = await openBareScene(browser, bareScene);
  const bareMs: number[] = [];
  const before = { ...(await rendererCounts(page)), ...(await glCounts(page)) };
  const samplesMs: number[] = [];
  for (let round = 1; samplesMs.length < edits + WARM_UP; round += 1) {
    await page.bringToFront();
    samplesMs.push(...(await threeEdits(page, round)));
    await bare.bringToFront();
    for (const chord of ['Enter', 'Control+z', 'Control+y']) bareMs.push(await measureKey(bare, chord));
  }
  await bare.close();
  await page.bringToFront();
  await page.waitForTimeout(300);
  const atRest = await glCounts(page);
  await page.waitForTimeout(IDLE_MS);
  const idleDraws = (await glCounts(page)).draws - atRest.draws;
  const after = { ...(await rendererCounts(page)), ...(await glCounts(page)) };
  const leaks = leaksBetween(before, after, ['frames', 'draws', 'triangles']);
  return { samplesMs: samplesMs.slice(WARM_UP), bareMs: bareMs.slice(WARM_UP), bareScene, idleDraws, leaks };
}

/** Goes from header to header; what is held must stay that of one view, and in the end that of none: the drawing context that waits for the next header. */
async function switchRun(app: AppUnderTest, ids: readonly string[], switches: number): Promise<string> {
  const { page } = app;
  const leave = async () => {
    await goTo(page, '#/headers');
    await page.locator('.solid-canvas').waitFor({ state: 'detached' });
  };
  await leave();
  let first: GlCounts | null = null;
  const leaks: string[] = [];
  for (let turn = 0; turn < switches; turn += 1) {
    const id = ids[turn % ids.length] ?? '';
    await goTo(page, `#/bench/${id}`);
    // The header before showed its view in the chart's place, so a chart is the next header's.
    await page.locator('.match-board').waitFor();
    await openView(page);
    const { frames: _frames, ...held } = await rendererCounts(page);
    const counts = { ...held, ...(await glCounts(page)) };
    first ??= counts;
    const leak = leaksBetween(first, counts, ['draws', 'triangles']);
    if (leak !== '') leaks.push(`at switch ${turn + 1}: ${leak}`);
  }
  await leave();
  await page.waitForTimeout(200);
  const left = await glCounts(page);
  // Textures: the few empty ones that three keeps for as long as a context.
  const remains = leaksBetween({ buffers: 0, textures: first?.textures ?? 0, contexts: 1 }, left, []);
  return [...leaks.slice(0, 2), ...(remains === '' ? [] : [`after leaving: ${remains}`])].join('; ');
}

async function run(edits: number, switches: number): Promise<EditRun & { readonly switchLeaks: string }> {
  const ids: string[] = [];
  const app = await launchApp({
    host: 'loopback',
    prepare: async (backend) => {
      for (const id of ['one', 'two']) {
        const { header } = await backend.must('importHeader', { header: placedHeader(id) });
        ids.push(header.id);
      }
    },
  });
  try {
    const { page } = app;
    await page.addInitScript(installGlCounter);
    await page.addInitScript(installRedrawRecorder);
    await page.goto('about:blank');
    await page.goto(`${app.host.address}`);
    await page.locator('.match-board').waitFor();
    await openView(page);
    const edited = await editRun(page, app.browser, edits);
    const switchLeaks = await switchRun(app, ids, switches);
    return { ...edited, switchLeaks };
  } finally {
    await app.end();
  }
}

export async function measureViewRedraw(size: RunSize): Promise<readonly Measure[]> {
  const [edits, switches] = size === 'long' ? [1000, 50] : [45, 6];
  const { samplesMs, bareMs, bareScene, idleDraws, leaks, switchLeaks } = await run(edits, switches);
  const [ownMs, leastMs] = [quantile(samplesMs, 0.95), quantile(bareMs, 0.95)];
  const value = ownMs / leastMs;
  const words = (samples: readonly number[]) =>
    [0.95, 0.5, 1].map((part) => quantile(samples, part).toFixed(1)).join(', ');
  return [
    {
      id: 'P9',
      what:
        `key of an edit to the finished picture, 8 primaries of 20 pieces with gaps, over key to picture of a bare three.js scene of ` +
        `${bareScene.triangles} triangles at ${bareScene.widthPx} x ${bareScene.heightPx}, ${samplesMs.length} each in turn, WebGL in software: ` +
        `95th percentile, median and slowest ${words(samplesMs)} ms over ${words(bareMs)} ms`,
      value,
      unit: 'times',
      goal: `<= ${GOAL_RATIO}`,
      ok: value <= GOAL_RATIO,
    },
    {
      id: 'P9 idle',
      what: `draw calls in ${IDLE_MS / 1000} s in which nothing changed`,
      value: idleDraws,
      unit: 'draws',
      goal: '0',
      ok: idleDraws === 0,
    },
    {
      id: 'P9 leaks',
      what:
        `kinds of memory that grew over ${samplesMs.length} edits and ${switches} header switches: geometries and textures by the ` +
        `renderer's own count, buffers, textures and contexts by counting WebGL calls${[leaks, switchLeaks]
          .filter((words) => words !== '')
          .map((words) => `; ${words}`)
          .join('')}`,
      value: Number(leaks !== '') + Number(switchLeaks !== ''),
      unit: 'leaks',
      goal: '0',
      ok: leaks === '' && switchLeaks === '',
    },
  ];
}
