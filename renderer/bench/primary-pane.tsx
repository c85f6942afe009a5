/** The primary in hand: heading, pieces, buttons, and the entry line at its foot. */

import { Calculator } from 'lucide-react';
import { type RefObject, useMemo, useRef } from 'react';
import {
  type Header,
  type LengthUnit,
  type MatchReport,
  type Piece,
  type Primary,
  type PrimaryMatch,
  replacePieceEdit,
  type ShelfOffers,
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
import { Keypad } from './entry/keypad.tsx';
import { TapeAngle } from './entry/tape-angle.tsx';
import { useTypingPlace } from './entry/use-typing-place.ts';
import { focusCell } from './grid/grid-cell.ts';
import type { Cell } from './grid/grid-keys.ts';
import { commonState } from './grid/piece-acts.ts';
import { PieceButtons } from './grid/piece-buttons.tsx';
import { type GridHandle, PieceGrid } from './grid/piece-grid.tsx';
import { onlyCell, selectedRows } from './grid/row-selection.ts';
import { cellPrimaryOfDraft } from './grid/use-cell-edits.ts';
import { PrimaryHeading } from './primary-heading.tsx';
import { ProposedPieces } from './proposed-pieces.tsx';
import { ToGoLine } from './to-go.tsx';
import { type BenchActs, insertPlace } from './use-bench-acts.ts';
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
  /** Pieces as the move that is looked at would leave them, by id. */
  readonly changed: ReadonlyMap<string, Piece>;
  /** What the proposal that is looked at would put at its end. */
  readonly proposed: readonly Piece[];
  readonly offers: ShelfOffers;
  readonly entryRef: RefObject<HTMLInputElement | null>;
  readonly focusEntry: () => void;
  /** Puts the pieces that would finish the primary at its end. */
  readonly onFinish: () => void;
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
  const { header, primary, view } = props;
  const gridRef = useRef<HTMLTableElement>(null);
  const handleRef = useRef<GridHandle>(null);
  const isFrozen = useSession(props.session, takesNoSteps);
  const typing = useTypingPlace(props.entryRef, gridRef);
  const onTape = useStable(() => view.change({ tapedPieceId: view.piece?.id ?? null }));
  const parts: PartProps = { ...props, gridRef, handleRef, onTape };
  return (
    <section className="bench-primary" id={PIECES_ID} aria-label={primaryTitle(primary.name)} onFocus={typing.onFocus}>
      <PrimaryHeading match={props.match} report={props.report} style={header.settings.display} />
      {isFrozen ? null : <ToGoLine header={header} match={props.match} stock={props.stock} onTake={props.onFinish} />}
      <Pieces {...parts} isFrozen={isFrozen} />
      {isFrozen ? null : (
        <>
          <Taped {...props} />
          <div className="piece-tools">
            <Buttons {...parts} />
            <IconButton
              Icon={Calculator}
              name="Keypad"
              aria-expanded={view.hasKeypad}
              onPress={() => view.change({ hasKeypad: !view.hasKeypad })}
            />
          </div>
          <Entry {...parts} />
          {view.hasKeypad ? <Keypad onKey={(key) => typing.press(key)} /> : null}
        </>
      )}
    </section>
  );
}

interface PartProps extends Props {
  readonly gridRef: RefObject<HTMLTableElement | null>;
  readonly handleRef: RefObject<GridHandle | null>;
  readonly onTape: () => void;
}

/** The buttons are drawn again only when what they say changes, not with every piece entered. */
function Buttons({ primary, view, acts, handleRef, onTape }: PartProps) {
  const onAct = useStable(acts.onPiece);
  const doings = useMemo(
    () => ({
      onAct,
      onNote: () => handleRef.current?.beginNote(),
      onKind: (kind: Piece['kind']) => handleRef.current?.beginKind(kind),
      onTape,
    }),
    [onAct, handleRef, onTape],
  );
  const rows = [...selectedRows(view, primary.pieces)];
  return (
    <PieceButtons
      kind={view.piece?.kind ?? null}
      isLocked={view.piece?.locked === true}
      hasNote={view.piece !== null && view.piece.note !== ''}
      count={rows.length}
      state={commonState(view.pieces)}
      isFirst={rows[0] === 0}
      isLast={rows.at(-1) === primary.pieces.length - 1}
      doings={doings}
    />
  );
}

/** The grid; in a primary without pieces what to type first. */
function Pieces(props: PartProps & { readonly isFrozen: boolean }) {
  const { session, header, primary, view, acts, isFrozen, proposed } = props;
  const preview =
    proposed.length === 0 ? null : <ProposedPieces header={header} pieces={proposed} after={primary.pieces.length} />;
  const example = FIRST_LINES[unitOf(header.settings.display)];
  if (primary.pieces.length === 0 && preview !== null) return preview;
  if (primary.pieces.length === 0 && !isFrozen) {
    const take = () => {
      acts.enter(example);
      props.focusEntry();
    };
    return <FirstPiece example={example} header={header} onTake={take} />;
  }
  return (
    <>
      <div className="grid-frame">
        <PieceGrid
          key={primary.id}
          session={session}
          header={header}
          primary={primary}
          pieceLengthsMm={props.match.pieceLengthsMm}
          stock={props.stock}
          marks={props.marks}
          changed={props.changed}
          selection={view}
          insertAfterId={view.insertAfterId}
          gridRef={props.gridRef}
          handleRef={props.handleRef}
          isFrozen={isFrozen}
          hasKeypad={view.hasKeypad}
          onSelect={(selection) => view.change(selection)}
          onTape={props.onTape}
          onAct={acts.onPiece}
          onLeave={props.focusEntry}
          onPaste={acts.paste}
          copyText={acts.copyText}
        />
      </div>
      {preview}
    </>
  );
}

function Entry({ session, header, primary, view, acts, gridRef, ...rest }: PartProps) {
  const toGrid = () => {
    const lastRow = primary.pieces.length - 1;
    if (lastRow < 0) return;
    const cell: Cell = { row: lastRow, column: 2 };
    view.change(onlyCell(cell));
    focusCell(gridRef.current, cell);
  };
  return (
    <EntryPanel
      session={session}
      header={header}
      primary={primary}
      at={insertPlace(view)}
      fieldRef={rest.entryRef}
      unit={unitOf(header.settings.display)}
      offers={rest.offers}
      stock={rest.stock}
      place={placeWords(primary, view.insertAfterId)}
      canGoToEnd={view.insertAfterId !== null}
      hasKeypad={view.hasKeypad}
      enter={acts.enter}
      enterRows={acts.enterRows}
      onGoToEnd={() => {
        view.change({ insertAfterIds: [] });
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
