/** The colours of the theme against the contrast that WCAG 2.2 asks for, in light and in dark. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const css = readFileSync(new URL('../../../renderer/ui/theme.css', import.meta.url), 'utf8');

/** Both sides of `--name: light-dark(#..., #...)`. */
function colours(side: 0 | 1): ReadonlyMap<string, string> {
  const found = css.matchAll(/(--[a-z-]+):\s*light-dark\((#[0-9a-f]{6}),\s*(#[0-9a-f]{6})\)/g);
  return new Map([...found].map(([, name = '', light = '', dark = '']) => [name, side === 0 ? light : dark]));
}

/** WCAG 2.2, relative luminance: sRGB made linear, weighted. */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [high = 0, low = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (high + 0.05) / (low + 0.05);
}

/** Body text 4.5:1 (1.4.3); marks, edges and text of 24 px and more 3:1 (1.4.3, 1.4.11). */
const WANTED: readonly (readonly [string, string, number])[] = [
  ...['--surface', '--surface-raised', '--surface-hover', '--accent-wash'].flatMap(
    (ground) =>
      [
        ['--text', ground, 4.5],
        ['--text-muted', ground, 4.5],
        ['--accent', ground, 3],
      ] as const,
  ),
  ...['--surface', '--band'].flatMap(
    (ground) =>
      [
        ['--short', ground, 3],
        ['--long', ground, 3],
        ['--in-band', ground, 3],
      ] as const,
  ),
  ['--band-edge', '--surface', 3],
  ['--field-edge', '--surface', 3],
  ['--field-edge', '--surface-raised', 3],
  ['--accent-text', '--accent', 4.5],
];

test('the contrast formula gives the known ends: black on white 21, a colour on itself 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
  expect(contrast('#767676', '#ffffff')).toBeGreaterThan(4.5);
  expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
  expect(contrast('#0b6a5e', '#0b6a5e')).toBe(1);
});

describe.each(['light', 'dark'] as const)('in the %s theme', (theme) => {
  const palette = colours(theme === 'light' ? 0 : 1);
  test.each(WANTED)('%s on %s has at least %s to 1', (ink, ground, least) => {
    expect(contrast(palette.get(ink) ?? 'absent', palette.get(ground) ?? 'absent')).toBeGreaterThanOrEqual(least);
  });
});
