/** Carries calls of the page to the dispatcher, and events of the host to the page. */

import { type BrowserWindow, type IpcMainInvokeEvent, ipcMain } from 'electron';
import type { HostEvent } from '../bridge/contract.ts';
import { isOwnAddress } from './app-address.ts';
import { CALL_CHANNEL, EVENT_CHANNEL } from './channels.ts';

/** The part of the dispatcher that is called; it answers every name and every request, right or wrong, with a reply. */
export interface BridgeCalls {
  call(name: string, request: unknown): Promise<unknown>;
}

/** Whether a message comes from the main frame of the window's own page. The frame is null after it has gone elsewhere. */
function isFromOwnPage(event: IpcMainInvokeEvent, window: BrowserWindow): boolean {
  const frame = event.senderFrame;
  if (frame === null || window.isDestroyed() || event.sender !== window.webContents) return false;
  return frame === event.sender.mainFrame && isOwnAddress(frame.url);
}

/** Answers calls from the window's own page; from anyone else the call is refused before its request is looked at. */
export function serveBridge(window: BrowserWindow, calls: BridgeCalls): void {
  ipcMain.handle(CALL_CHANNEL, (event, name: unknown, request: unknown) => {
    const call = String(name);
    if (isFromOwnPage(event, window)) return calls.call(call, request);
    const detail = 'The call did not come from the page of this program.';
    return { ok: false, problems: [{ kind: 'invalidRequest', call: call.slice(0, 64), detail }] };
  });
  window.once('closed', () => ipcMain.removeHandler(CALL_CHANNEL));
}

/** Tells the page, if there still is one. */
export function sendToPage(window: BrowserWindow, event: HostEvent): void {
  if (!window.isDestroyed()) window.webContents.send(EVENT_CHANNEL, event);
}
