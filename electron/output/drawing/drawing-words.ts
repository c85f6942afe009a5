/** What a drawing is called, and what it says of what was asked. */

import { assertNever, type BenchAsked, type Header, primaryTitle, type StripsAsked } from '../../../core/index.ts';
import type { Drawing, Fault } from '../../bridge/page-messages.ts';

/** Stands on every page and at the head of every file of a header that is not sound; null for one that is. */
export function faultWords(fault: Fault | undefined): string | null {
  switch (fault) {
    case undefined:
      return null;
    case 'altered':
      return 'DO NOT BUILD FROM THIS. The header is not as it was finished: it was damaged on disk, or altered by something other than Evenrun.';
    case 'damaged':
      return 'TAKE CARE. The header is damaged on disk: the last steps made to it are missing here.';
    default:
      return assertNever(fault);
  }
}

/** As in the name of its file: "build sheet", "cope strip". */
export function drawingTitle(drawing: Drawing): string {
  switch (drawing.kind) {
    case 'sheet':
      return 'build sheet';
    case 'fixture':
      return 'fixture sheet';
    case 'strips':
      return STRIP_TITLES[drawing.strips.kind];
    default:
      return assertNever(drawing);
  }
}

const STRIP_TITLES: Readonly<Record<StripsAsked['kind'], string>> = {
  along: 'strip along a primary',
  clocking: 'clocking strips',
  pies: 'pie strips',
  cope: 'cope strip',
  merge: 'merge strip',
};

export function noStripsWords({ kind }: StripsAsked): string {
  switch (kind) {
    case 'clocking':
      return 'This primary has no bend whose clocking is known from the port on, so there is no strip to make.';
    case 'pies':
      return 'This primary has no pie-cut bend, so there is no strip to make.';
    default:
      return 'This primary has no pieces yet, so there is no strip to make.';
  }
}

/** How the header lies on the bench. */
export function benchWords(header: Header, bench: BenchAsked): string {
  const primary = (id: string) => primaryTitle(header.primaries.find((one) => one.id === id)?.name ?? id);
  const inlet = (id: string) =>
    header.collectors.flatMap(({ inlets }) => inlets).find((one) => one.id === id)?.name ?? id;
  switch (bench.kind) {
    case 'flangeDown':
      return `Flange down, on the port of ${primary(bench.primaryId)}`;
    case 'collectorDown':
      return `Collector down, on inlet ${inlet(bench.inletId)}`;
    case 'threePlaces':
      return `On the ports of ${primary(bench.primaryIdA)} and ${primary(bench.primaryIdB)} and on inlet ${inlet(bench.inletId)}`;
    default:
      return assertNever(bench);
  }
}
