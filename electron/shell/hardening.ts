/** What every page and session of the shell is denied: permissions but one, navigation, windows, web views. */

import { app, type Session, type WebContents } from 'electron';
import { isOwnAddress } from './app-address.ts';

interface Asking {
  readonly isMainFrame: boolean;
  /** Not known where no document asks. */
  readonly requestingUrl?: string;
}

/** Putting plain text on the clipboard, as "Copy table" does, from the main frame of the page itself. */
function isCopying(permission: string, { isMainFrame, requestingUrl }: Asking): boolean {
  return permission === 'clipboard-sanitized-write' && isMainFrame && isOwnAddress(requestingUrl ?? '');
}

/** Electron grants every permission unless told otherwise; the page needs one. */
export function permitCopyingOnly(session: Session): void {
  session.setPermissionRequestHandler((_contents, permission, answer, asking) => answer(isCopying(permission, asking)));
  session.setPermissionCheckHandler((_contents, permission, _origin, asking) => isCopying(permission, asking));
  session.setDevicePermissionHandler(() => false);
  session.setDisplayMediaRequestHandler((_request, answer) => answer({}));
  session.setBluetoothPairingHandler((_details, answer) => answer({ confirmed: false }));
}

function confineNavigation(contents: WebContents): void {
  contents.on('will-navigate', (details) => {
    if (!isOwnAddress(details.url)) details.preventDefault();
  });
  contents.on('will-frame-navigate', (details) => {
    // The page has no frames of its own.
    if (!details.isMainFrame || !isOwnAddress(details.url)) details.preventDefault();
  });
  contents.on('will-redirect', (details) => {
    if (!isOwnAddress(details.url)) details.preventDefault();
  });
}

/** Applies to every page that will ever be made, also to those nobody thought of. */
export function confineAllPages(): void {
  app.on('web-contents-created', (_event, contents) => {
    confineNavigation(contents);
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
    contents.on('will-attach-webview', (event) => event.preventDefault());
  });
}
