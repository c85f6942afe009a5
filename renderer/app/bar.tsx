/** The bar across the top: the header's name, the places to go, whether it is saved, and how things are shown. */

import { memo, useCallback } from 'react';
import { renameHeaderEdit } from '../../core/index.ts';
import type { CommandId } from '../../electron/bridge/commands.ts';
import { DISPLAY_CHOICES, displayChoice } from '../bench/panels/setting-choices.ts';
import { useCommandList, useCommandRegistry } from '../commands/command-registry.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useSession } from '../session/use-session.ts';
import { ActionMenu, ChoiceMenu } from '../ui/fields/choice-menu.tsx';
import { RenameLine } from '../ui/fields/rename-line.tsx';
import { type Screen, writeScreen } from '../ui/screen.ts';
import { showLengthsIn } from './commands/display-unit.ts';
import { HeaderMenu } from './header-menu.tsx';
import { SaveMarkLine } from './save-mark-line.tsx';
import { UndoButtons } from './undo-buttons.tsx';

interface Props {
  readonly screen: Screen;
  /** Where "Bench" leads. */
  readonly benchScreen: Screen;
  /** The open header's; null while none is open. */
  readonly session: HeaderSession | null;
  readonly isRenaming: boolean;
  readonly setRenaming: (isRenaming: boolean) => void;
}

export function Bar(props: Props) {
  const { screen, benchScreen, session } = props;
  return (
    <header className="bar screen-only">
      <div className="bar-left">
        <span className="bar-mark">Evenrun</span>
        <div className="bar-name">{session === null ? null : <HeaderTitle {...props} session={session} />}</div>
      </div>
      <Places screen={screen} benchScreen={benchScreen} />
      <div className="bar-right">
        {session === null ? null : (
          <>
            <SaveMarkLine session={session} />
            {screen.kind === 'bench' ? <UndoButtons session={session} /> : null}
            <UnitMenu session={session} />
          </>
        )}
        <MoreMenu />
      </div>
    </header>
  );
}

/** The bench has no other title than the name of what lies on it. */
function HeaderTitle({ screen, ...rename }: NameProps & Pick<Props, 'screen'>) {
  const name = <HeaderName {...rename} />;
  return screen.kind === 'bench' ? <h1>{name}</h1> : name;
}

interface NameProps extends Pick<Props, 'isRenaming' | 'setRenaming'> {
  readonly session: HeaderSession;
}

function HeaderName({ session, isRenaming, setRenaming }: NameProps) {
  const name = useSession(session, ({ header }) => header.name);
  const state = useSession(session, ({ header }) => header.state);
  if (state === 'finished') return <HeaderMenu name={name} state="finished" />;
  if (!isRenaming) return <HeaderMenu name={name} state={null} />;
  const rename = (next: string | null) => {
    setRenaming(false);
    if (next !== null) session.apply(renameHeaderEdit(next));
  };
  return <RenameLine name={name} onDone={rename} />;
}

/** What the archive leads to is a part of it. */
const ARCHIVE_SCREENS: ReadonlySet<Screen['kind']> = new Set(['archive', 'compare', 'shopFigures']);

function Places({ screen, benchScreen }: Pick<Props, 'screen' | 'benchScreen'>) {
  const link = (name: string, to: Screen, isHere: boolean) => (
    <a href={writeScreen(to)} aria-current={isHere ? 'page' : undefined}>
      {name}
    </a>
  );
  return (
    <nav className="bar-places" aria-label="Places">
      {link('Headers', { kind: 'headers' }, screen.kind === 'headers')}
      {link('Bench', benchScreen, screen.kind === 'bench')}
      {link('Shelf', { kind: 'shelf' }, screen.kind === 'shelf')}
      {link('Archive', { kind: 'archive' }, ARCHIVE_SCREENS.has(screen.kind))}
    </nav>
  );
}

function UnitMenu({ session }: { readonly session: HeaderSession }) {
  const display = useSession(session, ({ header }) => header.settings.display);
  const chosen = displayChoice(display);
  const name = DISPLAY_CHOICES.find((choice) => choice.id === chosen)?.name;
  return (
    <ChoiceMenu
      label="Lengths shown in"
      choices={DISPLAY_CHOICES}
      chosen={chosen}
      onChoose={(id) => {
        const display = DISPLAY_CHOICES.find((choice) => choice.id === id)?.style;
        if (display) showLengthsIn(session, display);
      }}
    >
      {name}
    </ChoiceMenu>
  );
}

/** Everything else of the frame, by its command: the words say what it will do. */
const MORE = [
  'findCommand',
  'switchDensity',
  'switchTheme',
  'preferences',
  'showBackups',
  'showKeys',
  'showHelp',
] as const satisfies readonly CommandId[];

function MoreMenu() {
  const registry = useCommandRegistry();
  const commands = useCommandList();
  const names = MORE.map((id) => commands.find((command) => command.id === id)?.name ?? '').join('\n');
  const run = useCallback((id: CommandId) => registry.find(id)?.run(), [registry]);
  return <MoreActs names={names} run={run} />;
}

interface MoreProps {
  /** A name a line, in the order of `MORE`; as one text, because the list of commands is another after every edit. */
  readonly names: string;
  readonly run: (id: CommandId) => void;
}

const MoreActs = memo(function MoreActs({ names, run }: MoreProps) {
  const shown = names.split('\n');
  const acts = MORE.map((id, place) => ({ id, name: shown[place] ?? '', run: () => run(id) }));
  return (
    <ActionMenu label="More: size, theme, help" acts={acts.filter(({ name }) => name !== '')}>
      More
    </ActionMenu>
  );
});
