/** Two headers side by side: their figures, each primary's length, and their flat views at one scale. */

import { compareHeaders, type Header, type HeaderAndPlans, type LengthStyle } from '../../../core/index.ts';
import { writeScreen } from '../../ui/screen.ts';
import { ComparedFigures, ComparedPrimaries } from './compare-tables.tsx';
import { ComparedViews } from './compared-views.tsx';
import { useCompared } from './use-compared.ts';
import '../archive.css';
import './compare.css';

interface Props {
  readonly oneId: string;
  readonly otherId: string;
}

export function CompareScreen({ oneId, otherId }: Props) {
  const compared = useCompared(oneId, otherId);
  return (
    <main className="page page-wide compare" id="screen" aria-busy={compared.kind === 'reading'}>
      <div className="page-head">
        <h1>Compare</h1>
        <a className="archive-link screen-only" href={writeScreen({ kind: 'archive', likeId: oneId })}>
          Compare with another
        </a>
      </div>
      {compared.kind === 'failed' ? <p>{compared.words}</p> : null}
      {compared.kind === 'read' ? <Comparison one={compared.one} other={compared.other} /> : null}
    </main>
  );
}

function Comparison({ one, other }: { readonly one: HeaderAndPlans; readonly other: HeaderAndPlans }) {
  const { figures, primaries } = compareHeaders(one, other);
  const names = [titleOf(one.header), titleOf(other.header)] as const;
  const style: LengthStyle = one.header.settings.display;
  return (
    <>
      <p className="compare-names">
        <HeaderLink header={one.header} /> beside <HeaderLink header={other.header} />. Differences are{' '}
        {other.header.name} less {one.header.name}.
      </p>
      <div className="compare-tables">
        <ComparedFigures figures={figures} names={names} style={style} />
        <ComparedPrimaries primaries={primaries} names={names} style={style} />
      </div>
      <ComparedViews one={one.header} other={other.header} />
    </>
  );
}

function titleOf({ name, state }: Header): string {
  return state === 'finished' ? name : `${name} (open)`;
}

function HeaderLink({ header }: { readonly header: Header }) {
  return <a href={writeScreen({ kind: 'bench', headerId: header.id })}>{titleOf(header)}</a>;
}
