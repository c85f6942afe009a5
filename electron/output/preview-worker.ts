/** A thread that reads one file, answers and ends. */

import { parentPort, workerData } from 'node:worker_threads';
import { newId } from '../../core/index.ts';
import { secureRandom } from '../random.ts';
import { type ChosenFile, previewFile } from './preview-file.ts';

parentPort?.postMessage(previewFile(workerData as ChosenFile, () => newId(secureRandom)));
