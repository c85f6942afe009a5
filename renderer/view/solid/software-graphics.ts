/** Whether WebGL is drawn by the processor here: then smooth edges would cost more time than a person should wait. */

let known: boolean | null = null;

/** Names under which software renderers of browsers and systems give themselves out. */
const SOFTWARE = /swiftshader|llvmpipe|softpipe|software|basic render/i;

/** Asked of the browser once; false where there is no WebGL at all. */
export function isSoftwareGraphics(): boolean {
  known ??= askBrowser();
  return known;
}

function askBrowser(): boolean {
  const gl = document.createElement('canvas').getContext('webgl2');
  if (gl === null) return false;
  const extension = gl.getExtension('WEBGL_debug_renderer_info');
  const name: unknown = gl.getParameter(extension?.UNMASKED_RENDERER_WEBGL ?? gl.RENDERER);
  gl.getExtension('WEBGL_lose_context')?.loseContext();
  return SOFTWARE.test(String(name));
}
