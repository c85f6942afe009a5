/** The bar across the top: the header's name, the places to go, whether it is saved, and how things are shown. */

import { memo, useCallback } from 'react';
import { DISPLAY_CHOICES, displayChoice } from '../bench/drawers/setting-choices.ts';
import type { CommandId } from '../commands/command.ts';
import { useCommandList, useCommandRegistry } from '../commands/command-registry.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { ActionMenu, ChoiceMenu } from '../ui/fields/choice-menu.tsx';
import { RenameLine } from '../ui/fields/rename-line.tsx';
import { type Screen, writeScreen } from '../ui/screen.ts';
import { SaveMarkLine } from './save-mark-line.tsx';
import type { Workshop } from './use-workshop.ts';

interface Props {
  readonly workshop: Pick<Workshop, 'screen' | 'session' | 'benchScreen' | 'isRenaming' | 'setRenaming'>;
}

export function Bar({ workshop }: Props) {
  const { session } = workshop;
  return (
    <header className="bar screen-only">
      <span className="bar-mark">Evenrun</span>
      <div className="bar-name">{session === null ? null : <HeaderTitle workshop={workshop} session={session} />}</div>
      <Places workshop={workshop} />
      {session === null ? null : <SaveMarkLine session={session} />}
      {session === null ? null : <UnitMenu session={session} />}
      <MoreMenu />
    </header>
  );
}

/** The bench has no other title than the name of what lies on it. */
function HeaderTitle(props: Props & { readonly session: HeaderSession }) {
  const name = <HeaderName {...props} />;
  return props.workshop.screen.kind === 'bench' ? <h1>{name}</h1> : name;
}

function HeaderName({ workshop, session }: Props & { readonly session: HeaderSession }) {
  const { isRenaming, setRenaming } = workshop;
  const name = useSession(session, ({ header }) => header.name);
  const state = useSession(session, ({ header }) => header.state);
  if (state === 'finished') return <span className="bar-finished">{`${name}, finished`}</span>;
  if (!isRenaming) {
    return (
      <Button look="quiet" aria-label={`Rename ${name}`} onPress={() => setRenaming(true)}>
        <span>{name}</span>
      </Button>
    );
  }
  const rename = (next: string | null) => {
    setRenaming(false);
    if (next !== null) session.apply({ kind: 'setHeader', set: { name: next } });
  };
  return <RenameLine name={name} onDone={rename} />;
}

function Places({ workshop: { screen, benchScreen } }: Props) {
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
      {link('Archive', { kind: 'archive' }, screen.kind === 'archive')}
    </nav>
  );
}

function UnitMenu({ session }: { readonly session: HeaderSession }) {
  const display = useSession(session, ({ header }) => header.settings.display);
  const state = useSession(session, ({ header }) => header.state);
  const chosen = displayChoice(display);
  const name = DISPLAY_CHOICES.find((choice) => choice.id === chosen)?.name;
  // The display unit is part of the frozen document.
  if (state === 'finished') return <p className="muted">{name}</p>;
  return (
    <ChoiceMenu
      label="Lengths shown in"
      choices={DISPLAY_CHOICES}
      chosen={chosen}
      onChoose={(id) => {
        const display = DISPLAY_CHOICES.find((choice) => choice.id === id)?.style;
        if (display) session.apply({ kind: 'setSettings', set: { display } });
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
  const given = MORE.flatMap((id) => commands.filter((command) => command.id === id));
  const run = useCallback((id: string) => registry.find(id)?.run(), [registry]);
  return <MoreActs lines={given.map(({ id, name }) => `${id}:${name}`).join('\n')} run={run} />;
}

interface MoreProps {
  /** A command a line, its id and its name: other commands change their names with every edit. */
  readonly lines: string;
  readonly run: (id: string) => void;
}

const MoreActs = memo(function MoreActs({ lines, run }: MoreProps) {
  const acts = lines.split('\n').flatMap((line) => {
    const [, id, name] = /^([^:]*):(.*)$/.exec(line) ?? [];
    return id === undefined || name === undefined ? [] : [{ id, name, run: () => run(id) }];
  });
  return (
    <ActionMenu label="More: size, theme, help" acts={acts}>
      More
    </ActionMenu>
  );
});
