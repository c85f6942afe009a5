/** Runs commands by their keys, without ever taking a key from someone who is typing. */

import { useEffect } from 'react';
import type { Command } from './command.ts';
import { useCommandRegistry } from './command-registry.ts';
import { isSafeWhileTyping, matchesChord, typesOptionSign } from './key-chord.ts';

function isTextField(target: EventTarget | null): target is HTMLInputElement | HTMLTextAreaElement {
  if (target instanceof HTMLTextAreaElement) return true;
  return (
    target instanceof HTMLInputElement && !['button', 'checkbox', 'radio', 'range', 'submit'].includes(target.type)
  );
}

/** Text being typed is undone by its own field first; only then, or where a field shows what is stored, does the key mean the header or the shelf. */
function belongsToField(command: Command, chord: string, event: KeyboardEvent): boolean {
  const { target } = event;
  if (!isTextField(target)) return false;
  if ('words' in target.dataset && typesOptionSign(event)) return true;
  if (!isSafeWhileTyping(chord)) return true;
  return (command.id === 'undo' || command.id === 'redo') && target.value !== '' && !('stored' in target.dataset);
}

/** Listens on the window; a screen that has handled a key and prevented its default keeps it. */
export function useCommandKeys(): void {
  const registry = useCommandRegistry();
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.isComposing) return;
      // Behind an open dialog nothing is to be done by key; the dialog has its own.
      if (document.querySelector('[aria-modal="true"], .modal-overlay') !== null) return;
      for (const command of registry.list()) {
        const chord = command.keys?.find((candidate) => matchesChord(candidate, event));
        if (chord === undefined || belongsToField(command, chord, event)) continue;
        event.preventDefault();
        if ((command.unavailable ?? null) === null) command.run();
        return;
      }
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, [registry]);
}
