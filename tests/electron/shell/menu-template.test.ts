/** The menu bar: every item does something, and what the page must know is a command of the page. */

import type { MenuItemConstructorOptions } from 'electron';
import { describe, expect, test, vi } from 'vitest';
import { demoHeader } from '../../../core/index.ts';
import { menuTemplate } from '../../../electron/shell/menu-template.ts';
import { benchCommands, type CommandReach } from '../../../renderer/bench/bench-commands.ts';
import { COMMAND_IDS } from '../../../renderer/commands/command.ts';

type Item = MenuItemConstructorOptions;

function acts() {
  return { command: vi.fn(), openFile: vi.fn(), showDataFolder: vi.fn() };
}

/** Those of the bench, but for the jumps to one primary or another. */
function benchIds(): readonly string[] {
  const nothing = { piece: null, pieces: [], primary: null, cell: null } as unknown as CommandReach['view'];
  const reach: CommandReach = {
    header: demoHeader('menu'),
    view: nothing,
    acts: {} as CommandReach['acts'],
    focusEntry: () => undefined,
  };
  return benchCommands(reach).flatMap(({ id }) => (/^primary\d+$/.test(id) ? [] : [id]));
}

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
      const before = [done.command, done.openFile, done.showDataFolder].flatMap((act) => act.mock.calls).length;
      (item.click as () => void)();
      const after = [done.command, done.openFile, done.showDataFolder].flatMap((act) => act.mock.calls).length;
      expect([item.label, after - before]).toEqual([item.label, 1]);
    }
  });

  test('every command sent is known to the page, or opens a header', () => {
    const done = acts();
    for (const item of itemsOf(menuTemplate(done, { platform, recent }))) (item.click as (() => void) | undefined)?.();
    const strangers = done.command.mock.calls
      .map(([id]) => String(id))
      .filter((id) => !id.startsWith('openHeader:') && ![...COMMAND_IDS, ...benchIds()].includes(id));
    expect(strangers).toEqual([]);
    expect(done.command).toHaveBeenCalledWith('openHeader:abcdefgh');
  });

  test('every command of the page is in the menu bar', () => {
    const done = acts();
    for (const item of itemsOf(menuTemplate(done, { platform, recent }))) (item.click as (() => void) | undefined)?.();
    const sent = new Set(done.command.mock.calls.map(([id]) => id));
    expect(COMMAND_IDS.filter((id) => !sent.has(id))).toEqual([]);
  });

  test('everything that the bench can do stands under Header', () => {
    const done = acts();
    const header = menuTemplate(done, { platform, recent }).find(({ label }) => label === '&Header');
    for (const item of itemsOf([header ?? {}])) (item.click as (() => void) | undefined)?.();
    const sent = new Set(done.command.mock.calls.map(([id]) => id));
    expect(benchIds().length).toBeGreaterThan(15);
    expect(benchIds().filter((id) => !sent.has(id))).toEqual([]);
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
