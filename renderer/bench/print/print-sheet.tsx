/** The bench on paper: what the header is, how its primaries stand, three flat views, and the pieces of every primary. */

import { useMemo } from 'react';
import { createPortal } from 'react-dom';
import {
  describeProblem,
  formatLength,
  type Header,
  headerClearances,
  type MatchReport,
  mmOf,
  type Primary,
  type PrimaryMatch,
  type Problem,
  typedText,
} from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { usePrinting } from '../../ui/hooks/use-printing.ts';
import { faultOf } from '../../ui/words/fault.ts';
import { showDay } from '../../ui/words/spoken.ts';
import { bandWords, primaryTitle, rowWords, verdictMark } from '../../ui/words/verdict-words.ts';
import { FlatViews } from '../../view/flat/flat-views.tsx';
import { describeScene } from '../../view/scene/describe-scene.ts';
import { PrintBoard } from './print-board.tsx';
import './print-sheet.css';
import { PrintPieces } from './print-pieces.tsx';

interface Props {
  readonly header: Header;
  readonly report: MatchReport;
}

interface SheetProps extends Props {
  /** What is wrong with the header on disk; null: nothing. */
  readonly damage: Problem | null;
}

/** Made only while the page is printed, in the page's place: what it costs is no edit's to pay. */
export function PrintSheet(props: SheetProps) {
  return usePrinting() ? createPortal(<Sheet {...props} />, document.body) : null;
}

/** Each has its line in the margin of every page, in the style sheet. */
const FAULT_CLASSES = { altered: 'print-sheet print-altered', damaged: 'print-sheet print-damaged' } as const;

function Sheet({ header, report, damage }: SheetProps) {
  return (
    <article className={damage === null ? 'print-sheet' : FAULT_CLASSES[faultOf(damage)]}>
      <header className="print-head">
        <h1>{header.name}</h1>
        <p>Printed {showDay(new Date().toISOString())} by Evenrun</p>
      </header>
      {damage === null ? null : <p className="print-fault">{describeProblem(damage)}</p>}
      {header.note === '' ? null : <p className="print-note">{header.note}</p>}
      <Summary header={header} report={report} />
      <PrintBoard header={header} report={report} />
      <Views header={header} />
      {header.primaries.map((primary) => (
        <PrimaryPart key={primary.id} primary={primary} header={header} report={report} />
      ))}
      <p className="print-caution">
        Check every figure against the tube before it is cut. Weld, purge and vent by local codes and licensed practice.
      </p>
    </article>
  );
}

function Summary({ header, report }: Props) {
  const { display, tolerance, tube, clr, wantedGap } = header.settings;
  const length = (mm: number | null) => (mm === null ? '–' : formatLength(mm, display));
  const figures: readonly (readonly [string, string])[] = [
    ['Target', length(report.targetMm)],
    ['Tolerance', bandWords(mmOf(tolerance.minus), mmOf(tolerance.plus), display)],
    ['Spread', length(report.spreadMm)],
    ['Tube', `${typedText(tube.od)} OD, ${typedText(tube.wall)} wall, ${tube.material}`],
    ['CLR', length(mmOf(clr))],
    ['Minimum clearance', length(mmOf(wantedGap))],
  ];
  return (
    <dl className="print-summary">
      {figures.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            <FigureText text={value} />
          </dd>
        </div>
      ))}
    </dl>
  );
}

const NOTHING_CHOSEN = { primaryId: null, pieceId: null } as const;
const VIEW_HEIGHT_PX = 250;
const VIEW_TEXT_PX = 11;

/** None where nothing has a place in space yet. */
function Views({ header }: { readonly header: Header }) {
  const scene = useMemo(() => describeScene(header, NOTHING_CHOSEN, headerClearances(header)), [header]);
  if (scene.tubes.length === 0) return null;
  return (
    <section className="print-views" aria-label="Flat views">
      <FlatViews scene={scene} heightPx={VIEW_HEIGHT_PX} textPx={VIEW_TEXT_PX} onPick={() => undefined} />
      {scene.notes.length === 0 ? null : <p>{scene.notes.join(' ')}</p>}
    </section>
  );
}

function PrimaryPart({ primary, header, report }: Props & { readonly primary: Primary }) {
  const match = report.primaries.find(({ primaryId }) => primaryId === primary.id);
  if (match === undefined) return null;
  return (
    <section className="print-primary" aria-label={primaryTitle(primary.name)}>
      <PrimaryHead match={match} header={header} />
      {primary.pieces.length === 0 ? null : (
        <PrintPieces primary={primary} header={header} pieceLengthsMm={match.pieceLengthsMm} />
      )}
    </section>
  );
}

function PrimaryHead({ match, header }: { readonly match: PrimaryMatch; readonly header: Header }) {
  const { display } = header.settings;
  const mark = match.verdict === null ? '' : `${verdictMark(match.verdict).mark} `;
  return (
    <h2>
      {primaryTitle(match.name)}
      <span className="print-figures">
        {match.pieceLengthsMm.length === 0 ? null : <FigureText text={`${formatLength(match.lengthMm, display)}, `} />}
        {mark}
        <FigureText text={rowWords(match, display)} />
      </span>
    </h2>
  );
}
