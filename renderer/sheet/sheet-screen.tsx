/** Sheets of the header in hand: looked at page by page before they are saved or printed. */

import { useMemo, useState } from 'react';
import { describeProblem, unitOf } from '../../core/index.ts';
import type { RequestOf } from '../../electron/bridge/contract.ts';
import { finishExport } from '../host/files.ts';
import { useAsk } from '../host/host-bridge.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useForeignChanges, useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { useNotice } from '../ui/notices.tsx';
import { writeScreen } from '../ui/screen.ts';
import { PagePreview } from './page-preview.tsx';
import { type Chosen, drawingOf, firstChoice, markedDrawing, type SheetChoice } from './sheet-choice.ts';
import { SheetChoices } from './sheet-choices.tsx';
import { useKeptPlans } from './use-kept-plans.ts';
import { type Drawing, type PaperName, usePages } from './use-pages.ts';
import './paper-letters.css';
import './sheet.css';

type Format = RequestOf<'savePages'>['format'];

const NAMES: Readonly<Record<Drawing['kind'], string>> = {
  sheet: 'Build sheet',
  strips: 'Strips',
  fixture: 'Fixture sheet',
};

const FORMATS: Readonly<Record<Drawing['kind'], readonly (readonly [Format, string])[]>> = {
  sheet: [
    ['pdf', 'Save PDF'],
    ['csv', 'Save CSV'],
  ],
  strips: [
    ['pdf', 'Save PDF'],
    ['svg', 'Save SVG'],
    ['dxfArcs', 'Save DXF, arcs'],
    ['dxfChords', 'Save DXF, chords'],
  ],
  fixture: [
    ['pdf', 'Save PDF'],
    ['csv', 'Save CSV'],
  ],
};

export function SheetScreen({ session }: { readonly session: HeaderSession }) {
  const header = useSession(session, (state) => state.header);
  const damage = useSession(session, (state) => state.damage);
  useForeignChanges(session);
  const [paper, setPaper] = useState<PaperName>(() => (unitOf(header.settings.display) === 'in' ? 'letter' : 'a4'));
  const [choice, setChoice] = useState(() => firstChoice(header));
  const plans = useKeptPlans(session.headerId);
  const chosen = useMemo(
    () => markedDrawing(drawingOf(header, choice, plans), damage),
    [header, choice, plans, damage],
  );
  const change = (set: Partial<SheetChoice>) => setChoice((now) => ({ ...now, ...set }));
  return (
    <main className="page sheet-screen" id="screen">
      <div className="page-head">
        <h1>Sheets</h1>
        <a href={writeScreen({ kind: 'bench', headerId: session.headerId })}>Back to the bench</a>
      </div>
      {damage === null ? null : <p role="alert">{describeProblem(damage)}</p>}
      <SheetChoices header={header} choice={choice} paper={paper} onChoose={change} onPaper={setPaper} />
      <Sheet chosen={chosen} paper={paper} />
    </main>
  );
}

function Sheet({ chosen, paper }: { readonly chosen: Chosen; readonly paper: PaperName }) {
  if ('missing' in chosen) return <p role="alert">{chosen.missing}</p>;
  // Pages of one kind do not stand in for those of another.
  return <DrawnSheet key={chosen.drawing.kind} drawing={chosen.drawing} paper={paper} />;
}

function DrawnSheet({ drawing, paper }: { readonly drawing: Drawing; readonly paper: PaperName }) {
  const drawn = usePages(drawing, paper);
  const save = useSavePages(drawing, paper);
  return (
    <PagePreview drawn={drawn} name={NAMES[drawing.kind]}>
      {FORMATS[drawing.kind].map(([format, words], at) => (
        <Button
          key={format}
          look={at === 0 ? 'main' : 'plain'}
          isDisabled={drawn.kind !== 'drawn'}
          onPress={() => save(format)}
        >
          {words}
        </Button>
      ))}
    </PagePreview>
  );
}

function useSavePages(drawing: Drawing, paper: PaperName): (format: Format) => void {
  const ask = useAsk();
  const say = useNotice();
  return (format) => {
    void ask('savePages', { drawing, paper, format }).then((answer) => {
      if (!answer.ok) return say({ text: `The file was not made. ${answer.words}`, tone: 'trouble' });
      const words = finishExport(answer.value);
      if (words !== null) say({ text: words });
    });
  };
}
