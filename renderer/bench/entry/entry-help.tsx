/** All that can be typed for a piece, a press away from the line, also while one is being typed. */

import { CircleQuestionMark } from 'lucide-react';
import { memo } from 'react';
import { Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { IconButton } from '../../ui/icon-button.tsx';
import { ENTRY_FORMS } from '../../ui/words/entry-forms.ts';

/** Never drawn again while one types. */
export const EntryHelp = memo(function EntryHelp() {
  return (
    <DialogTrigger>
      <IconButton Icon={CircleQuestionMark} name="How to type" />
      <Popover className="popover" placement="top end">
        <Dialog className="entry-forms" aria-label="How to type a piece">
          <table className="table">
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
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
});
