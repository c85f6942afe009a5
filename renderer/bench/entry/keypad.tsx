/** Large keys for gloves: all that the entry line and the cells take, without a keyboard. */

import type { PadKey } from './pad-press.ts';

interface Props {
  readonly onKey: (key: PadKey) => void;
}

/** In rows of eight: the figures as calculators have them, then the signs. */
const KEYS = [
  ['7', '8', '9', '/', "'", '"', 'r', '='],
  ['4', '5', '6', '.', '-', 'mm', 'p', ';'],
  ['1', '2', '3', '0', ' ', 'in', 'x'],
] as const;

const SPOKEN: Readonly<Record<string, string>> = {
  ' ': 'space',
  '/': 'slash',
  "'": 'feet mark',
  '"': 'inch mark',
  '.': 'point',
  '-': 'minus',
  ';': 'semicolon, next piece',
  '=': 'equals, the piece before once more',
  r: 'r, CLR',
  p: 'p, pie cut',
  x: 'x, pies',
  mm: 'mm, millimetres',
  in: 'in, inches',
};

/** Keys do not take the focus, so that the caret stays where it is typed. */
function Key({ word, name, onPress, isWide }: { word: string; name: string; onPress: () => void; isWide?: boolean }) {
  return (
    <button
      type="button"
      className={isWide ? 'pad-key pad-key-wide' : word.length > 1 ? 'pad-key pad-key-word' : 'pad-key'}
      aria-label={name}
      onPointerDown={(event) => event.preventDefault()}
      onClick={onPress}
    >
      {word}
    </button>
  );
}

export function Keypad({ onKey }: Props) {
  return (
    <fieldset className="keypad">
      <legend className="visually-hidden">Keypad</legend>
      <div className="pad-keys">
        {KEYS.flat().map((key) => (
          <Key
            key={key}
            word={key === ' ' ? 'space' : key}
            name={SPOKEN[key] ?? key}
            onPress={() => onKey({ kind: 'text', text: key })}
          />
        ))}
        <Key word="⌫" name="Delete the last character" onPress={() => onKey({ kind: 'back' })} />
      </div>
      <div className="pad-kinds">
        <Key
          word="Straight"
          name="Straight: what is typed is a length"
          onPress={() => onKey({ kind: 'straight' })}
          isWide
        />
        <Key word="Bend" name="Bend: what is typed is an angle" onPress={() => onKey({ kind: 'bend' })} isWide />
        <Key word="⏎ Enter" name="Enter" onPress={() => onKey({ kind: 'enter' })} isWide />
      </div>
    </fieldset>
  );
}
