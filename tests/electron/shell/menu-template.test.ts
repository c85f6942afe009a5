/** The menu bar: every item does something, and what the page must know is a command of the page. */

import type { MenuItemConstructorOptions } from 'electron';
import { describe, expect, test, vi } from 'vitest';
import { COMMANDS, type CommandEntry, type CommandId } from '../../../electron/bridge/commands.ts';
import { type MenuActs, menuTemplate } from '../../../electron/shell/menu-template.ts';

type Item = MenuItemConstructorOptions;

function acts() {
  return { command: vi.fn<MenuActs['command']>(), openHeader: vi.fn(), openFile: vi.fn(), showDataFolder: vi.fn() };
}

const ENTRIES = Object.entries(COMMANDS) as readonly (readonly [CommandId, CommandEntry])[];

function itemsOf(items: readonly Item[]): Item[] {
  return items.flatMap((item) => [item, ...(Array.isArray(item.submenu) ? itemsOf(item.submenu) : [])]);
}

/** A menu as lines of text: depth, what it says, its keys. */
function drawn(items: readonly Item[], depth = ''): string[] {
  return items.flatMap((item) => {
    const words = item.type === 'separator' ? '---' : (item.label ?? `<${item.role}>`);
    const keys = item.accelerator === undefined ? '' : ` [${item.accelerator}]`;
    return [depth + words + keys, ...(Array.isArray(item.submenu) ? drawn(item.submenu, `${depth}  `) : [])];
  });
}

describe.each(['linux', 'win32', 'darwin'] as const)('on %s', (platform) => {
  const recent = [{ headerId: 'abcdefgh', name: 'Long & short' }];

  test('the menu bar is as agreed', () => {
    expect(drawn(menuTemplate(acts(), { platform, recent })).join('\n')).toMatchSnapshot();
  });

  test('each item is a heading, a role, or does exactly one thing', () => {
    const done = acts();
    for (const item of itemsOf(menuTemplate(done, { platform, recent }))) {
      if (item.type === 'separator' || item.role !== undefined || item.submenu !== undefined) continue;
      const before = [done.command, done.openHeader, done.openFile, done.showDataFolder].flatMap(
        (act) => act.mock.calls,
      ).length;
      (item.click as () => void)();
      const after = [done.command, done.openHeader, done.openFile, done.showDataFolder].flatMap(
        (act) => act.mock.calls,
      ).length;
      expect([item.label, after - before]).toEqual([item.label, 1]);
    }
  });

  test('every command that has a menu stands in the menu bar once, by the name that the search shows', () => {
    const done = acts();
    const clicked = itemsOf(menuTemplate(done, { platform, recent })).map((item) => {
      done.command.mockClear();
      (item.click as (() => void) | undefined)?.();
      return { label: item.label, id: done.command.mock.calls[0]?.[0] };
    });
    const shown = clicked.flatMap(({ id, label }) => (id === undefined ? [] : [[id, label?.replace(/…$/, '')]]));
    const wanted = ENTRIES.flatMap(([id, { menu, name }]) => (menu === null ? [] : [[id, name]]));
    const twiceOnMac = platform === 'darwin' ? [['showAbout', COMMANDS.showAbout.name]] : [];
    expect(shown.toSorted()).toEqual([...wanted, ...twiceOnMac].toSorted());
  });

  test('a recent header is opened by its id', () => {
    const done = acts();
    const item = itemsOf(menuTemplate(done, { platform, recent })).find(({ label }) => label === 'Long && short');
    (item?.click as (() => void) | undefined)?.();
    expect(done.openHeader.mock.calls).toEqual([['abcdefgh']]);
  });

  test('no two items share a key, and text can be cut, copied and pasted', () => {
    const items = itemsOf(menuTemplate(acts(), { platform, recent }));
    const keys = items.map((item) => item.accelerator).filter((key) => key !== undefined);
    expect(new Set(keys).size).toBe(keys.length);
    expect(items.map((item) => item.role)).toEqual(
      expect.arrayContaining(['cut', 'copy', 'paste', 'selectAll', 'quit']),
    );
  });
});

test('without recent headers the menu says so', () => {
  expect(drawn(menuTemplate(acts(), { platform: 'linux', recent: [] }))).toContain('    None yet');
});

test('a name cannot underline letters or fill the screen', () => {
  const name = `A & B ${'x'.repeat(200)}`;
  const lines = drawn(menuTemplate(acts(), { platform: 'linux', recent: [{ headerId: 'abcdefgh', name }] }));
  const line = lines.find((text) => text.includes('A && B'));
  expect(line?.trim().length).toBeLessThanOrEqual(62);
});

test('a command that is not in the table does not compile', () => {
  const done = acts();
  // @ts-expect-error there is no such command
  done.command('makeTea');
  expect(done.command).toHaveBeenCalledOnce();
});
