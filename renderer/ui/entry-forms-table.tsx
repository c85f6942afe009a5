/** What can be typed on the entry line, as a table: beside the line and in Help. */

import { ENTRY_FORMS } from './words/entry-forms.ts';

export function EntryFormsTable() {
  return (
    <table className="table">
      <caption className="visually-hidden">What can be typed</caption>
      <thead>
        <tr>
          <th scope="col">Typed</th>
          <th scope="col">Piece</th>
        </tr>
      </thead>
      <tbody>
        {ENTRY_FORMS.map(({ typed, means }) => (
          <tr key={typed}>
            <td>
              <kbd className="key">{typed}</kbd>
            </td>
            <td>{means}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
