/** The list of keys: those of the commands, and those that work inside the bench and the shelf. */

import { COMMAND_GROUPS } from '../../electron/bridge/commands.ts';
import { Button } from '../ui/button.tsx';
import { ModalDialog } from '../ui/modal-dialog.tsx';
import { useCommandList } from './command-registry.ts';
import { showChord } from './key-chord.ts';
import { SCREEN_KEYS } from './screen-keys.ts';
import './commands.css';

export function KeysList({ onClose }: { readonly onClose: () => void }) {
  return (
    <ModalDialog title="Keys" isOpen size="large" onClose={onClose} actions={<Button onPress={onClose}>Close</Button>}>
      <KeysTables headings="h3" />
    </ModalDialog>
  );
}

interface KeyLine {
  readonly does: string;
  readonly chords: readonly string[];
}

interface TablesProps {
  /** One below the heading over the tables. */
  readonly headings: 'h2' | 'h3';
}

export function KeysTables({ headings }: TablesProps) {
  const commands = useCommandList();
  const groups = COMMAND_GROUPS.map((group) => ({
    title: group as string,
    lines: commands
      .filter((command) => command.group === group && command.keys !== undefined)
      .map((command) => ({ does: command.name, chords: command.keys ?? [] })),
  }));
  return (
    <div className="keys">
      {[...groups, ...SCREEN_KEYS].map(({ title, lines }) =>
        lines.length === 0 ? null : <KeysTable key={title} title={title} lines={lines} heading={headings} />,
      )}
    </div>
  );
}

interface TableProps {
  readonly title: string;
  readonly lines: readonly KeyLine[];
  readonly heading: 'h2' | 'h3';
}

function KeysTable({ title, lines, heading: Heading }: TableProps) {
  return (
    <section>
      <Heading>{title}</Heading>
      <dl className="keys-list">
        {lines.map((line) => (
          <div key={line.does}>
            <dt>{line.does}</dt>
            <dd>
              {line.chords.map((chord) => (
                <kbd key={chord} className="key">
                  {showChord(chord)}
                </kbd>
              ))}
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
