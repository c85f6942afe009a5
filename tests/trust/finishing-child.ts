/** A process that finishes headers with pictures and brings others back, until it ends or is killed. */

import { parseArgs } from 'node:util';
import { finishedLine } from '../finished-lines.ts';
import { openBackend, type TestBackend } from './backend-under-test.ts';
import { tell } from './protocol.ts';
import { randomBelow, seededRandom } from './seeded-random.ts';

const { values } = parseArgs({
  options: {
    folder: { type: 'string' },
    seed: { type: 'string' },
    mode: { type: 'string' },
    commits: { type: 'string' },
  },
});
const random = seededRandom(Number(values.seed));
const limit = values.commits === undefined ? Number.POSITIVE_INFINITY : Number(values.commits);

function picture() {
  const noise = Array.from({ length: 60_000 }, () => randomBelow(random, 256));
  const content = Buffer.from([0xff, 0xd8, 0xff, ...noise]).toString('base64');
  return { caption: '', mediaType: 'image/jpeg' as const, widthPx: 800, heightPx: 600, content };
}

async function finishOne(backend: TestBackend, round: number): Promise<void> {
  const { header } = await backend.must('createHeader', { name: `Finished ${values.seed} ${round}`, from: 'demo' });
  const headerId = header.id;
  for (let count = 0; count < 2; count += 1) await backend.must('addPicture', { headerId, picture: picture() });
  const stepId = `finish-${values.seed}-${round}`;
  tell({ kind: 'sent', stepIds: [headerId], digest: 'finish' });
  const steps = [{ action: 'do' as const, stepId, edit: { kind: 'finishHeader' as const } }];
  const { revision } = await backend.must('commitSteps', { headerId, baseRevision: 0, steps });
  tell({ kind: 'acked', stepIds: [headerId], revision });
}

async function bringSome(backend: TestBackend, round: number): Promise<void> {
  const prefix = `Brought-${values.seed}-${round}`;
  const lines = Array.from({ length: 4 }, (_, at) => ({ line: at + 1, text: finishedLine(at, prefix) }));
  const stepIds = lines.map((_, at) => `${prefix.toLowerCase()}-${at}`);
  tell({ kind: 'sent', stepIds, digest: 'bring' });
  const answer = await backend.must('bringBackFinished', { lines });
  if (answer.lines.some(({ kind }) => kind !== 'brought')) throw new Error(JSON.stringify(answer));
  tell({ kind: 'acked', stepIds, revision: 0 });
}

tell({ kind: 'started' });
const backend = openBackend(values.folder ?? '', random);
const start = await backend.must('start', {});
if (start.state !== 'ready') throw new Error(`cannot open: ${JSON.stringify(start.problem)}`);
for (let round = 0; round < limit; round += 1) await (round % 2 === 0 ? finishOne : bringSome)(backend, round);
await backend.close();
tell({ kind: 'done' });
