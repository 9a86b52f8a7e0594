import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { ProblemError } from '#platform/problem.ts';
import type { BarePdf, PdfFault } from './bare-pdf.ts';

/** A document of 25 MB with many small objects takes a few seconds; what takes longer is a trap. */
const LONGEST_MS = 30_000;
const MOST_MEMORY_MB = 512;

const asIs = 'Print it to a plain PDF and send that.';

const faults: Readonly<Record<Exclude<PdfFault, object>, string>> = {
  locked: `The PDF is locked, by a password or against changes, so what its maker wrote into it can’t be taken out. ${asIs}`,
  unreadable: `The PDF can’t be read to its end: an object in it is damaged. ${asIs}`,
  picture: `A picture in the PDF can’t be read, so it may tell where it was taken. ${asIs}`,
  scripts: `The PDF holds scripts or files inside it. ${asIs}`,
  unpacks: `The PDF unpacks to more than this server takes on. ${asIs}`,
};

/** The PDF as it is kept: without what its maker wrote into it. Refuses one that can’t be read to its end. */
export async function keptPdf(upload: Buffer): Promise<Buffer> {
  refuseCutOff(upload);
  const made = await besideTheService(upload);
  if ('content' in made) return Buffer.from(made.content);
  const { fault } = made;
  if (typeof fault === 'object') {
    throw new ProblemError(
      'too-big',
      `The PDF has ${fault.pages} pages; at most ${fault.most} are kept. Send the pages that matter.`,
    );
  }
  throw new ProblemError(fault === 'unpacks' ? 'too-big' : 'refused', faults[fault]);
}

function refuseCutOff(content: Buffer): void {
  const end = content.subarray(-2048).toString('latin1');
  if (/startxref\s+\d+\s+%%EOF\s*$/.test(end)) return;
  throw new ProblemError(
    'refused',
    'The PDF has no end: it was cut off, or something follows it. Save it again and send the whole file.',
  );
}

const limits = { resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB } };

/** Built, it lies beside the bundle. */
async function startWorker(workerData: Uint8Array): Promise<Worker> {
  if (import.meta.url.endsWith('.ts')) {
    sourceBuilt ??= builtFromSource();
    return new Worker(await sourceBuilt, { eval: true, workerData, ...limits });
  }
  return new Worker(new URL('./pdf-worker.js', import.meta.url), { workerData, ...limits });
}

let sourceBuilt: Promise<string> | undefined;
/** A thread reads no TypeScript: where the service runs from its source, as in tests, its program is built once. */
async function builtFromSource(): Promise<string> {
  const { build } = await import('esbuild');
  const entry = fileURLToPath(new URL('./pdf-worker.ts', import.meta.url));
  const made = { bundle: true, packages: 'external', platform: 'node', format: 'cjs', write: false } as const;
  const { outputFiles } = await build({ entryPoints: [entry], ...made });
  return outputFiles.map(({ text }) => text).join('');
}

async function besideTheService(upload: Buffer): Promise<BarePdf> {
  const worker = await startWorker(new Uint8Array(upload));
  let clock: NodeJS.Timeout | undefined;
  try {
    return await new Promise<BarePdf>((resolve, reject) => {
      clock = setTimeout(() => resolve({ fault: 'unpacks' }), LONGEST_MS);
      worker.once('message', resolve);
      worker.once('error', (error) => {
        if ('code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY') resolve({ fault: 'unpacks' });
        else reject(error);
      });
    });
  } finally {
    clearTimeout(clock);
    await worker.terminate();
  }
}
