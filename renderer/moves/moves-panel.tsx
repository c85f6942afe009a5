/** The moves panel: for the primary in hand, for all that are short or long, and the limits that moves keep to. */

import { useRef, useState } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import { type Primary, setLockedEdit } from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { useNotice } from '../ui/notices.tsx';
import { wordsFor } from '../ui/words/problem-words.ts';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import { HeaderMoves } from './header-moves.tsx';
import { MoveOptionsPanel } from './move-options.tsx';
import './moves.css';
import type { MovesPanelProps, MovesProps } from './moves-props.ts';
import { PrimaryMoves } from './primary-moves.tsx';
import type { Proposal } from './proposals/proposal.ts';
import { PrimaryProposals } from './whole/primary-proposals.tsx';
import { WholeHeader } from './whole/whole-header.tsx';

type TabId = 'primary' | 'rest' | 'header' | 'whole' | 'options';

export function MovesPanel(props: MovesPanelProps) {
  const { bench } = props;
  const [picked, setPicked] = useState<TabId>('primary');
  const panel = useRef<HTMLDivElement>(null);
  const onApply = useApply(props, panel);
  const given = { ...props, onApply };
  const tabs = tabsFor(props);
  const tab = tabs.some(({ id }) => id === picked) ? picked : 'primary';
  return (
    <div ref={panel} className="moves-panel" tabIndex={-1}>
      <Tabs
        className="moves-tabs"
        selectedKey={tab}
        onSelectionChange={(key) => {
          bench.choose(null);
          setPicked(key as TabId);
        }}
      >
        <TabList className="moves-tab-list" aria-label="Moves">
          {tabs.map(({ id, name }) => (
            <Tab key={id} id={id} className="moves-tab">
              {name}
            </Tab>
          ))}
        </TabList>
        {tabs.map(({ id }) => (
          <TabPanel key={id} id={id} className="moves-tab-panel">
            <TabBody id={id} {...given} />
          </TabPanel>
        ))}
      </Tabs>
      {tab === 'options' ? null : <MovesFoot {...given} />}
    </div>
  );
}

/** For what is half built there are moves and the rest of it; for what is empty there is nothing yet that could be moved. */
function tabsFor(props: MovesPanelProps): readonly { readonly id: TabId; readonly name: string }[] {
  const isHalfBuilt = isToBeBuilt(props, props.primary) && props.primary.pieces.length > 0;
  const toBuild = props.header.primaries.filter((primary) => isToBeBuilt(props, primary));
  return [
    { id: 'primary', name: primaryTitle(props.primary.name) },
    ...(isHalfBuilt ? [{ id: 'rest', name: 'The rest' } as const] : []),
    { id: 'header', name: 'Fix all' },
    ...(toBuild.length > 1 ? [{ id: 'whole', name: 'Build all' } as const] : []),
    { id: 'options', name: 'Limits' },
  ];
}

function TabBody({ id, ...props }: MovesProps & { readonly id: TabId }) {
  const { session, header, primary, stock, saw, bench } = props;
  switch (id) {
    case 'primary':
      return primary.pieces.length === 0 && isToBeBuilt(props, primary) ? (
        <PrimaryProposals key={primary.id} {...props} />
      ) : (
        <PrimaryMoves key={primary.id} {...props} />
      );
    case 'rest':
      return <PrimaryProposals key={primary.id} {...props} />;
    case 'header':
      return <HeaderMoves {...props} />;
    case 'whole':
      return <WholeHeader {...props} />;
    case 'options':
      return (
        <MoveOptionsPanel
          session={session}
          header={header}
          primary={primary}
          stock={stock}
          saw={saw}
          settings={bench.settings}
          onSet={bench.set}
          prices={bench.prices}
          onPrices={bench.setPrices}
        />
      );
  }
}

/** It has a port and an inlet, and there is room between them for what is not there yet. */
function isToBeBuilt({ header, report }: Pick<MovesPanelProps, 'header' | 'report'>, primary: Primary): boolean {
  if (header.state === 'finished' || primary.port === null || primary.inletId === null) return false;
  const own = report.primaries.find(({ primaryId }) => primaryId === primary.id);
  return own?.standing === 'empty' || own?.building?.kind === 'openEnd';
}

/** Applies a proposal as one step. The list goes with it, so the panel takes the focus that was in the list. */
function useApply({ session, bench }: MovesPanelProps, panel: { readonly current: HTMLElement | null }) {
  const notice = useNotice();
  return (proposal: Proposal) => {
    if (proposal.edit === null) return;
    const done = session.apply(proposal.edit);
    if (!done.ok) {
      notice({ text: wordsFor(done.problems), tone: 'trouble' });
      return;
    }
    bench.choose(null);
    panel.current?.focus();
  };
}

function MovesFoot({ session, primary, piece, bench, onApply }: MovesProps) {
  const { chosen, preview, isBefore } = bench;
  const isShown = preview !== null || isBefore;
  return (
    <div className="moves-foot">
      <Button
        look="main"
        isDisabled={!isShown}
        onPress={() => {
          if (chosen !== null) onApply(chosen);
        }}
      >
        Apply
      </Button>
      {isShown ? (
        <Button look="quiet" onPress={bench.flip}>
          {isBefore ? 'Show after' : 'Show before'}
        </Button>
      ) : null}
      {piece === null ? null : (
        <Button
          look="quiet"
          onPress={() => {
            const edit = setLockedEdit(primary, [piece], !piece.locked);
            if (edit !== null) session.apply(edit);
          }}
        >
          {piece.locked ? 'Unlock' : 'Lock'} piece {primary.pieces.indexOf(piece) + 1}
        </Button>
      )}
      <p className="muted">{isShown ? 'Preview, not applied' : 'Pick a move to preview it'}</p>
    </div>
  );
}
