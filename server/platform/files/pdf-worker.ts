import { parentPort, workerData } from 'node:worker_threads';
import { barePdf } from './bare-pdf.ts';

/** Reads one PDF that nobody vouches for, beside the service: what it asks for in memory and time is not the service's. */
void barePdf(workerData).then((made) => parentPort?.postMessage(made));
