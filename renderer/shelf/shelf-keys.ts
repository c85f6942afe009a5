/** Moving between the cells of the shelf with the keyboard. */

/** The input at a place of the table that `from` is in; null when there is none. */
function inputAt(from: HTMLElement, row: number, column: string): HTMLInputElement | null {
  const table = from.closest('table');
  return table?.querySelector<HTMLInputElement>(`input[data-cell="${row}:${column}"]`) ?? null;
}

/** Goes `by` rows down (negative: up) in the same column; stays where it is at the ends. */
export function moveDown(from: HTMLElement, by: number): void {
  const [row = '0', column = ''] = (from.getAttribute('data-cell') ?? '').split(':');
  const next = inputAt(from, Number(row) + by, column);
  next?.focus();
  next?.select();
}

export function focusCell(table: HTMLElement | null, row: number, column: string): void {
  const input = table?.querySelector<HTMLInputElement>(`input[data-cell="${row}:${column}"]`);
  input?.focus();
  input?.select();
}
