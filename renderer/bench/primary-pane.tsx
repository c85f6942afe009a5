/** The primary in hand: heading, pieces, buttons, and the entry line at its foot. */

import { Calculator } from 'lucide-react';
import { type RefObject, useRef } from 'react';
import {
  type Header,
  type Length,
  type LengthUnit,
  type MatchReport,
  type Primary,
  type PrimaryMatch,
  replacePieceEdit,
  type StockItem,
  tubeOf,
  unitOf,
} from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { takesNoSteps } from '../session/session-state.ts';
import { useSession } from '../session/use-session.ts';
import { IconButton } from '../ui/icon-button.tsx';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import { BEFORE_FIRST, type BenchView } from './bench-view.ts';
import { FirstPiece } from './empty-bench.tsx';
import { EntryPanel, primaryOfDraft } from './entry/entry-panel.tsx';
import { TapeAngle } from './entry/tape-angle.tsx';
import { focusCell } from './grid/grid-cell.ts';
import type { Cell } from './grid/grid-keys.ts';
import { PieceButtons } from './grid/piece-buttons.tsx';
import { PieceGrid } from './grid/piece-grid.tsx';
import { cellPrimaryOfDraft } from './grid/use-cell-edits.ts';
import { PrimaryHeading } from './primary-heading.tsx';
import type { BenchActs } from './use-bench-acts.ts';
import { useStable } from './use-stable.ts';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly report: MatchReport;
  readonly primary: Primary;
  readonly match: PrimaryMatch;
  readonly view: BenchView;
  readonly acts: BenchActs;
  readonly stock: readonly StockItem[] | null;
  /** What a move does to pieces, by piece id. */
  readonly marks: ReadonlyMap<string, string>;
  readonly clrs: readonly Length[];
  readonly entryRef: RefObject<HTMLInputElement | null>;
  readonly focusEntry: () => void;
}

/** The primary that text left over from last time belongs to; null when there is none. */
export function primaryAtStart(session: HeaderSession): string | null {
  return cellPrimaryOfDraft(session) ?? primaryOfDraft(session);
}

export const PIECES_ID = 'bench-pieces';

const FIRST_LINES: Readonly<Record<LengthUnit, string>> = {
  in: '2 1/4; b90; 3 1/2; b45 180',
  mm: '57; b90; 90; b45 180',
};

export function PrimaryPane(props: Props) {
  const { header, primary, view, acts } = props;
  const gridRef = useRef<HTMLTableElement>(null);
  const isFrozen = useSession(props.session, takesNoSteps);
  const lastRow = primary.pieces.length - 1;
  const onAct = useStable(acts.onPiece);
  const onTape = useStable(() => view.change({ tapedPieceId: view.piece?.id ?? null }));
  return (
    <section className="bench-primary" id={PIECES_ID} aria-label={primaryTitle(primary.name)}>
      <PrimaryHeading match={props.match} report={props.report} style={header.settings.display} />
      <Pieces {...props} gridRef={gridRef} isFrozen={isFrozen} />
      {isFrozen ? null : (
        <>
          <Taped {...props} />
          <div className="piece-tools">
            <PieceButtons
              state={view.piece?.state ?? null}
              isBend={view.piece !== null && view.piece.kind !== 'straight'}
              isFirst={view.cell?.row === 0}
              isLast={view.cell?.row === lastRow}
              onAct={onAct}
              onTape={onTape}
            />
            <IconButton
              Icon={Calculator}
              name="Keypad"
              aria-expanded={view.hasKeypad}
              onPress={() => view.change({ hasKeypad: !view.hasKeypad })}
            />
          </div>
          <Entry {...props} gridRef={gridRef} />
        </>
      )}
    </section>
  );
}

interface PartProps extends Props {
  readonly gridRef: RefObject<HTMLTableElement | null>;
}

/** The grid; in a primary without pieces what to type first. */
function Pieces(props: PartProps & { readonly isFrozen: boolean }) {
  const { session, header, primary, view, acts, isFrozen } = props;
  const example = FIRST_LINES[unitOf(header.settings.display)];
  if (primary.pieces.length === 0 && !isFrozen) {
    const take = () => {
      acts.enter(example);
      props.focusEntry();
    };
    return <FirstPiece example={example} onTake={take} />;
  }
  return (
    <div className="grid-frame">
      <PieceGrid
        key={primary.id}
        session={session}
        header={header}
        primary={primary}
        pieceLengthsMm={props.match.pieceLengthsMm}
        stock={props.stock}
        marks={props.marks}
        cell={view.cell}
        anchorRow={view.anchorRow}
        insertAfterId={view.insertAfterId}
        gridRef={props.gridRef}
        isFrozen={isFrozen}
        onCell={(cell, anchorRow) => view.change({ cell, anchorRow })}
        onAct={acts.onPiece}
        onLeave={props.focusEntry}
        onPaste={acts.paste}
        copyText={acts.copyText}
      />
    </div>
  );
}

function Entry({ session, header, primary, view, acts, gridRef, ...rest }: PartProps) {
  const toGrid = () => {
    const lastRow = primary.pieces.length - 1;
    if (lastRow < 0) return;
    const cell: Cell = { row: lastRow, column: 2 };
    view.change({ cell, anchorRow: null });
    focusCell(gridRef.current, cell);
  };
  return (
    <EntryPanel
      session={session}
      primaryId={primary.id}
      fieldRef={rest.entryRef}
      unit={unitOf(header.settings.display)}
      clrs={rest.clrs}
      place={placeWords(primary, view.insertAfterId)}
      canGoToEnd={view.insertAfterId !== null}
      hasKeypad={view.hasKeypad}
      enter={acts.enter}
      onGoToEnd={() => {
        view.change({ insertAfterId: null });
        rest.focusEntry();
      }}
      onUp={toGrid}
      onPrimary={acts.goBy}
    />
  );
}

function placeWords(primary: Primary, insertAfterId: string | null): string {
  if (insertAfterId === BEFORE_FIRST) return `goes at the start of ${primaryTitle(primary.name)}`;
  const after = primary.pieces.findIndex((piece) => piece.id === insertAfterId);
  return after === -1 ? `goes at the end of ${primaryTitle(primary.name)}` : `goes after piece ${after + 1}`;
}

function Taped({ session, header, primary, view, focusEntry }: Props) {
  const index = primary.pieces.findIndex((piece) => piece.id === view.tapedPieceId);
  const piece = primary.pieces[index];
  if (piece === undefined || piece.kind === 'straight') return null;
  const close = () => {
    view.change({ tapedPieceId: null });
    focusEntry();
  };
  return (
    <TapeAngle
      key={piece.id}
      piece={piece}
      index={index}
      od={tubeOf(header, primary).od}
      unit={unitOf(header.settings.display)}
      onTake={(angleDeg) => {
        session.apply(replacePieceEdit(primary, { ...piece, angleDeg }));
        close();
      }}
      onClose={close}
    />
  );
}
