/** Key chords as text: matching them against key presses, and showing them as the platform writes them. */

/** The part of a KeyboardEvent that a chord looks at. */
export interface KeyPress {
  readonly key: string;
  /** Name of the place on the keyboard, whatever it types there: `KeyT`, `Digit1`. */
  readonly code?: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

const MODIFIERS = new Set(['Mod', 'Ctrl', 'Shift', 'Alt']);

/** True where the main modifier is Command. */
export function isMac(): boolean {
  return typeof navigator !== 'undefined' && /Mac/.test(navigator.platform);
}

function splitChord(chord: string): { readonly key: string; readonly modifiers: ReadonlySet<string> } {
  const parts = chord.split('+').filter((part) => part.length > 0);
  const modifiers = new Set(parts.filter((part) => MODIFIERS.has(part)));
  // A chord that ends in "+" is a chord on the plus key itself.
  const key = chord.endsWith('+') ? '+' : (parts.find((part) => !MODIFIERS.has(part)) ?? '');
  return { key, modifiers };
}

/** A shifted sign (`?`, `+`) is one key to the person, though the platform reports Shift with it. */
function isShiftedSign(key: string): boolean {
  return key.length === 1 && !/[a-z0-9]/i.test(key);
}

/**
 * Option on a Mac turns letters and digits into other signs (Option+T types a dagger), so the key's place counts there
 * where the key itself is no plain letter or digit. Source: W3C UI Events KeyboardEvent code Values.
 */
export function isKeyOf(key: string, press: Pick<KeyPress, 'key' | 'code' | 'altKey'>): boolean {
  if (press.key.toLowerCase() === key.toLowerCase()) return true;
  if (!press.altKey || /^[a-z0-9]$/i.test(press.key)) return false;
  if (/^[a-z]$/i.test(key)) return press.code === `Key${key.toUpperCase()}`;
  return /^[0-9]$/.test(key) && press.code === `Digit${key}`;
}

/** Whether Option makes the press a sign of its own (Option+A types å), which in a name is meant as that sign. */
export function typesOptionSign({ key, altKey, ctrlKey, metaKey }: KeyPress): boolean {
  if (!altKey || ctrlKey || metaKey) return false;
  return key === 'Dead' || (key.length === 1 && !/[a-z0-9]/i.test(key));
}

/** Whether the press is the chord: the same key with exactly the same modifiers, letters in either case. */
export function matchesChord(chord: string, press: KeyPress, mac = isMac()): boolean {
  const { key, modifiers } = splitChord(chord);
  if (!isKeyOf(key, press)) return false;
  const wantsCtrl = modifiers.has('Ctrl') || (modifiers.has('Mod') && !mac);
  const wantsMeta = modifiers.has('Mod') && mac;
  if (press.ctrlKey !== wantsCtrl || press.metaKey !== wantsMeta) return false;
  if (press.altKey !== modifiers.has('Alt')) return false;
  return isShiftedSign(key) || press.shiftKey === modifiers.has('Shift');
}

/** Whether a press of the chord can never be text: it holds a modifier, or is a function key. */
export function isSafeWhileTyping(chord: string): boolean {
  const { key, modifiers } = splitChord(chord);
  return modifiers.has('Mod') || modifiers.has('Ctrl') || modifiers.has('Alt') || /^F\d{1,2}$/.test(key);
}

/** Keys by the words that stand on most keyboards. */
const KEY_WORDS: Readonly<Record<string, string>> = {
  ArrowUp: 'Up',
  ArrowDown: 'Down',
  ArrowLeft: 'Left',
  ArrowRight: 'Right',
  PageUp: 'Page Up',
  PageDown: 'Page Down',
  Escape: 'Esc',
};

/** The chord as its platform writes it: `Ctrl+Shift+Z`, or `⇧⌘Z` on a Mac. */
export function showChord(chord: string, mac = isMac()): string {
  const { key, modifiers } = splitChord(chord);
  const shownKey = key.length === 1 ? key.toUpperCase() : (KEY_WORDS[key] ?? key);
  if (!mac) {
    const shown = ['Mod', 'Ctrl', 'Alt', 'Shift'].filter((modifier) => modifiers.has(modifier));
    return [...shown.map((modifier) => (modifier === 'Mod' ? 'Ctrl' : modifier)), shownKey].join('+');
  }
  const signs: readonly (readonly [string, string])[] = [
    ['Ctrl', '⌃'],
    ['Alt', '⌥'],
    ['Shift', '⇧'],
    ['Mod', '⌘'],
  ];
  return signs.map(([modifier, sign]) => (modifiers.has(modifier) ? sign : '')).join('') + shownKey;
}
