import { ProblemError } from '#platform/problem.ts';

export type ContentType = 'image/jpeg' | 'image/png' | 'image/webp' | 'application/pdf';

/** The bytes at the front of each, written as Latin-1. */
const beginnings: readonly (readonly [ContentType, RegExp])[] = [
  ['image/jpeg', /^\xff\xd8\xff/],
  ['image/png', /^\x89PNG\r\n[^a-z]\n[\s\S]{4}IHDR/],
  ['image/webp', /^RIFF[\s\S]{4}WEBP/],
  ['application/pdf', /^%PDF-[12]\.\d/],
];
/** The still pictures of phones that this server has no decoder for. */
const phonePicture = /^[\s\S]{4}ftyp(hei[cxms]|hev[cx]|mif1|msf1|avif)/;

/** What a file is by its content; its name and the type that a client claims count for nothing. */
export function contentTypeOf(content: Buffer): ContentType {
  const front = content.subarray(0, 32).toString('latin1');
  const known = beginnings.find(([, begins]) => begins.test(front))?.[0];
  if (known !== undefined) return known;
  if (phonePicture.test(front)) {
    throw new ProblemError(
      'unsupported-media',
      'This is a HEIC or AVIF picture, which this server can’t read. Set the camera to JPEG (“most compatible”), or send it as JPEG.',
    );
  }
  throw new ProblemError(
    'unsupported-media',
    content.length === 0
      ? 'The file is empty. Take the photo again.'
      : 'This is neither a JPEG, PNG or WebP picture nor a PDF, whatever its name says. Send one of those.',
  );
}
