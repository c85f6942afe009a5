/** The line that starts a header: a name and Enter. */

import { type FormEvent, useState } from 'react';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/fields/text-field.tsx';

interface Props {
  /** Taken when Enter is pressed on an empty line. */
  readonly offered: string;
  readonly autoFocus: boolean;
  readonly onCreate: (name: string) => void;
}

/** The first of "Header 1", "Header 2" ... that is not taken. */
export function freeHeaderName(taken: readonly string[]): string {
  const names = new Set(taken.map((name) => name.trim().toLowerCase()));
  let number = 1;
  while (names.has(`header ${number}`)) number += 1;
  return `Header ${number}`;
}

export function NewHeaderLine({ offered, autoFocus, onCreate }: Props) {
  const [name, setName] = useState('');
  const create = (event: FormEvent) => {
    event.preventDefault();
    onCreate(name.trim() === '' ? offered : name.trim());
    setName('');
  };
  return (
    <form className="new-header" onSubmit={create}>
      <TextField
        label="Name of a new header"
        value={name}
        onChange={setName}
        placeholder={offered}
        autoFocus={autoFocus}
        maxLength={120}
      />
      <Button type="submit" look="main">
        New header
      </Button>
    </form>
  );
}
