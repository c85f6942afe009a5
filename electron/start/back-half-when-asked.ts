/** The back half as the browser's host has it: most of what a start reads, and not needed before the page has gone out. */

import type { Backend } from '../store/backend.ts';

export interface BackHalf extends Pick<Backend, 'call' | 'close'> {
  /** As the backend's own; ends when that has been loaded, and has opened what it can. Rejects when it cannot be loaded. */
  openAhead(): Promise<void>;
}

/** Loads it when it is first asked for anything; a call that comes meanwhile waits. Closing what was never loaded loads nothing. */
export function backHalfWhenAsked(load: () => Promise<Backend>): BackHalf {
  let loading: Promise<Backend> | null = null;
  const loaded = (): Promise<Backend> => {
    loading ??= load();
    return loading;
  };
  return {
    call: async (name, request) => (await loaded()).call(name, request),
    openAhead: async () => (await loaded()).openAhead(),
    close: async () => (await loading)?.close(),
  };
}
