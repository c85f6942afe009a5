import { expect, test } from 'vitest';
import { type BackHalf, backHalfWhenAsked } from '../../../electron/start/back-half-when-asked.ts';
import type { Backend } from '../../../electron/store/backend.ts';

/** A back half that writes down what it is asked for, and comes only when it is let in. */
function lateBackHalf() {
  const seen: string[] = [];
  let letIn: (backend: Backend) => void = () => undefined;
  let keepOut: (cause: Error) => void = () => undefined;
  const backHalf: BackHalf = backHalfWhenAsked(() => {
    seen.push('load');
    return new Promise((resolve, reject) => {
      [letIn, keepOut] = [resolve, reject];
    });
  });
  const backend: Backend = {
    async call(name) {
      seen.push(`call ${name}`);
      return { ok: true, value: {} };
    },
    openAhead: () => void seen.push('open'),
    close: async () => void seen.push('close'),
  };
  return { backHalf, seen, letIn: () => letIn(backend), keepOut: (cause: Error) => keepOut(cause) };
}

test('nothing is loaded before something is asked for, and never twice', async () => {
  const { backHalf, seen, letIn } = lateBackHalf();
  expect(seen).toEqual([]);
  const opened = backHalf.openAhead();
  expect(seen).toEqual(['load']);
  letIn();
  await opened;
  await backHalf.call('start', {});
  expect(seen).toEqual(['load', 'open', 'call start']);
});

test('calls that come while it is loading are answered in their order, and closing waits for it', async () => {
  const { backHalf, seen, letIn } = lateBackHalf();
  const answers = Promise.all([backHalf.call('start', {}), backHalf.call('openHeader', {})]);
  const closed = backHalf.close();
  letIn();
  expect(await answers).toEqual([
    { ok: true, value: {} },
    { ok: true, value: {} },
  ]);
  await closed;
  expect(seen).toEqual(['load', 'call start', 'call openHeader', 'close']);
});

test('one that was never asked for anything is closed without being loaded', async () => {
  const { backHalf, seen } = lateBackHalf();
  await backHalf.close();
  expect(seen).toEqual([]);
});

test('one that cannot be loaded says so to whoever asks', async () => {
  const { backHalf, keepOut } = lateBackHalf();
  const opened = backHalf.openAhead();
  keepOut(new Error('a file of the program is missing'));
  await expect(opened).rejects.toThrow('a file of the program is missing');
  await expect(backHalf.call('start', {})).rejects.toThrow('a file of the program is missing');
});
