/** The moves panel: for the primary in hand, for all that are short or long, and the limits that moves keep to. */

import { useRef, useState } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import { setLockedEdit } from '../../core/index.ts';
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

export function MovesPanel(props: MovesPanelProps) {
  const { session, header, primary, stock, saw, bench } = props;
  const [tab, setTab] = useState('primary');
  const panel = useRef<HTMLDivElement>(null);
  const onApply = useApply(props, panel);
  const given = { ...props, onApply };
  return (
    <div ref={panel} className="moves-panel" tabIndex={-1}>
      <Tabs
        className="moves-tabs"
        selectedKey={tab}
        onSelectionChange={(key) => {
          bench.choose(null);
          setTab(String(key));
        }}
      >
        <TabList className="moves-tab-list" aria-label="Moves">
          <Tab id="primary" className="moves-tab">
            {primaryTitle(primary.name)}
          </Tab>
          <Tab id="header" className="moves-tab">
            Fix all
          </Tab>
          <Tab id="options" className="moves-tab">
            Limits
          </Tab>
        </TabList>
        <TabPanel id="primary" className="moves-tab-panel">
          <PrimaryMoves key={primary.id} {...given} />
        </TabPanel>
        <TabPanel id="header" className="moves-tab-panel">
          <HeaderMoves {...given} />
        </TabPanel>
        <TabPanel id="options" className="moves-tab-panel">
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
        </TabPanel>
      </Tabs>
      {tab === 'options' ? null : <MovesFoot {...given} />}
    </div>
  );
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
