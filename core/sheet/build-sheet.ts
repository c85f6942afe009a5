/** What a build sheet says of a header, as figures: summary, chart, flat views and pieces. Pages are made of it elsewhere. */

import { type AsBuilt, asBuilt } from '../asbuilt/as-built.ts';
import { type Header, type Primary, type Tube, tubeOf } from '../header/header.ts';
import { type MatchReport, matchHeader, type PrimaryMatch } from '../length/match-header.ts';
import { type Closure, isClosed } from '../path/ends/closure.ts';
import { closureLimits, findInlet, primaryClosure } from '../path/ends/inlet-pose.ts';
import type { PathProblem } from '../path/path-problem.ts';
import { type FlatView, flatViews } from './flat-views.ts';
import { primaryLabel } from './primary-label.ts';
import { type SheetRow, sheetRows } from './sheet-rows.ts';

/** How a primary's end stands to its inlet; `problem` says why that is not known. */
export type SheetClosure =
  | { readonly kind: 'known'; readonly closure: Closure; readonly isClosed: boolean }
  | { readonly kind: 'unknown'; readonly problem: PathProblem };

export interface SheetPrimary {
  readonly primary: Primary;
  /** From 1, in the header's order. */
  readonly number: number;
  /** What stands for it where its name would be too long: the name itself, or `#3`. */
  readonly label: string;
  readonly tube: Tube;
  readonly match: PrimaryMatch;
  readonly closure: SheetClosure;
  readonly rows: readonly SheetRow[];
  /** What was measured on the finished tube. */
  readonly built: AsBuilt;
}

export interface BuildSheet {
  readonly header: Header;
  readonly report: MatchReport;
  readonly primaries: readonly SheetPrimary[];
  /** Empty when no primary has a place in space. */
  readonly views: readonly FlatView[];
  /** Primaries that the views leave out, or draw in part, for want of a port or a clocking. */
  readonly notWhole: readonly PathProblem[];
}

/** Everything that the sheet says. Depends on the header alone, so it is the same on any machine and day. Linear in its pieces. */
export function buildSheet(header: Header): BuildSheet {
  const report = matchHeader(header);
  const primaries = header.primaries.flatMap((primary, index): readonly SheetPrimary[] => {
    const match = report.primaries[index];
    if (match === undefined) return [];
    const tube = tubeOf(header, primary);
    const number = index + 1;
    return [
      {
        primary,
        number,
        label: primaryLabel(primary.name, number),
        tube,
        match,
        closure: sheetClosure(header, primary),
        rows: sheetRows(primary, tube, match.pieceLengthsMm),
        built: asBuilt(header, primary),
      },
    ];
  });
  const { views, problems } = flatViews(header);
  return { header, report, primaries, views, notWhole: problems };
}

function sheetClosure(header: Header, primary: Primary): SheetClosure {
  const closure = primaryClosure(header, primary);
  const inlet = primary.inletId === null ? null : findInlet(header, primary.inletId);
  if (closure.ok && inlet !== null) {
    return { kind: 'known', closure: closure.value, isClosed: isClosed(closure.value, closureLimits(header, inlet)) };
  }
  const missing: PathProblem = { kind: 'inletNotAssigned', primaryId: primary.id, primaryName: primary.name };
  return { kind: 'unknown', problem: closure.ok ? missing : (closure.problems[0] ?? missing) };
}
