/** The lines of a large text file, read piece by piece so that no more of it than a line and a piece is held. */

export interface FileLine {
  /** From 1. */
  readonly line: number;
  /** Null: longer than a line may be. */
  readonly text: string | null;
  /** Bytes of the file up to the end of this line. */
  readonly end: number;
}

const PIECE_BYTES = 1_000_000;
const LINE_END = 0x0a;

/** Empty lines are left out; bytes that are no UTF-8 come as the sign for that, and a byte order mark is no part of the first line. */
export async function* fileLines(file: Blob, limitBytes: number): AsyncGenerator<FileLine> {
  let held: readonly Uint8Array[] = [];
  let [heldBytes, line] = [0, 1];
  for (let at = 0; at < file.size; at += PIECE_BYTES) {
    const piece = new Uint8Array(await file.slice(at, at + PIECE_BYTES).arrayBuffer());
    let start = 0;
    for (let end = piece.indexOf(LINE_END); end >= 0; end = piece.indexOf(LINE_END, start)) {
      const text = textOf([...held, piece.subarray(start, end)], heldBytes + end - start, limitBytes);
      if (text !== '') yield { line, text, end: at + end + 1 };
      [held, heldBytes, line, start] = [[], 0, line + 1, end + 1];
    }
    const rest = piece.subarray(start);
    heldBytes += rest.length;
    // Of a line that is too long nothing more is held.
    held = heldBytes > limitBytes ? [] : [...held, rest];
  }
  const text = textOf(held, heldBytes, limitBytes);
  if (text !== '') yield { line, text, end: file.size };
}

function textOf(pieces: readonly Uint8Array[], byteCount: number, limitBytes: number): string | null {
  if (byteCount > limitBytes) return null;
  const bytes = new Uint8Array(byteCount);
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return new TextDecoder().decode(bytes).trim();
}
