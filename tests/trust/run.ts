/** `npm run trust`: prints what reliability must show, at full size; `--quick` for the sizes of the test command. */

import { runMeasures } from '../measure.ts';
import { buildChildren } from './child-bundle.ts';
import { STORAGE_RUNS } from './storage-measures.ts';
import { TEST_FILE_RUNS } from './test-file-measures.ts';
import { TYPING_RUN } from './typing-measures.ts';

await buildChildren();
await runMeasures([...STORAGE_RUNS, ...TEST_FILE_RUNS, TYPING_RUN]);
