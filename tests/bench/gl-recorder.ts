/**
 * Runs inside the page before its own scripts: counts what WebGL is asked for, independent of what any library says of
 * itself, and measures from a key to the finished picture.
 */

export interface GlCounts {
  /** Draw calls since the page was opened. */
  readonly draws: number;
  /** Triangles of these draw calls. */
  readonly triangles: number;
  /** Buffers made and not yet deleted, over all contexts that have ever been. */
  readonly buffers: number;
  /** Textures made and not yet deleted in contexts not yet given back: three keeps a few empty ones for as long as a context. */
  readonly textures: number;
  /** Contexts made and not yet given back. */
  readonly contexts: number;
}

export interface GlCounterInPage {
  counts(): GlCounts;
  /** Told of every draw call, until taken out. */
  readonly onDraw: Set<(gl: WebGL2RenderingContext) => void>;
}

export interface RedrawRecorderInPage {
  /** The next keydown of this key is measured. */
  arm(key: string): void;
  /** Milliseconds from the armed key's own time stamp until the picture drawn for it is complete in the drawing buffer. */
  redrawnMs(): Promise<number>;
}

/** To be given to `addInitScript`; puts the counter under `globalThis.glCounter`. */
export function installGlCounter(): void {
  const counts = { draws: 0, triangles: 0, buffers: 0, textures: 0, contexts: 0 };
  const prototype = WebGL2RenderingContext.prototype;
  const onDraw = new Set<(gl: WebGL2RenderingContext) => void>();
  const texturesOf = new WeakMap<object, number>();
  const addTextures = (context: object, by: number) => {
    counts.textures += by;
    texturesOf.set(context, (texturesOf.get(context) ?? 0) + by);
  };
  const after = <Name extends 'createBuffer' | 'deleteBuffer' | 'createTexture' | 'deleteTexture'>(
    name: Name,
    act: (context: object, given: unknown) => void,
  ) => {
    const original = prototype[name] as (this: WebGL2RenderingContext, given: unknown) => unknown;
    Object.assign(prototype, {
      [name](this: WebGL2RenderingContext, given: unknown) {
        act(this, given);
        return original.call(this, given);
      },
    });
  };
  after('createBuffer', () => {
    counts.buffers += 1;
  });
  after('deleteBuffer', (_context, buffer) => {
    if (buffer) counts.buffers -= 1;
  });
  after('createTexture', (context) => addTextures(context, 1));
  after('deleteTexture', (context, texture) => addTextures(context, texture ? -1 : 0));
  const { drawElements, drawArrays } = prototype;
  const drawn = (gl: WebGL2RenderingContext, mode: number, corners: number) => {
    counts.draws += 1;
    if (mode === gl.TRIANGLES) counts.triangles += corners / 3;
    for (const tell of onDraw) tell(gl);
  };
  prototype.drawElements = function drawElementsCounted(...given) {
    drawn(this, given[0], given[1]);
    drawElements.apply(this, given);
  };
  prototype.drawArrays = function drawArraysCounted(...given) {
    drawn(this, given[0], given[2]);
    drawArrays.apply(this, given);
  };
  const known = new WeakSet<object>();
  const { getContext } = HTMLCanvasElement.prototype;
  HTMLCanvasElement.prototype.getContext = function getContextCounted(this: HTMLCanvasElement, ...given: unknown[]) {
    const context = (getContext as (...asked: unknown[]) => unknown).apply(this, given);
    if (context instanceof WebGL2RenderingContext && !known.has(context)) {
      known.add(context);
      counts.contexts += 1;
      this.addEventListener('webglcontextlost', () => {
        counts.contexts -= 1;
        addTextures(context, -(texturesOf.get(context) ?? 0));
      });
    }
    return context;
  } as typeof getContext;

  Object.assign(globalThis, { glCounter: { counts: () => ({ ...counts }), onDraw } satisfies GlCounterInPage });
}

/** To be given to `addInitScript` after `installGlCounter`; puts the recorder under `globalThis.redrawRecorder`. */
export function installRedrawRecorder(): void {
  const { onDraw } = (globalThis as unknown as { readonly glCounter: GlCounterInPage }).glCounter;
  let armedKey: string | null = null;
  let redrawn: Promise<number> | null = null;
  addEventListener(
    'keydown',
    (event) => {
      if (event.key !== armedKey) return;
      armedKey = null;
      redrawn = new Promise((resolve) => {
        const tell = (gl: WebGL2RenderingContext) => {
          onDraw.delete(tell);
          // All draws of one picture are in one task; reading a pixel after it waits until they are carried out.
          const channel = new MessageChannel();
          channel.port1.onmessage = () => {
            gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
            resolve(performance.now() - event.timeStamp);
          };
          channel.port2.postMessage(null);
        };
        onDraw.add(tell);
      });
    },
    { capture: true },
  );
  const recorder: RedrawRecorderInPage = {
    arm(key) {
      armedKey = key;
      redrawn = null;
    },
    redrawnMs() {
      if (redrawn === null) throw new Error('the armed key was not pressed');
      return redrawn;
    },
  };
  Object.assign(globalThis, { redrawRecorder: recorder });
}
