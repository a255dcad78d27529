/** A worker thread: its own reading of the text, its own range of draws. */
import { parentPort, workerData } from 'node:worker_threads';
import { topics } from '../core/analyse.ts';
import { readBuild } from '../core/build/read-build.ts';
import { answerStore } from '../core/car/ask-network.ts';
import { prepareCar } from '../core/car/realise.ts';
import { sampleMargins } from '../core/chance/sample-margins.ts';
import type { WorkerMessage, WorkerTask } from './sample-on-workers.ts';
import { words } from '../catalogue/words.ts';

const { text, request, only } = workerData as WorkerTask;
const say = (message: WorkerMessage): void => parentPort?.postMessage(message);
const studied = topics.filter(({ name }) => !only || only.includes(name));
const margins = sampleMargins(prepareCar(readBuild(text, words), words), studied, request, answerStore(), (done) => { if (done % 16 === 0) say({ done }); });
say({ margins });
