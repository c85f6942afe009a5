/** Files of drawings read by libraries that had no part in writing them. */

import DxfParser from 'dxf-parser';
import { XMLParser } from 'fast-xml-parser';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import svgpath from 'svgpath';

/** Points in mm, to the right and down. */
export type Drawn = readonly (readonly [xMm: number, yMm: number])[];

export interface ReadPage {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lines: readonly Drawn[];
  /** In the order of the text extractor. */
  readonly words: string;
}

const MM_PER_POINT = 25.4 / 72;

type Matrix = readonly [number, number, number, number, number, number];

function times([a, b, c, d, e, f]: Matrix, [g, h, i, j, k, l]: Matrix): Matrix {
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

export async function readPdfPages(bytes: Uint8Array): Promise<readonly ReadPage[]> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const doc = await task.promise;
  const pages: ReadPage[] = [];
  for (let number = 1; number <= doc.numPages; number += 1) {
    const page = await doc.getPage(number);
    const [, , width = 0, height = 0] = page.view;
    const content = await page.getTextContent();
    const words = content.items
      .map((item) => ('str' in item ? item.str : ''))
      .join(' ')
      .replaceAll(/\s+/g, ' ');
    const list = await page.getOperatorList();
    pages.push({
      widthMm: width * MM_PER_POINT,
      heightMm: height * MM_PER_POINT,
      lines: pathsOf(list.fnArray, list.argsArray, height),
      words,
    });
  }
  await task.destroy();
  return pages;
}

/** Codes within a path: move, line, curve of four points, curve of three points, close. */
const NUMBERS = [2, 2, 6, 4, 0] as const;

function pathsOf(operators: readonly number[], operands: readonly unknown[], height: number): readonly Drawn[] {
  const lines: Drawn[] = [];
  let now: Matrix = [1, 0, 0, 1, 0, 0];
  const kept: Matrix[] = [];
  operators.forEach((operator, at) => {
    if (operator === OPS.save) kept.push(now);
    if (operator === OPS.restore) now = kept.pop() ?? now;
    if (operator === OPS.transform) now = times(now, operands[at] as Matrix);
    if (operator !== OPS.constructPath) return;
    const [, data] = operands[at] as [number, (Float32Array | null)[]];
    let line: (readonly [number, number])[] = [];
    const flat = data[0] ?? new Float32Array();
    for (let place = 0; place < flat.length; ) {
      const code = flat[place] ?? 4;
      const count = NUMBERS[code] ?? 0;
      if (code === 0) {
        if (line.length > 0) lines.push(line);
        line = [];
      }
      if (code <= 1) {
        const [x = 0, y = 0] = [flat[place + 1], flat[place + 2]];
        const [px, py] = [now[0] * x + now[2] * y + now[4], now[1] * x + now[3] * y + now[5]];
        line.push([px * MM_PER_POINT, (height - py) * MM_PER_POINT]);
      }
      place += 1 + count;
    }
    if (line.length > 0) lines.push(line);
  });
  return lines;
}

export function readSvg(text: string) {
  const parsed = new XMLParser({ ignoreAttributes: false, attributeNamePrefix: '' }).parse(text) as {
    svg: { width: string; height: string; viewBox: string; path: { d: string }[] };
  };
  const { svg } = parsed;
  const lines = svg.path.map(({ d }): Drawn => {
    const line: (readonly [number, number])[] = [];
    svgpath(d)
      .abs()
      .iterate((segment) => {
        line.push([Number(segment[1]), Number(segment[2])]);
      });
    return line;
  });
  const mm = (size: string) => (size.endsWith('mm') ? Number(size.slice(0, -2)) : Number.NaN);
  return { widthMm: mm(svg.width), heightMm: mm(svg.height), viewBox: svg.viewBox.split(' ').map(Number), lines };
}

interface DxfVertex {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}

/** Arcs in a polyline are followed in steps of half a degree or less. Heights are turned over, so that they run down as elsewhere. */
export function readDxf(text: string) {
  const dxf = new DxfParser().parseSync(text);
  if (dxf === null) throw new Error('the DXF could not be read');
  const lines = dxf.entities.flatMap((entity): readonly Drawn[] => {
    if (!('vertices' in entity)) return [];
    const vertices = entity.vertices as readonly DxfVertex[];
    return [vertices.flatMap((vertex, at) => stepsTo(vertex, vertices[at + 1])).map(([x, y]) => [x, -y] as const)];
  });
  return { lines, unit: dxf.header['$INSUNITS'] as unknown };
}

function stepsTo(a: DxfVertex, b: DxfVertex | undefined): Drawn {
  const angle = 4 * Math.atan(a.bulge ?? 0);
  if (b === undefined || angle === 0) return [[a.x, a.y]];
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const away = Math.hypot(dx, dy) / (2 * Math.tan(angle / 2));
  const length = Math.hypot(dx, dy);
  const [cx, cy] = [(a.x + b.x) / 2 - (dy / length) * away, (a.y + b.y) / 2 + (dx / length) * away];
  const [radius, start] = [Math.hypot(a.x - cx, a.y - cy), Math.atan2(a.y - cy, a.x - cx)];
  const steps = Math.max(16, Math.ceil(Math.abs(angle) / (Math.PI / 360)));
  return Array.from({ length: steps }, (_, step) => {
    const turn = start + (angle * step) / steps;
    return [cx + radius * Math.cos(turn), cy + radius * Math.sin(turn)] as const;
  });
}

/** How far the points of one line are from the other at most, mm. */
export function farthestMm(points: Drawn, line: Drawn): number {
  return Math.max(
    ...points.map((point) => Math.min(...line.slice(1).map((b, at) => toSegment(point, line[at] ?? b, b)))),
  );
}

type Point = Drawn[number];

function toSegment([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  const share = squared === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / squared));
  return Math.hypot(x - ax - share * dx, y - ay - share * dy);
}
