/** LRA and XYZ tables of the primary in hand: shown, copied, saved, and read in. */

import { useState } from 'react';
import { safeFileName, type TableKind, tableEdit, unitOf } from '../../../core/index.ts';
import { askForFile, downloadText } from '../../host/files.ts';
import { Button } from '../../ui/button.tsx';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { FigureText } from '../../ui/figure-text.tsx';
import { useNotice } from '../../ui/notices.tsx';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import type { ShapeProps } from '../shape-props.ts';
import { noteWords, type ShownTable, shownTable } from './table-text.ts';

const KINDS = [
  { id: 'lra', name: 'LRA, rotations' },
  { id: 'xyz', name: 'XYZ, points' },
] as const;

export function TablesPanel(props: ShapeProps) {
  const { header, primary } = props;
  const [kind, setKind] = useState<TableKind>('lra');
  const table = shownTable(kind, primary, header.settings.display);
  const title = primaryTitle(primary.name);
  return (
    <div className="shape-stack">
      <div className="pose-fields">
        <ChoiceField<TableKind> label={`Table of ${title}`} choices={KINDS} chosen={kind} onChoose={setKind} />
      </div>
      {table.ok ? (
        <ShownPart table={table.value} name={`${header.name} ${primary.name} ${kind}`} />
      ) : (
        <p className="shape-finding">
          <FigureText text={wordsFor(table.problems)} />
        </p>
      )}
      {header.state === 'open' ? <ReadPart key={kind} {...props} kind={kind} /> : null}
    </div>
  );
}

function ShownPart({ table, name }: { readonly table: ShownTable; readonly name: string }) {
  const notice = useNotice();
  const copy = async () => {
    const text = await navigator.clipboard.writeText(table.tsv).then(
      () => 'Table copied.',
      () => 'The browser did not let the table be copied: save it as CSV instead.',
    );
    notice({ text });
  };
  return (
    <>
      <Cells table={table} />
      <Notes notes={table.notes} />
      <div className="actions">
        <Button onPress={() => void copy()}>Copy table</Button>
        <Button
          onPress={() => downloadText({ fileName: safeFileName(name, '.csv'), mediaType: 'text/csv', text: table.csv })}
        >
          Save as CSV
        </Button>
      </div>
    </>
  );
}

function Cells({ table }: { readonly table: ShownTable }) {
  return (
    <div className="table-scroll">
      <table className="table">
        <thead>
          <tr>
            <th scope="col">#</th>
            {table.columns.map((column) => (
              <th key={column} scope="col" className="number">
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows of a table have no identity but their place
            <tr key={index}>
              <th scope="row">{index + 1}</th>
              {row.map((cell, column) => (
                <td key={table.columns[column]} className="number">
                  <FigureText text={cell} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Notes({ notes }: { readonly notes: readonly string[] }) {
  return notes.map((note) => (
    <p key={note} className="view-note">
      {note}
    </p>
  ));
}

function ReadPart({ session, header, primary, kind }: ShapeProps & { readonly kind: TableKind }) {
  const [text, setText] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [notes, setNotes] = useState<readonly string[]>([]);
  const fieldId = `table-${kind}`;
  const read = (given: string) => {
    const unit = unitOf(header.settings.display);
    const made = tableEdit(kind, given, { primary, unit, newId: () => session.newId() });
    const done = made.ok ? session.apply(made.value.edit) : made;
    setProblem(done.ok ? null : wordsFor(done.problems));
    setNotes(made.ok ? made.value.notes.map(noteWords) : []);
    setText(done.ok ? '' : given);
  };
  const open = async () => {
    const file = await askForFile('.csv,.txt,.tsv,text/csv');
    if (file !== null) read(await file.text());
  };
  return (
    <section className="shape-part" aria-label="Read a table">
      <label className="field-label" htmlFor={fieldId}>
        Read a table: it takes the place of all pieces{kind === 'xyz' ? ' and of the port' : ''}
      </label>
      <textarea
        id={fieldId}
        className="table-text"
        rows={3}
        value={text}
        spellCheck={false}
        aria-invalid={problem !== null}
        aria-describedby={problem === null ? undefined : `${fieldId}-problem`}
        placeholder={kind === 'lra' ? 'length_mm, rotation_deg, angle_deg, clr_mm' : 'x_mm, y_mm, z_mm, clr_mm'}
        onChange={(event) => setText(event.target.value)}
      />
      {problem === null ? null : (
        <p id={`${fieldId}-problem`} role="alert" className="field-problem">
          <FigureText text={problem} />
        </p>
      )}
      <Notes notes={notes} />
      <div className="actions">
        <Button onPress={() => read(text)} isDisabled={text.trim() === ''}>
          Put in place of pieces
        </Button>
        <Button onPress={() => void open()}>Read file</Button>
      </div>
    </section>
  );
}
