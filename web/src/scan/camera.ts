/** Why there is no picture, for whoever says it. */
export type CameraFault = 'insecure' | 'forbidden' | 'none' | 'broken';

/** Enough for a label that fills a fifth of the picture, and quick. */
const LONG_SIDE = 1600;
const PAUSE_MS = 120;

/** The camera at the back where there is one; a page over plain HTTP from another machine is given none by the browser. */
export async function openCamera(): Promise<MediaStream | CameraFault> {
  if (!window.isSecureContext || navigator.mediaDevices === undefined) return 'insecure';
  try {
    return await navigator.mediaDevices.getUserMedia({
      audio: false,
      video: { facingMode: { ideal: 'environment' }, width: { ideal: 1920 }, height: { ideal: 1080 } },
    });
  } catch (error) {
    const name = error instanceof DOMException ? error.name : '';
    if (name === 'NotAllowedError' || name === 'SecurityError') return 'forbidden';
    return name === 'NotFoundError' || name === 'OverconstrainedError' ? 'none' : 'broken';
  }
}

type Decode = (video: HTMLVideoElement) => Promise<string | undefined>;

interface Detector {
  readonly detect: (source: HTMLVideoElement) => Promise<readonly { readonly rawValue: string }[]>;
}
interface DetectorMaker {
  new (options: { formats: readonly string[] }): Detector;
  readonly getSupportedFormats: () => Promise<readonly string[]>;
}

const FORMATS = ['data_matrix', 'qr_code', 'code_128', 'code_39', 'ean_13'];

/** The browser's own detector, where it knows both symbols that we print. */
async function ownDetector(): Promise<Decode | undefined> {
  const Maker = (globalThis as { BarcodeDetector?: DetectorMaker }).BarcodeDetector;
  const known = (await Maker?.getSupportedFormats().catch(() => [])) ?? [];
  if (Maker === undefined || !known.includes('data_matrix') || !known.includes('qr_code')) return undefined;
  const detector = new Maker({ formats: FORMATS.filter((format) => known.includes(format)) });
  return async (video) => (await detector.detect(video).catch(() => []))[0]?.rawValue;
}

interface Seen {
  readonly source: CanvasImageSource;
  readonly width: number;
  readonly height: number;
}

function pixelsOf({ source, width, height }: Seen, canvas: HTMLCanvasElement): ImageData | undefined {
  if (width === 0) return undefined;
  const scale = Math.min(1, LONG_SIDE / Math.max(width, height));
  canvas.width = Math.round(width * scale);
  canvas.height = Math.round(height * scale);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  context?.drawImage(source, 0, 0, canvas.width, canvas.height);
  return context?.getImageData(0, 0, canvas.width, canvas.height);
}

/** Our own decoder, in a worker, so that nothing on the page stands still meanwhile. */
function workerDecoder(ended: AbortSignal): (seen: Seen) => Promise<string | undefined> {
  const worker = new Worker(new URL('./decode-worker.ts', import.meta.url), { type: 'module' });
  ended.addEventListener('abort', () => worker.terminate());
  const canvas = document.createElement('canvas');
  return (seen) =>
    new Promise((resolve) => {
      const pixels = pixelsOf(seen, canvas);
      if (pixels === undefined) return resolve(undefined);
      worker.onmessage = ({ data }: MessageEvent<string | null>) => resolve(data ?? undefined);
      worker.onerror = () => resolve(undefined);
      worker.postMessage(pixels, [pixels.data.buffer]);
    });
}

/** What a photo of a label holds; undefined: nothing was read in it. */
export async function readPhoto(file: Blob): Promise<string | undefined> {
  const photo = await createImageBitmap(file).catch(() => undefined);
  if (photo === undefined) return undefined;
  const ended = new AbortController();
  const text = await workerDecoder(ended.signal)({ source: photo, width: photo.width, height: photo.height });
  ended.abort();
  photo.close();
  return text;
}

const ofVideo =
  (decode: (seen: Seen) => Promise<string | undefined>): Decode =>
  (video) =>
    decode({ source: video, width: video.videoWidth, height: video.videoHeight });

/** Looks at the picture again and again until a symbol is read; undefined once it is ended. */
export async function readFrom(video: HTMLVideoElement, ended: AbortSignal): Promise<string | undefined> {
  const decode = (await ownDetector()) ?? ofVideo(workerDecoder(ended));
  while (!ended.aborted) {
    const text = await decode(video);
    if (text !== undefined && text !== '') return text;
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
  }
  return undefined;
}
