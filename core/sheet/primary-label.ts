/** What stands for a primary where its name may be too long. */

/** Names up to this long stand as they are. */
const LABEL_LENGTH = 4;

/** The name of a primary if it is short, else its number in the header: `#3`. */
export function primaryLabel(name: string, number: number): string {
  return name.length <= LABEL_LENGTH ? name : `#${number}`;
}
