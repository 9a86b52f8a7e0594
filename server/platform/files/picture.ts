import { createHash } from 'node:crypto';
import sharp, { type Sharp } from 'sharp';
import { ProblemError } from '#platform/problem.ts';
import { type ContentType, contentTypeOf } from './content-type.ts';
import { type CameraTime, cameraTimeOf } from './exif-date.ts';
import { keptPdf } from './kept-pdf.ts';
import { type Part, type SmallerPart, smallerParts } from './store.ts';

/** More would be a trap: a file of a few kilobytes may claim to be a wall of pixels. */
const MOST_PIXELS = 64_000_000;
const LONGEST_SIDE = 16_000;
/** Longest side of the smaller ones: in a list, and on a screen. */
const sizes = { small: 320, large: 1600 } as const;
/** So many pictures are unpacked at a time; the others wait. */
const AT_ONCE = 2;

sharp.cache(false);
sharp.concurrency(1);

/** A file as it goes into the store. */
export interface Prepared {
  readonly hash: string;
  readonly type: ContentType;
  readonly bytes: number;
  readonly width: number | null;
  readonly height: number | null;
  readonly cameraTime: CameraTime | undefined;
  readonly files: Readonly<Partial<Record<Part, Buffer>>>;
}

/** The hashes of the smaller pictures; none of a document. */
export const smallerHashes = ({ files }: Prepared): readonly { readonly part: SmallerPart; readonly hash: string }[] =>
  smallerParts.flatMap((part) => {
    const content = files[part];
    return content === undefined ? [] : [{ part, hash: hashOf(content) }];
  });

/** Whether it is a picture that can be unpacked to its end. */
export async function isWholePicture(content: Buffer): Promise<boolean> {
  return inTurn(() =>
    open(content)
      .stats()
      .then(() => true)
      .catch(() => false),
  );
}

/**
 * Makes of an upload what is kept of it. A picture is unpacked, turned upright and packed anew without any of its
 * metadata; so neither where it was taken nor anything hidden behind it gets into the store. A PDF is written anew without what its
 * maker wrote into it.
 */
export async function prepare(upload: Buffer): Promise<Prepared> {
  const type = contentTypeOf(upload);
  if (type !== 'application/pdf') return inTurn(() => picture(upload, type));
  const content = await inTurn(() => keptPdf(upload));
  const kept = { type, width: null, height: null, cameraTime: undefined };
  return { ...kept, hash: hashOf(content), bytes: content.length, files: { content } };
}

const hashOf = (content: Buffer): string => createHash('sha256').update(content).digest('hex');

const open = (content: Buffer): Sharp =>
  sharp(content, { limitInputPixels: MOST_PIXELS, failOn: 'warning', pages: 1, sequentialRead: false });

const packed: Readonly<Record<Exclude<ContentType, 'application/pdf'>, (image: Sharp) => Sharp>> = {
  'image/jpeg': (image) => image.jpeg({ quality: 90 }),
  'image/png': (image) => image.png({ compressionLevel: 8 }),
  'image/webp': (image) => image.webp({ quality: 90 }),
};

async function picture(upload: Buffer, type: keyof typeof packed): Promise<Prepared> {
  const facts = await orRefuse(open(upload).metadata());
  const pixels = (facts.width ?? 0) * (facts.height ?? 0);
  if (pixels > MOST_PIXELS || Math.max(facts.width ?? 0, facts.height ?? 0) > LONGEST_SIDE) {
    throw new ProblemError(
      'too-big',
      `The picture is ${facts.width} × ${facts.height} pixels; at most ${MOST_PIXELS / 1_000_000} million, and ${LONGEST_SIDE} along a side, are kept. Send a smaller one.`,
    );
  }
  const { data, info } = await orRefuse(packed[type](open(upload).rotate()).toBuffer({ resolveWithObject: true }));
  const smaller = (side: number) =>
    open(data)
      .resize({ width: side, height: side, fit: 'inside', withoutEnlargement: true })
      .webp({ quality: 78 })
      .toBuffer();
  return {
    hash: hashOf(data),
    type,
    bytes: data.length,
    width: info.width,
    height: info.height,
    cameraTime: cameraTimeOf(facts.exif),
    files: { content: data, small: await smaller(sizes.small), large: await smaller(sizes.large) },
  };
}

async function orRefuse<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    const reason = error instanceof Error ? error.message : '';
    if (/exceeds pixel limit/i.test(reason)) {
      throw new ProblemError(
        'too-big',
        `The picture has more than ${MOST_PIXELS / 1_000_000} million pixels. Send a smaller one.`,
      );
    }
    throw new ProblemError(
      'refused',
      'The picture can’t be read to its end: it is damaged or was cut off. Take it again, or send the whole file.',
    );
  }
}

let running = 0;
const waiting: (() => void)[] = [];

async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (running >= AT_ONCE) await new Promise<void>((go) => waiting.push(go));
  else running += 1;
  try {
    return await work();
  } finally {
    const next = waiting.shift();
    if (next === undefined) running -= 1;
    else next();
  }
}
