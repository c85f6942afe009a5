/** What a bundle is, and which there are. */

/**
 * The page; the desktop's main process and preload; what serves the page to a browser where there is no desktop window; and
 * the threads of both that read files, plan cuts and draw pages.
 */
export type BundleName = 'renderer' | 'main' | 'preload' | 'host' | 'reader' | 'planner' | 'drawer';

export interface Bundle {
  /** The page's folder, or the first module. */
  readonly entry: string;
  readonly outFolder: string;
  /** Written last or alone, so that its age is the bundle's age. */
  readonly outFile: string;
  readonly sources: readonly string[];
}
