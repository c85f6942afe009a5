/** The library's count of the parts that it has written, of which its own types say nothing. */

declare module 'dxf-writer/src/Handle.js' {
  const handle: { seed: number };
  export = handle;
}
