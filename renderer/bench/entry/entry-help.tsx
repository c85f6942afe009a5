/** All that can be typed for a piece, a press away from the line, also while one is being typed. */

import { CircleQuestionMark } from 'lucide-react';
import { memo } from 'react';
import { Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { EntryFormsTable } from '../../ui/entry-forms-table.tsx';
import { IconButton } from '../../ui/icon-button.tsx';

/** Never drawn again while one types. */
export const EntryHelp = memo(function EntryHelp() {
  return (
    <DialogTrigger>
      <IconButton Icon={CircleQuestionMark} name="How to type" />
      <Popover className="popover" placement="top end">
        <Dialog className="entry-forms" aria-label="How to type a piece">
          <EntryFormsTable />
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
});
