/** Finds what can be pressed and is too small for it. */

import type { Page } from 'playwright-core';

export interface TargetReport {
  readonly seen: number;
  /** Each that is too small, in words. */
  readonly small: readonly string[];
}

/** Targets under `leastPx` in width or height. Links inside a sentence are left out, as WCAG 2.5.8 does. */
export async function findTargets(page: Page, leastPx: number): Promise<TargetReport> {
  return await page.evaluate((least) => {
    const pressable =
      'button, a[href], input, select, textarea, [role="button"], [role="option"], [role="gridcell"], [role="menuitem"]';
    const isInSentence = (element: Element) => element.tagName === 'A' && element.closest('p, li, dd') !== null;
    const small: string[] = [];
    let seen = 0;
    for (const element of document.querySelectorAll(pressable)) {
      // Checkboxes and radio buttons of react-aria are hidden inputs inside the label that is pressed.
      const box = (element.closest('label') ?? element).getBoundingClientRect();
      const isShown = element.checkVisibility({ checkOpacity: true, visibilityProperty: true }) && box.width > 1;
      if (!isShown || isInSentence(element)) continue;
      seen += 1;
      // A third of a pixel is lost to fractions of line heights.
      if (box.width >= least - 0.34 && box.height >= least - 0.34) continue;
      const name = element.getAttribute('aria-label') ?? element.textContent?.trim().slice(0, 40) ?? '';
      small.push(
        `${element.tagName.toLowerCase()}.${element.className} "${name}" ${Math.round(box.width)} x ${Math.round(box.height)}`,
      );
    }
    return { seen, small };
  }, leastPx);
}
