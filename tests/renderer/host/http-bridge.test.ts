/** The HTTP client of the loopback host. */

import { describe, expect, test } from 'vitest';
import { type BrowserParts, createHttpBridge } from '../../../renderer/host/bridge.ts';

interface Sent {
  readonly url: string;
  readonly init: RequestInit;
}

type Tabs = BrowserParts['tabs'];

/** Tabs of one address: what one posts reaches all others, as a BroadcastChannel has it. */
function tabsTogether(): () => Tabs {
  const all: Tabs[] = [];
  return () => {
    const tab: Tabs = {
      onmessage: null,
      postMessage: (data: unknown) => {
        for (const other of all)
          if (other !== tab) other.onmessage?.call(other as BroadcastChannel, new MessageEvent('message', { data }));
      },
    };
    all.push(tab);
    return tab;
  };
}

function browserAt(
  hash: string,
  answer: () => Response,
  kept: Record<string, string> = {},
  tabs: Tabs = tabsTogether()(),
) {
  const sent: Sent[] = [];
  const addresses: string[] = [];
  const location = { hash, pathname: '/', search: '' };
  const browser: BrowserParts = {
    location,
    history: {
      replaceState: (_state, _title, url) => {
        addresses.push(String(url));
        location.hash = '';
      },
    },
    sessionStorage: {
      getItem: (key) => kept[key] ?? null,
      setItem: (key, value) => {
        kept[key] = value;
      },
    },
    tabs,
    fetch: async (url, init) => {
      sent.push({ url: String(url), init: init ?? {} });
      return answer();
    },
  };
  return { browser, sent, addresses, kept };
}

const fine = () => Response.json({ ok: true, value: { revision: 3, state: 'open' } });
const sentHeader = (sent: readonly Sent[], name: string) => new Headers(sent[0]?.init.headers).get(name);

describe('the token', () => {
  test('of a host started again reaches the tabs that were there before, and a reload of them keeps it', async () => {
    const newTab = tabsTogether();
    const old = browserAt('#token=old', fine, {}, newTab());
    const bridge = createHttpBridge(old.browser);
    createHttpBridge(browserAt('#token=new', fine, {}, newTab()).browser);
    await bridge.call('start', {});
    expect(sentHeader(old.sent, 'x-evenrun-token')).toBe('new');
    const reloaded = browserAt('', fine, old.kept);
    await createHttpBridge(reloaded.browser).call('start', {});
    expect(sentHeader(reloaded.sent, 'x-evenrun-token')).toBe('new');
  });

  test('is taken out of the address, kept for reloads, and sent with each call', async () => {
    const first = browserAt('#token=s3cret', fine);
    const bridge = createHttpBridge(first.browser);
    expect(first.addresses).toEqual(['/']);
    const reply = await bridge.call('readRevision', { headerId: 'h1' });
    expect(reply).toEqual({ ok: true, value: { revision: 3, state: 'open' } });
    expect(first.sent[0]?.url).toBe('/bridge/readRevision');
    expect(first.sent[0]?.init.body).toBe('{"headerId":"h1"}');
    expect(sentHeader(first.sent, 'x-evenrun-token')).toBe('s3cret');
    expect(sentHeader(first.sent, 'content-type')).toBe('application/json');
    const reloaded = browserAt('#/shelf', fine, first.kept);
    await createHttpBridge(reloaded.browser).call('start', {});
    expect(reloaded.addresses).toEqual([]);
    expect(sentHeader(reloaded.sent, 'x-evenrun-token')).toBe('s3cret');
  });

  test('of a new start is taken from the address when that is opened where the page already is', async () => {
    const { browser, sent, addresses, kept } = browserAt('', fine);
    const bridge = createHttpBridge(browser);
    await bridge.call('start', {});
    Object.assign(browser.location, { hash: '#token=n3w' });
    await bridge.call('start', {});
    Object.assign(browser.location, { hash: '' });
    await bridge.call('start', {});
    expect(sent.map(({ init }) => new Headers(init.headers).get('x-evenrun-token'))).toEqual(['', 'n3w', 'n3w']);
    expect([addresses, Object.values(kept)]).toEqual([['/'], ['n3w']]);
  });

  test('that the host does not know is an answer, which says what to do', async () => {
    const { browser } = browserAt('', () => new Response('Wrong token', { status: 401 }));
    const reply = await createHttpBridge(browser).call('start', {});
    expect(reply).toEqual({ ok: false, problems: [{ kind: 'pageUnknown' }] });
  });
});

describe('answers', () => {
  test('problems are replies; anything but 200 is a broken connection', async () => {
    const problem = { ok: false, problems: [{ kind: 'notFound', what: 'header', id: 'h1' }] };
    const told = createHttpBridge(browserAt('#token=t', () => Response.json(problem)).browser);
    expect(await told.call('readRevision', { headerId: 'h1' })).toEqual(problem);
    const refused = createHttpBridge(browserAt('', () => new Response('no', { status: 403 })).browser);
    await expect(refused.call('readRevision', { headerId: 'h1' })).rejects.toThrow('403');
  });

  test('small calls outlive the page, large ones do not claim to', async () => {
    const { browser, sent } = browserAt('#token=t', fine);
    const bridge = createHttpBridge(browser);
    await bridge.call('saveDraft', { headerId: 'h1', draft: { field: 'entry:p1', text: '2' } });
    await bridge.call('previewFile', { fileName: 'a.json', content: 'A'.repeat(80_000), expect: 'header', unit: 'in' });
    expect(sent.map(({ init }) => init.keepalive)).toEqual([true, false]);
  });
});
