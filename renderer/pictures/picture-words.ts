/** What a picture is called where it is not seen. */

/** @param at its place, from 0 */
export function pictureName({ caption }: { readonly caption: string }, at: number): string {
  return caption === '' ? `picture ${at + 1}` : `picture ${at + 1}, ${caption}`;
}
