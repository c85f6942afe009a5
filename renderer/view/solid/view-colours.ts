/** The colours of the page as the picture needs them, read from the style sheet so that themes hold in space too. */

export interface ViewColours {
  readonly tube: string;
  readonly tubeInHand: string;
  readonly selected: string;
  readonly seam: string;
  readonly body: string;
  readonly surface: string;
}

const NAMES: Readonly<Record<keyof ViewColours, string>> = {
  tube: '--view-tube',
  tubeInHand: '--view-tube-in-hand',
  selected: '--accent',
  seam: '--view-seam',
  body: '--text-muted',
  surface: '--surface',
};

/** Asks the browser what each variable comes to here: variables alone may still hold both themes. */
export function readColours(place: HTMLElement): ViewColours {
  const probe = document.createElement('span');
  place.append(probe);
  const read = (name: string) => {
    probe.style.color = `var(${name})`;
    return getComputedStyle(probe).color;
  };
  const colours = {
    tube: read(NAMES.tube),
    tubeInHand: read(NAMES.tubeInHand),
    selected: read(NAMES.selected),
    seam: read(NAMES.seam),
    body: read(NAMES.body),
    surface: read(NAMES.surface),
  };
  probe.remove();
  return colours;
}

/** Calls back when theme, contrast or density change; returns the function that stops it. */
export function onLookChange(changed: () => void): () => void {
  const observer = new MutationObserver(changed);
  observer.observe(document.documentElement, { attributeFilter: ['data-theme', 'data-density'] });
  const dark = matchMedia('(prefers-color-scheme: dark)');
  dark.addEventListener('change', changed);
  return () => {
    observer.disconnect();
    dark.removeEventListener('change', changed);
  };
}
