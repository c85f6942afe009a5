/** A header without primaries, and a primary without pieces: what to do first, with something that can be taken as it is. */

import { type FormEvent, type RefObject, useEffect, useRef, useState } from 'react';
import {
  type Header,
  type LengthUnit,
  type MatchReport,
  parseQuickEntry,
  pieceFromQuick,
  setSettingsEdit,
  unitOf,
} from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { Button } from '../ui/button.tsx';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { LengthField } from '../ui/fields/length-field.tsx';
import { TextField } from '../ui/fields/text-field.tsx';
import { clockingWords, pieceName, segmentLabel } from '../ui/words/piece-words.ts';
import { DISPLAY_CHOICES, displayChoice } from './panels/setting-choices.ts';
import { TargetFields, TubeFields } from './panels/settings-panel.tsx';
import type { BenchActs } from './use-bench-acts.ts';

const USUAL_PORTS = 4;
const MOST_PORTS = 16;

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly report: MatchReport;
  readonly acts: BenchActs;
}

/** The first card: how many ports, in which unit, of which tube and CLR, to which target. All of it can be changed later. */
export function EmptyBench({ session, header, report, acts }: Props) {
  const unit = unitOf(header.settings.display);
  return (
    <section className="empty-bench" aria-labelledby="start-title">
      <h2 id="start-title">New header: {header.name}</h2>
      <PortsForm session={session} acts={acts} />
      <div className="settings">
        <ChoiceField
          label="Lengths shown in"
          choices={DISPLAY_CHOICES}
          chosen={displayChoice(header.settings.display)}
          onChoose={(id) => {
            const choice = DISPLAY_CHOICES.find((candidate) => candidate.id === id);
            if (choice) session.apply(setSettingsEdit({ display: choice.style }));
          }}
        />
        <TubeFields session={session} header={header} />
        <LengthField
          label="Usual CLR"
          value={header.settings.clr}
          unit={unit}
          onTake={(clr) => session.apply(setSettingsEdit({ clr }))}
        />
        <TargetFields session={session} header={header} report={report} />
      </div>
      <p className="muted">Change any of these now or later, under Settings. The next header starts with them.</p>
    </section>
  );
}

/** How many primaries the header before this one had; null while it is not known, or when there is none. */
function usePortsBefore(session: HeaderSession): number | null {
  const [ports, setPorts] = useState<number | null>(null);
  useEffect(() => {
    let isShown = true;
    const read = async () => {
      const reply = await session.bridge.call('listHeaders', { place: 'bench' }).catch(() => null);
      const before = reply?.ok === true ? reply.value.headers.find(({ primaryCount }) => primaryCount > 0) : undefined;
      if (isShown && before !== undefined) setPorts(before.primaryCount);
    };
    void read();
    return () => {
      isShown = false;
    };
  }, [session]);
  return ports;
}

/** A dialog that made the header gives the focus back to what is gone with the screen before, two frames after it closes. */
function useFocusAfterDialog(field: RefObject<HTMLInputElement | null>): void {
  useEffect(() => {
    const take = () => {
      if (document.activeElement === document.body) field.current?.focus();
    };
    let frame = requestAnimationFrame(() => {
      frame = requestAnimationFrame(() => {
        frame = requestAnimationFrame(take);
      });
    });
    return () => cancelAnimationFrame(frame);
  }, [field]);
}

function PortsForm({ session, acts }: Pick<Props, 'session' | 'acts'>) {
  const field = useRef<HTMLInputElement>(null);
  useFocusAfterDialog(field);
  const before = usePortsBefore(session);
  /** Null while the count that is offered stands. */
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const text = typed ?? String(Math.min(before ?? USUAL_PORTS, MOST_PORTS));
  const start = (event: FormEvent) => {
    event.preventDefault();
    const count = Number(text);
    if (Number.isInteger(count) && count >= 1 && count <= MOST_PORTS) acts.addPrimaries(count);
    else setProblem(`"${text}" is not a count from 1 to ${MOST_PORTS}.`);
  };
  return (
    <form className="start-ports" onSubmit={start}>
      <TextField
        label="Ports"
        value={text}
        onChange={setTyped}
        problem={problem}
        maxLength={2}
        autoFocus
        inputRef={field}
      />
      <Button type="submit" look="main">
        {`Start with ${text === '1' ? '1 primary' : `${text} primaries`}`}
      </Button>
    </form>
  );
}

interface FirstPieceProps {
  /** The example line, in the header's unit. */
  readonly example: string;
  readonly header: Header;
  readonly onTake: () => void;
}

/** A primary without pieces: what a line of entry becomes, shown faintly, and taken by a button. */
export function FirstPiece({ example, header, onTake }: FirstPieceProps) {
  const unit = unitOf(header.settings.display);
  return (
    <div className="first-piece">
      <p>
        Start at the port. Type a length for a straight, or b and an angle for a bend, then Enter. A second number
        clocks the bend. Several pieces go in one line with a semicolon between them:
      </p>
      <p>
        <code>{example}</code>
      </p>
      <ol className="ghost-rows" aria-label="What the example becomes">
        {exampleWords(example, { unit, header }).map((words) => (
          <li key={words} className="ghost-row">
            {words}
          </li>
        ))}
      </ol>
      <Button onPress={onTake}>Enter this example</Button>
    </div>
  );
}

function exampleWords(
  example: string,
  { unit, header }: { readonly unit: LengthUnit; readonly header: Header },
): readonly string[] {
  const { clr, display } = header.settings;
  const read = parseQuickEntry(example, { unit, clr, previous: null });
  if (!read.ok) return [];
  return read.value.map((quick, index) => {
    const piece = pieceFromQuick(quick, String(index));
    const shape = `${pieceName(piece)} ${segmentLabel(piece, display)}`;
    return piece.kind === 'straight' || piece.clockingDeg === null
      ? shape
      : `${shape}, ${clockingWords(piece.clockingDeg)}`;
  });
}
