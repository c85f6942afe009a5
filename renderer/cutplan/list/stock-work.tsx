/** The work on one stock item: its picture, and its cuts in order. */

import {
  type CutListItem,
  type CutStep,
  type CutStock,
  type LengthStyle,
  type SawSettings,
  type StockItem,
  stockItemWords,
} from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { writeScreen } from '../../ui/screen.ts';
import { giftWords, kerfWords, markWords, rowWords, writeOnWords } from './cut-words.ts';
import { headerOfPiece, type PlacedPieces } from './plan-pieces.ts';
import { StockPicture } from './stock-picture.tsx';

interface Props {
  /** From 1, in the order of work. */
  readonly number: number;
  readonly work: CutListItem;
  readonly item: CutStock;
  /** The row of the shelf that it lies in. */
  readonly stored: StockItem;
  readonly pieces: PlacedPieces;
  readonly saw: SawSettings;
  readonly style: LengthStyle;
  readonly chosen: number | null;
  readonly onChoose: (step: number) => void;
}

export function StockWork(props: Props) {
  const { number, work, item, stored, pieces, style, chosen, onChoose } = props;
  const name = `Stock ${number}: ${stockItemWords(stored)}`;
  const inHand = chosen === null ? null : inHandWords(props, chosen);
  const [inHandId] = chosen === null ? [] : piecesOf(work, chosen);
  return (
    <section className="cut-work" aria-label={name}>
      <h3>
        <FigureText text={name} />
      </h3>
      <p className="muted">
        <FigureText text={[rowWords(work.row, style), stored.note].filter(Boolean).join(' · ')} />
      </p>
      <StockPicture
        {...{ row: work.row, item, pieces, chosen, onChoose }}
        title={`${name}, drawn to scale with ${work.steps.filter(({ saw }) => saw !== null).length} cuts`}
      />
      <div className="cut-in-hand">
        <p role="status" className={inHand === null ? 'muted' : undefined}>
          <FigureText text={inHand ?? 'Choose a cut, here or in the picture, to see what it gives.'} />
        </p>
        {inHandId === undefined ? null : (
          <a href={writeScreen({ kind: 'bench', headerId: headerOfPiece(inHandId) })}>Show it on the bench</a>
        )}
      </div>
      <div className="table-scroll">
        <table className="table cut-steps">
          <thead>
            <tr>
              <th scope="col">Cut</th>
              <th scope="col">Line</th>
              <th scope="col">Comes off</th>
              <th scope="col">Write on it</th>
            </tr>
          </thead>
          <tbody>
            {work.steps.map((step, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a cut is known by its place alone
              <StepRow key={at} {...props} step={step} at={at} />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

/** Ids of the pieces that a cut gives. */
export function piecesOf(work: CutListItem, at: number): readonly string[] {
  return (work.steps[at]?.gives ?? []).flatMap((gift) => (gift.kind === 'pieces' ? gift.pieceIds : []));
}

/** The cut in hand and all that it gives, in one line. */
function inHandWords({ number, work, pieces, style }: Props, at: number): string {
  const gives = (work.steps[at]?.gives ?? []).map((gift) => giftWords(gift, pieces, style));
  return `Cut ${number}.${at + 1} gives ${gives.length === 0 ? 'nothing' : gives.join('; ')}.`;
}

function StepRow({ step, at, ...props }: Props & { step: CutStep; at: number }) {
  const { number, work, pieces, saw, style, chosen, onChoose } = props;
  const lines = (words: readonly string[]) => words.map((text) => <Line key={text} text={text} />);
  return (
    <tr data-chosen={chosen === at ? '' : undefined} onClick={() => onChoose(at)}>
      <th scope="row">
        <button
          type="button"
          className="cut-choose"
          aria-pressed={chosen === at}
          aria-label={`Show cut ${number}.${at + 1}`}
          onClick={(event) => {
            event.stopPropagation();
            onChoose(at);
          }}
        >
          {number}.{at + 1}
        </button>
      </th>
      <td>
        {step.saw === null ? (
          <span className="muted">no cut: {work.steps.length === 1 ? 'taken whole' : 'what is left'}</span>
        ) : (
          lines([markWords(step.saw.line, style), kerfWords(step, saw, style)])
        )}
      </td>
      <td>{lines(step.gives.map((gift) => giftWords(gift, pieces, style)))}</td>
      <td>{lines(step.gives.map((gift) => writeOnWords(gift, pieces, style)))}</td>
    </tr>
  );
}

function Line({ text }: { readonly text: string }) {
  return (
    <div>
      <FigureText text={text} />
    </div>
  );
}
