/** Puts the bridge before the page: a list of names and three members, and nothing of Electron. */

import { contextBridge, ipcRenderer } from 'electron';
import { CALL_NAMES } from './bridge/call-names.ts';
import type { HostEvent } from './bridge/contract.ts';
import { CALL_CHANNEL, EVENT_CHANNEL } from './shell/channels.ts';

type Listener = (event: HostEvent) => void;

const listeners = new Set<Listener>();
/** Told before the page listened, such as the file that the program was started with. */
let early: HostEvent[] = [];

/** A page that does not listen yet has nothing to bring in, and all else can wait until it does. */
function keepForLater(told: HostEvent): void {
  if (told.kind === 'flush') void ipcRenderer.invoke(CALL_CHANNEL, 'readyToClose', {});
  else early.push(told);
}

ipcRenderer.on(EVENT_CHANNEL, (_event, told: HostEvent) => {
  if (listeners.size === 0) keepForLater(told);
  for (const listener of listeners) listener(told);
});

function call(name: string, request: unknown): Promise<unknown> {
  if (!CALL_NAMES.has(name)) return Promise.reject(new Error(`There is no call named ${String(name).slice(0, 64)}`));
  return ipcRenderer.invoke(CALL_CHANNEL, name, request);
}

function onEvent(listener: Listener): () => void {
  // A function of its own, so that a page listening twice with one function stops each by itself.
  const tell: Listener = (event) => listener(event);
  listeners.add(tell);
  const missed = early;
  early = [];
  for (const event of missed) tell(event);
  return () => {
    listeners.delete(tell);
  };
}

contextBridge.exposeInMainWorld('evenrun', { host: 'electron', call, onEvent });
