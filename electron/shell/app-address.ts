/** The page's own address under Electron, and how it is told from every other. */

export const APP_SCHEME = 'app';
const APP_HOST = 'evenrun';
export const APP_ORIGIN = `${APP_SCHEME}://${APP_HOST}`;
export const PAGE_ADDRESS = `${APP_ORIGIN}/`;

/**
 * True only for addresses of the page itself. The text must begin with the origin letter for letter and also parse to it,
 * so neither a look-alike (`app://evenrun.example`, `app://x@evenrun/`) nor a spelling that parsers read differently passes.
 */
export function isOwnAddress(address: string): boolean {
  if (!address.startsWith(PAGE_ADDRESS)) return false;
  if (!URL.canParse(address)) return false;
  const url = new URL(address);
  return url.protocol === `${APP_SCHEME}:` && url.host === APP_HOST && url.username === '' && url.password === '';
}
