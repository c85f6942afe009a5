/** The OpenCascade geometry kernel by way of replicad (LGPL; used in tests only), fed with our spans. */

import { createRequire } from 'node:module';
import path from 'node:path';
import type { Edge, Wire } from 'replicad';
import * as replicad from 'replicad';
import initKernel from 'replicad-opencascadejs';
import { pointAt, type Span, type TubePath } from '../../core/path/trace-primary.ts';
import type { Vector } from '../../core/path/vector.ts';

const DIST = path.dirname(createRequire(import.meta.url).resolve('replicad-opencascadejs'));

type Kernel = Parameters<typeof replicad.setOC>[0];
type InitKernel = (options: { readonly locateFile: (file: string) => string }) => Promise<Kernel>;

/** Loads the kernel; a second or so, once. */
export async function loadKernel(): Promise<void> {
  const load = initKernel as unknown as InitKernel;
  replicad.setOC(await load({ locateFile: (file) => path.join(DIST, file) }));
}

const coordinates = ({ x, y, z }: Vector): [number, number, number] => [x, y, z];

function edgeOf(span: Span): Edge {
  const [start, end] = [coordinates(span.start), coordinates(span.end)];
  return span.kind === 'line'
    ? replicad.makeLine(start, end)
    : replicad.makeThreePointArc(start, coordinates(pointAt(span, 0.5)), end);
}

/** The path as a wire of the kernel. Spans of length zero cannot be edges and are left out; no arc may be a whole circle. */
export function wireOf(path: TubePath): Wire {
  return replicad.assembleWire(path.spans.filter(({ lengthMm }) => lengthMm > 1e-9).map(edgeOf));
}

export function kernelLengthMm(wire: Wire): number {
  return replicad.measureLength(wire);
}

export function kernelDistanceMm(a: Wire, b: Wire): number {
  return replicad.measureDistanceBetween(a, b);
}
