/** The page's way to its host: the preload's bridge under Electron, or an HTTP client in a local browser. */

import type { CallName, HostBridge, Reply, RequestOf } from '../../electron/bridge/contract.ts';

declare global {
  interface Window {
    /** Put there by the preload; absent in a local browser. */
    readonly evenrun?: HostBridge;
  }
}

/** What the HTTP client needs of a browser; handed in, so that it can be tried without one. */
export interface BrowserParts {
  readonly location: Pick<Location, 'hash' | 'pathname' | 'search'>;
  readonly history: Pick<History, 'replaceState'>;
  readonly sessionStorage: Pick<Storage, 'getItem' | 'setItem'>;
  readonly fetch: typeof fetch;
  /** Reaches the other tabs of this address, so that one opened anew lets those go on that were there before. */
  readonly tabs: Pick<BroadcastChannel, 'postMessage' | 'onmessage'>;
}

const TOKEN_KEY = 'evenrun-token';

/** Browsers refuse `keepalive` on bodies above 64 KiB. */
const KEEPALIVE_LIMIT = 60_000;

/**
 * The secret that the loopback host wants to hear with each call; taken out of the address, so that it is not shared by
 * accident. Null: the address holds none.
 */
function takeToken(browser: BrowserParts): string | null {
  const found = /(?:^#|&)token=([^&]+)/.exec(browser.location.hash)?.[1];
  if (found === undefined) return null;
  const token = decodeURIComponent(found);
  browser.sessionStorage.setItem(TOKEN_KEY, token);
  browser.tabs.postMessage(token);
  browser.history.replaceState(null, '', browser.location.pathname + browser.location.search);
  return token;
}

/** The loopback host's answer to a call with another secret than its own, or none. */
const WRONG_TOKEN = 401;

/**
 * A bridge to the loopback host that served this page.
 * Calls reject when the host cannot be reached or refuses to answer; every expected failure is a reply, one from a host
 * that does not know this page as well.
 */
export function createHttpBridge(browser: BrowserParts): HostBridge {
  let token = takeToken(browser) ?? browser.sessionStorage.getItem(TOKEN_KEY) ?? '';
  // The host was started again under the same address, and another tab has its new secret.
  browser.tabs.onmessage = ({ data }: MessageEvent<unknown>) => {
    if (typeof data !== 'string') return;
    token = data;
    browser.sessionStorage.setItem(TOKEN_KEY, data);
  };
  return {
    host: 'browser',
    async call<Name extends CallName>(name: Name, request: RequestOf<Name>): Promise<Reply<Name>> {
      const body = JSON.stringify(request);
      // The address of a new start, opened where the page already is, loads nothing anew.
      token = takeToken(browser) ?? token;
      const answer = await browser.fetch(`/bridge/${name}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', 'x-evenrun-token': token },
        body,
        // A commit on its way must arrive even when the page is closed under it.
        keepalive: body.length < KEEPALIVE_LIMIT,
      });
      if (answer.status === WRONG_TOKEN) return { ok: false, problems: [{ kind: 'pageUnknown' }] };
      if (!answer.ok) throw new Error(`The host answered ${answer.status} to ${name}.`);
      return (await answer.json()) as Reply<Name>;
    },
    onEvent: () => () => undefined,
  };
}

function hostBridge(): HostBridge {
  return (
    window.evenrun ??
    createHttpBridge({
      location: window.location,
      history: window.history,
      sessionStorage: window.sessionStorage,
      fetch: window.fetch.bind(window),
      tabs: new BroadcastChannel(TOKEN_KEY),
    })
  );
}

/** Made as the page loads, before anything else touches the address; null only where there is no page. */
const ofThisPage: HostBridge | null = typeof window === 'undefined' ? null : hostBridge();

function present(): HostBridge {
  if (ofThisPage === null) throw new Error('The bridge is there in a page only.');
  return ofThisPage;
}

/** The one bridge of this page. */
export const bridge: HostBridge = {
  get host() {
    return present().host;
  },
  call: (name, request) => present().call(name, request),
  onEvent: (listener) => present().onEvent(listener),
};
