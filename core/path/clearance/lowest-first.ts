/** A queue that gives back the entry with the lowest key first (binary heap; Williams, 1964). */

interface Entry<Value> {
  readonly key: number;
  readonly value: Value;
}

export class LowestFirst<Value> {
  private readonly entries: Entry<Value>[] = [];

  push(key: number, value: Value): void {
    const { entries } = this;
    const added = { key, value };
    let at = entries.length;
    entries.push(added);
    while (at > 0) {
      const parentAt = (at - 1) >> 1;
      const parent = entries[parentAt];
      if (parent === undefined || parent.key <= key) break;
      entries[at] = parent;
      at = parentAt;
    }
    entries[at] = added;
  }

  /** Takes out the entry with the lowest key; null when the queue is empty. */
  pop(): Entry<Value> | null {
    const { entries } = this;
    const lowest = entries[0];
    const last = entries.pop();
    if (lowest === undefined || last === undefined) return null;
    if (entries.length > 0) this.sink(last);
    return lowest;
  }

  /** Puts an entry in at the top and moves it down to where it belongs. */
  private sink(entry: Entry<Value>): void {
    const { entries } = this;
    let at = 0;
    for (;;) {
      const left = entries[2 * at + 1];
      if (left === undefined) break;
      const right = entries[2 * at + 2];
      const isRight = right !== undefined && right.key < left.key;
      const child = isRight ? right : left;
      if (child.key >= entry.key) break;
      entries[at] = child;
      at = 2 * at + (isRight ? 2 : 1);
    }
    entries[at] = entry;
  }
}
