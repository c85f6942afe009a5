/** A key of the pad on the screen does what the same key of a keyboard would, wherever the caret is: in the line or in a cell. */

export type PadKey =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'back' | 'enter' | 'straight' | 'bend' };

/** The last piece of a line turned into a bend or a straight, whether its figure is typed yet or not. */
export function asKind(text: string, kind: 'straight' | 'bend', straightLetter: '' | 's'): string {
  const at = text.lastIndexOf(';') + 1;
  const figure = text.slice(at).replace(/^\s*[sbp]?\s*/i, '');
  const space = at > 0 ? ' ' : '';
  return `${text.slice(0, at)}${space}${kind === 'bend' ? 'b' : straightLetter}${figure}`;
}

/** `target` is a text field, or a cell of the grid that begins to be typed into by the first key. */
export function pressPadKey(target: HTMLElement, key: PadKey): void {
  if (document.activeElement !== target) target.focus();
  if (target instanceof HTMLInputElement) pressInField(target, key);
  else pressOnCell(target, key);
}

function pressInField(field: HTMLInputElement, key: PadKey): void {
  const [start, end] = [field.selectionStart ?? field.value.length, field.selectionEnd ?? field.value.length];
  switch (key.kind) {
    case 'text':
      put(field, key.text, [start, end]);
      return;
    case 'back':
      put(field, '', [start === end ? Math.max(0, start - 1) : start, end]);
      return;
    case 'straight':
    case 'bend':
      // In a cell a bare number keeps the kind of its piece, so there a straight needs its letter.
      put(field, asKind(field.value, key.kind, field.dataset['piece'] === undefined ? '' : 's'), [
        0,
        field.value.length,
      ]);
      return;
    default:
      sendKey(field, 'Enter');
  }
}

function pressOnCell(cell: HTMLElement, key: PadKey): void {
  switch (key.kind) {
    case 'text':
      sendKey(cell, key.text);
      return;
    case 'back':
      sendKey(cell, 'Backspace');
      return;
    case 'straight':
    case 'bend':
      sendKey(cell, key.kind === 'bend' ? 'b' : 's');
      return;
    default:
      sendKey(cell, 'Enter');
  }
}

/** As typing does: React hears of it by the input event, after which the caret stands behind what was put in. */
function put(field: HTMLInputElement, text: string, [start, end]: readonly [number, number]): void {
  field.setRangeText(text, start, end, 'end');
  field.dispatchEvent(new InputEvent('input', { bubbles: true }));
}

function sendKey(target: HTMLElement, key: string): void {
  target.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
}
