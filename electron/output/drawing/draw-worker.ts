/** A thread that draws one thing, answers and ends. */

import { parentPort, workerData } from 'node:worker_threads';
import type { Problem, Result } from '../../../core/index.ts';
import type { RequestOf } from '../../bridge/contract.ts';
import type { FontFiles } from '../pages/font-files.ts';
import type { DrawnPages } from '../pages/missing-letters.ts';
import { type DrawnFile, drawnFile, drawnPages } from './drawing.ts';

export type DrawWork = { readonly fonts: FontFiles } & (
  | { readonly kind: 'pages'; readonly request: RequestOf<'drawPages'> }
  | { readonly kind: 'file'; readonly request: RequestOf<'savePages'> }
);

export type DrawAnswer =
  | { readonly kind: 'pages'; readonly drawn: Result<DrawnPages, Problem> }
  | { readonly kind: 'file'; readonly drawn: Result<DrawnFile, Problem> };

async function draw(work: DrawWork): Promise<DrawAnswer> {
  return work.kind === 'pages'
    ? { kind: 'pages', drawn: drawnPages(work.request, work.fonts) }
    : { kind: 'file', drawn: await drawnFile(work.request, work.fonts) };
}

// What is thrown ends the thread, and whoever started it hears of it.
void draw(workerData as DrawWork).then((answer) => parentPort?.postMessage(answer));
