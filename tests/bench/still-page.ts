/**
 * The bench's page with nothing behind it: the same elements and styles, in which a key makes the same changes that an undo and
 * a redo make, and no more. What it takes from key to picture is the browser's own part: any program that shows this page pays it.
 */

import type { Page } from 'playwright-core';
import type { AppUnderTest } from '../e2e/app-under-test.ts';

interface Change {
  /** From the body down, the place among its parent's nodes. */
  readonly path: readonly number[];
  /** Null: the text of the node. */
  readonly attribute: string | null;
  readonly value: string | null;
}

interface ListenersInPage {
  /** Takes everything that acts out of the page, and leaves its elements as they are. */
  stop(): void;
}

interface ChangesInPage {
  /** Watches attributes and texts from here on. */
  watch(): void;
  /** What they have become since. */
  taken(): readonly Change[];
  /** From here on each key makes the changes of the next list. */
  play(lists: readonly (readonly Change[])[]): void;
}

/** Runs in the page before anything else does, so that it knows what listens. */
function knowListeners(): void {
  const listening: (() => void)[] = [];
  const add = EventTarget.prototype.addEventListener;
  EventTarget.prototype.addEventListener = function listen(this: EventTarget, ...given: Parameters<typeof add>) {
    if (this === globalThis || this === document) listening.push(() => this.removeEventListener(...given));
    add.apply(this, given);
  };
  const inPage: ListenersInPage = {
    stop() {
      EventTarget.prototype.addEventListener = add;
      for (const end of listening) end();
      document.body.replaceWith(document.body.cloneNode(true));
    },
  };
  Object.assign(globalThis, { pageListeners: inPage });
}

/** Runs in the page. */
function knowChanges(): void {
  const seen: MutationRecord[] = [];
  const observer = new MutationObserver((records) => {
    seen.push(...records);
  });
  const changeOf = ({ target, attributeName: attribute }: MutationRecord): Change => {
    const path: number[] = [];
    for (let at: Node = target; at !== document.body && at.parentNode !== null; at = at.parentNode) {
      path.unshift([...at.parentNode.childNodes].indexOf(at as ChildNode));
    }
    return {
      path,
      attribute,
      value: attribute === null ? target.nodeValue : (target as Element).getAttribute(attribute),
    };
  };
  const make = ({ path, attribute, value }: Change) => {
    const node = path.reduce<Node | undefined>((at, index) => at?.childNodes[index], document.body);
    if (node === undefined) throw new Error('the page is not the one that was watched');
    if (attribute === null) node.nodeValue = value;
    else if (value === null) (node as Element).removeAttribute(attribute);
    else (node as Element).setAttribute(attribute, value);
  };
  const inPage: ChangesInPage = {
    watch: () => observer.observe(document.body, { subtree: true, attributes: true, characterData: true }),
    taken() {
      seen.push(...observer.takeRecords());
      observer.disconnect();
      const changes = seen.splice(0).filter(({ target }) => document.body.contains(target));
      // What changed twice has one end.
      return [...new Map(changes.map(changeOf).map((one) => [`${one.path.join()} ${one.attribute}`, one])).values()];
    },
    play(lists) {
      let turn = 0;
      addEventListener('keydown', (event) => {
        event.preventDefault();
        for (const change of lists[turn % lists.length] ?? []) make(change);
        turn += 1;
      });
    },
  };
  Object.assign(globalThis, { pageChanges: inPage });
}

/** Opens the header in hand in a page of its own, makes the edit there, and takes the program out of it. */
export async function openStillPage(app: AppUnderTest, edit: (page: Page) => Promise<void>): Promise<Page> {
  const page = await app.context.newPage();
  await page.addInitScript(knowListeners);
  await page.goto(app.host.address);
  const board = page.locator('.match-board');
  await board.waitFor();
  await edit(page);
  await page.evaluate(knowChanges);
  const changes = await page.evaluateHandle<ChangesInPage>('pageChanges');
  const lists: (readonly Change[])[] = [];
  for (const chord of ['Control+z', 'Control+y']) {
    const before = await board.textContent();
    await changes.evaluate((inPage) => inPage.watch());
    await page.keyboard.press(chord);
    await page.waitForFunction((text) => document.querySelector('.match-board')?.textContent !== text, before);
    lists.push(await changes.evaluate((inPage) => inPage.taken()));
  }
  await page.evaluate<void>('pageListeners.stop()');
  await changes.evaluate((inPage, made) => inPage.play(made), lists);
  await changes.dispose();
  return page;
}
