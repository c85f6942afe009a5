/** Finding commands by what a person types of them. */

import type { Command } from './command.ts';

/** Whether each word typed begins a word of the text. */
export function hasBeginnings(text: string, typed: string): boolean {
  const words = text.toLowerCase().split(/[^\p{L}\p{N}/]+/u);
  const wanted = typed.toLowerCase().split(/\s+/).filter(Boolean);
  return wanted.every((part) => words.some((word) => word.startsWith(part)));
}

/** All that a command is found by: its name, its group and its other words. */
export function searchText({ name, group, words }: Pick<Command, 'name' | 'group' | 'words'>): string {
  return `${name} ${group} ${words ?? ''}`;
}

type Named = Pick<Command, 'name'>;

/** How near the name is to what was typed; higher is nearer. */
function nearness({ name }: Named, typed: string): number {
  const shown = name.toLowerCase();
  const text = typed.trim().toLowerCase();
  if (shown === text) return 3;
  if (shown.startsWith(text)) return 2;
  return hasBeginnings(shown, text) ? 1 : 0;
}

/**
 * Those named as typed come before those that only have the words elsewhere; of two as near, the one of which more is typed
 * already, so that "mov" is Moves before it is Move piece up; else in the order given.
 */
export function nearestFirst<Found extends Named>(commands: readonly Found[], typed: string): readonly Found[] {
  const rest = ({ name }: Found, near: number) => (near >= 2 && typed.trim() !== '' ? name.length : 0);
  return commands.toSorted((a, b) => {
    const [nearA, nearB] = [nearness(a, typed), nearness(b, typed)];
    return nearB - nearA || rest(a, nearA) - rest(b, nearB);
  });
}
