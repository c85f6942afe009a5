/** The colours of the page as the picture needs them, read from the style sheet so that themes hold in space too. */

export interface ViewColours {
  readonly tube: string;
  readonly tubeInHand: string;
  readonly selected: string;
  /** Silhouettes, each against tube and page; those in hand are wider too. */
  readonly edge: string;
  readonly edgeInHand: string;
  readonly seam: string;
  readonly cut: string;
  readonly body: string;
  readonly surface: string;
}

const NAMES: Readonly<Record<keyof ViewColours, string>> = {
  tube: '--view-tube',
  tubeInHand: '--view-tube-in-hand',
  selected: '--accent',
  edge: '--view-edge',
  edgeInHand: '--view-edge-in-hand',
  seam: '--view-seam',
  cut: '--view-cut',
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
    edge: read(NAMES.edge),
    edgeInHand: read(NAMES.edgeInHand),
    seam: read(NAMES.seam),
    cut: read(NAMES.cut),
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
  const looks = ['(prefers-color-scheme: dark)', '(forced-colors: active)'].map((query) => matchMedia(query));
  for (const look of looks) look.addEventListener('change', changed);
  return () => {
    observer.disconnect();
    for (const look of looks) look.removeEventListener('change', changed);
  };
}
