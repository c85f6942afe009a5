/** Large keys for gloves: what the entry line takes, without a keyboard. */

interface Props {
  readonly onKey: (key: string) => void;
  readonly onKind: (kind: 'straight' | 'bend') => void;
  readonly onBack: () => void;
  readonly onEnter: () => void;
}

/** In rows of seven: the figures as calculators have them, then the signs. */
const KEYS = [
  '7',
  '8',
  '9',
  '/',
  "'",
  'r',
  'p',
  '4',
  '5',
  '6',
  '.',
  '"',
  ';',
  'x',
  '1',
  '2',
  '3',
  '0',
  ' ',
  '-',
] as const;

const SPOKEN: Readonly<Record<string, string>> = {
  ' ': 'space',
  '/': 'slash',
  "'": 'feet mark',
  '"': 'inch mark',
  '.': 'point',
  '-': 'minus',
  ';': 'semicolon, next piece',
  r: 'r, CLR',
  p: 'p, pie cut',
  x: 'x, pies',
};

/** Keys do not take the focus, so that the caret stays in the entry line. */
function Key({ word, name, onPress, isWide }: { word: string; name: string; onPress: () => void; isWide?: boolean }) {
  return (
    <button
      type="button"
      className={isWide ? 'pad-key pad-key-wide' : 'pad-key'}
      aria-label={name}
      onPointerDown={(event) => event.preventDefault()}
      onClick={onPress}
    >
      {word}
    </button>
  );
}

/** The last piece of the line turned into a bend or a straight, whether its figure is typed yet or not. */
export function asKind(text: string, kind: 'straight' | 'bend'): string {
  const at = text.lastIndexOf(';') + 1;
  const figure = text.slice(at).replace(/^\s*[bp]?\s*/i, '');
  const space = at > 0 ? ' ' : '';
  return `${text.slice(0, at)}${space}${kind === 'bend' ? 'b' : ''}${figure}`;
}

export function Keypad({ onKey, onKind, onBack, onEnter }: Props) {
  return (
    <fieldset className="keypad">
      <legend className="visually-hidden">Keypad</legend>
      <div className="pad-keys">
        {KEYS.map((key) => (
          <Key key={key} word={key === ' ' ? 'space' : key} name={SPOKEN[key] ?? key} onPress={() => onKey(key)} />
        ))}
        <Key word="⌫" name="Delete the last character" onPress={onBack} />
      </div>
      <div className="pad-kinds">
        <Key word="Straight" name="Straight: what is typed is a length" onPress={() => onKind('straight')} isWide />
        <Key word="Bend" name="Bend: what is typed is an angle" onPress={() => onKind('bend')} isWide />
        <Key word="⏎ Enter" name="Enter" onPress={onEnter} isWide />
      </div>
    </fieldset>
  );
}
