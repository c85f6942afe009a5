/**
 * Runs inside the page: measures from a key's own time stamp to the first frame that shows a change of what is watched.
 * Two clocks are read. Event Timing (W3C) gives the browser's own duration from the key to the next presented frame,
 * rounded to 8 ms and told only from 16 ms on. Beside it, the time of the first task after the frame in which the
 * elements had changed, which is exact but leaves out what the compositor does after the main thread.
 */

export interface PaintSample {
  /** Milliseconds from the key to the first task after the frame with the change. */
  readonly paintedMs: number;
  /** Milliseconds by Event Timing; null: under its threshold, that is less than 16 after rounding to 8. */
  readonly eventMs: number | null;
}

export interface RecorderInPage {
  /** The next keydown of this key is measured. */
  arm(key: string): void;
  /** Settles with the sample once the change has been painted and Event Timing has had its say. */
  sample(): Promise<PaintSample>;
}

/** To be evaluated in the page; puts the recorder under `globalThis.paintRecorder`. It waits for changes below the element. */
export function installRecorder(selector: string): void {
  const timings: PerformanceEntry[] = [];
  new PerformanceObserver((list) => {
    timings.push(...list.getEntries().filter((entry) => entry.name === 'keydown'));
  }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);

  let hasChanged = false;
  const watched = document.querySelector(selector);
  if (watched === null) throw new Error(`no ${selector} on this page`);
  new MutationObserver(() => {
    hasChanged = true;
  }).observe(watched, { subtree: true, childList: true, attributes: true, characterData: true });

  let armedKey: string | null = null;
  let painted: Promise<{ startMs: number; paintedMs: number }> | null = null;
  const afterFrame = (act: () => void) => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => act();
    channel.port2.postMessage(null);
  };
  const untilPainted = (startMs: number) =>
    new Promise<{ startMs: number; paintedMs: number }>((resolve) => {
      const look = () => {
        if (!hasChanged) requestAnimationFrame(look);
        else afterFrame(() => resolve({ startMs, paintedMs: performance.now() - startMs }));
      };
      requestAnimationFrame(look);
    });
  addEventListener(
    'keydown',
    (event) => {
      if (event.key !== armedKey) return;
      armedKey = null;
      hasChanged = false;
      painted = untilPainted(event.timeStamp);
    },
    { capture: true },
  );
  const recorder: RecorderInPage = {
    arm(key) {
      armedKey = key;
      painted = null;
    },
    async sample() {
      if (painted === null) throw new Error('the armed key was not pressed');
      const { startMs, paintedMs } = await painted;
      // Event Timing tells after the next frame was presented; some frames are enough for it to arrive.
      await new Promise((resolve) => setTimeout(resolve, 120));
      // The two stamps of one key differ by what the browser rounds them to.
      const own = timings.find((entry) => Math.abs(entry.startTime - startMs) < 1);
      return { paintedMs, eventMs: own?.duration ?? null };
    },
  };
  Object.assign(globalThis, { paintRecorder: recorder });
}
