/** When a camera says that it took the picture: local time as it shows it, and its offset if it knows one. */
export interface CameraTime {
  readonly local: string;
  readonly offset: string | undefined;
}

const EXIF_FOLDER = 0x8769;
const ORIGINAL = 0x9003;
const OFFSET_ORIGINAL = 0x9011;
const ASCII = 2;

/** Only these two entries of a picture's EXIF data are ever looked at (Exif 2.32, CIPA DC-008); anything odd reads as none. */
export function cameraTimeOf(exif: Buffer | undefined): CameraTime | undefined {
  if (exif === undefined) return undefined;
  try {
    const tiff = exif.subarray(0, 4).toString('latin1') === 'Exif' ? exif.subarray(6) : exif;
    const folder = entriesAt(tiff, readerOf(tiff)(4, 4));
    const at = folder.get(EXIF_FOLDER);
    if (at === undefined) return undefined;
    const entries = entriesAt(tiff, at.value);
    const taken = /^(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)$/.exec(textOf(tiff, entries.get(ORIGINAL)));
    if (taken === null) return undefined;
    const offset = /^[+-]\d\d:\d\d$/.exec(textOf(tiff, entries.get(OFFSET_ORIGINAL)))?.[0];
    return { local: `${taken[1]}-${taken[2]}-${taken[3]}T${taken[4]}`, offset };
  } catch {
    return undefined;
  }
}

interface Entry {
  readonly type: number;
  readonly count: number;
  readonly value: number;
}

const readerOf = (tiff: Buffer) => {
  const little = tiff.subarray(0, 2).toString('latin1') === 'II';
  return (at: number, bytes: 2 | 4): number => (little ? tiff.readUIntLE(at, bytes) : tiff.readUIntBE(at, bytes));
};

function entriesAt(tiff: Buffer, at: number): ReadonlyMap<number, Entry> {
  const read = readerOf(tiff);
  const count = Math.min(read(at, 2), 200);
  return new Map(
    Array.from({ length: count }, (_, index) => {
      const place = at + 2 + index * 12;
      return [read(place, 2), { type: read(place + 2, 2), count: read(place + 4, 4), value: read(place + 8, 4) }];
    }),
  );
}

const textOf = (tiff: Buffer, entry: Entry | undefined): string =>
  entry === undefined || entry.type !== ASCII || entry.count < 5 || entry.count > 40
    ? ''
    : tiff.subarray(entry.value, entry.value + entry.count - 1).toString('latin1');
