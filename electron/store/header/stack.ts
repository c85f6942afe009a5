/** A stack that shares what lies below its top: adding and taking away copy nothing, however deep it is. */

export type Stack<Item> = { readonly top: Item; readonly below: Stack<Item> } | null;

export function pushed<Item>(stack: Stack<Item>, top: Item): Stack<Item> {
  return { top, below: stack };
}

/** Its items, the top one last. */
export function itemsOf<Item>(stack: Stack<Item>): readonly Item[] {
  const items: Item[] = [];
  for (let rest = stack; rest !== null; rest = rest.below) items.push(rest.top);
  return items.reverse();
}
