/** A file dropped anywhere on the window is offered for import; anything else dropped does nothing. */

import { useEffect, useRef, useState } from 'react';

function hasFiles(event: DragEvent): boolean {
  return event.dataTransfer?.types.includes('Files') ?? false;
}

/** True while a file is held over the window. */
export function useFileDrop(onFile: (file: File) => void): boolean {
  const [isOver, setIsOver] = useState(false);
  const latest = useRef(onFile);
  useEffect(() => {
    latest.current = onFile;
  });
  useEffect(() => {
    // Without these, a dropped file would replace the page.
    const onDragOver = (event: DragEvent) => {
      if (!hasFiles(event)) return;
      // A part of the page that takes files itself has said so.
      setIsOver(!event.defaultPrevented);
      event.preventDefault();
    };
    const onDragLeave = (event: DragEvent) => {
      if (event.relatedTarget === null) setIsOver(false);
    };
    const onDrop = (event: DragEvent) => {
      setIsOver(false);
      if (!hasFiles(event) || event.defaultPrevented) return;
      event.preventDefault();
      const file = event.dataTransfer?.files[0];
      if (file) latest.current(file);
    };
    window.addEventListener('dragover', onDragOver);
    window.addEventListener('dragleave', onDragLeave);
    window.addEventListener('drop', onDrop);
    return () => {
      window.removeEventListener('dragover', onDragOver);
      window.removeEventListener('dragleave', onDragLeave);
      window.removeEventListener('drop', onDrop);
    };
  }, []);
  return isOver;
}
