/** A picture that isn't built as its kind has to be, so that nothing can be told of what it carries. */
export class UnreadablePicture extends Error {}

const MARKER = 0xff;
const SOI = 0xd8;
const EOI = 0xd9;
const COMMENT = 0xfe;
const bare = (marker: number): boolean => marker === 0x01 || (marker >= 0xd0 && marker <= SOI);
const isApplication = (marker: number): boolean => marker >= 0xe0 && marker <= 0xef;

/** What a decoder needs: JFIF, a colour profile, and Adobe's note of the colour space (ITU-T T.81 B.2.4.6, T.872). */
const isNeeded = (marker: number, content: Buffer): boolean =>
  marker === 0xe0 ||
  marker === 0xee ||
  (marker === 0xe2 && content.subarray(0, 11).toString('latin1') === 'ICC_PROFILE');

/**
 * A JPEG without Exif, XMP, IPTC, comments and whatever follows its end; its pixels stay bit for bit as they are.
 * Throws UnreadablePicture where the segments do not hold together.
 */
export function bareJpeg(jpeg: Buffer): Buffer {
  if (jpeg[0] !== MARKER || jpeg[1] !== SOI) throw new UnreadablePicture();
  const kept = [jpeg.subarray(0, 2)];
  let at = 2;
  while (at < jpeg.length) {
    const start = at;
    if (jpeg[at] !== MARKER) throw new UnreadablePicture();
    while (jpeg[at] === MARKER) at += 1;
    const marker = jpeg[at];
    at += 1;
    if (marker === undefined || marker === 0) throw new UnreadablePicture();
    if (!bare(marker) && marker !== EOI) {
      if (at + 2 > jpeg.length) throw new UnreadablePicture();
      const end = at + jpeg.readUInt16BE(at);
      if (end < at + 2 || end > jpeg.length) throw new UnreadablePicture();
      const content = jpeg.subarray(at + 2, end);
      at = marker === 0xda ? endOfScan(jpeg, end) : end;
      if (marker === COMMENT || (isApplication(marker) && !isNeeded(marker, content))) continue;
    }
    kept.push(jpeg.subarray(start, at));
    if (marker === EOI) break;
  }
  return Buffer.concat(kept);
}

/** Coded pixels go on until a marker that is neither a stuffed zero nor a restart. */
function endOfScan(jpeg: Buffer, from: number): number {
  for (let at = jpeg.indexOf(MARKER, from); at >= 0; at = jpeg.indexOf(MARKER, at + 1)) {
    const next = jpeg[at + 1] ?? 0;
    if (next !== 0 && next !== MARKER && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return jpeg.length;
}

const SIGNATURE = '\0\0\0\x0cjP  ';
const boxesWithWords: readonly string[] = ['uuid', 'uinf', 'xml '];

/** A JPEG 2000 without its boxes of XML and of other makers (ISO/IEC 15444-1 annex I); a bare code stream stays as it is. */
export function bareJpeg2000(picture: Buffer): Buffer {
  if (picture.subarray(0, 8).toString('latin1') !== SIGNATURE) return picture;
  const kept: Buffer[] = [];
  let at = 0;
  while (at + 8 <= picture.length) {
    const short = picture.readUInt32BE(at);
    const length =
      short === 1 && at + 16 <= picture.length ? Number(picture.readBigUInt64BE(at + 8)) : short || picture.length - at;
    if (length < 8 || at + length > picture.length) throw new UnreadablePicture();
    const kind = picture.subarray(at + 4, at + 8).toString('latin1');
    if (!boxesWithWords.includes(kind)) kept.push(picture.subarray(at, at + length));
    at += length;
  }
  return Buffer.concat(kept);
}
