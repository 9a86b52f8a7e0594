import { z } from 'zod';
import { Photo } from './photos.ts';
import { Id, Instant, Named } from './wire.ts';

/** A folder of the store: the first two digits of the hashes in it. */
const Folder = z.string().regex(/^[0-9a-f]{2}$/, 'is two digits from 00 to ff');

/** Which part of the store, by its folders; whoever asks for one part after the other sees how far it is. */
export const FilesCheckQuery = z
  .object({ from: Folder.default('00'), to: Folder.default('ff') })
  .refine(({ from, to }) => from <= to, { message: 'comes before the first folder', path: ['to'] });

/** A photo or document that a content is shown by. */
export const ShownBy = z
  .strictObject({
    photoId: Id,
    engine: z.strictObject({ id: Id, serial: z.string() }),
    job: z.strictObject({ id: Id, number: z.int() }),
    type: Photo.shape.type,
    takenAt: Instant,
    by: Named,
    /** null: it shows pieces that whoever asks is yet to count. */
    of: Photo.shape.of.nullable(),
    caption: z.string(),
    name: z.string(),
  })
  .meta({ id: 'ShownBy' });
export type ShownBy = z.infer<typeof ShownBy>;

const Hash = z.string().regex(/^[0-9a-f]{64}$/);
/** What is wrong with a file that lies there: its bytes are others than were stored, or it can't be read to its end. */
export const fileFaults = ['other bytes', 'unreadable'] as const;

/** Of a smaller picture: it may be gone too, while the picture itself is there. */
const smallerFaults = ['missing', ...fileFaults] as const;

export const FilesCheck = z
  .strictObject({
    /** When it was done. */
    at: Instant,
    /** Contents in the store, and the bytes of those that could be read. */
    files: z.int(),
    bytes: z.int(),
    /** Shown, but their content is not in the store. */
    missing: z.array(z.strictObject({ hash: Hash, photos: z.array(ShownBy) })),
    /** Of pictures that are there, the smaller ones that lists and screens show: missing, or no longer what was stored. */
    smaller: z.array(
      z.strictObject({
        hash: Hash,
        part: z.enum(['small', 'large']),
        fault: z.enum(smallerFaults),
        photos: z.array(ShownBy),
      }),
    ),
    /** In the store, but no longer what their hash says. Without a photo: only removed ones name it. */
    changed: z.array(z.strictObject({ hash: Hash, fault: z.enum(fileFaults), photos: z.array(ShownBy) })),
    /** Content in the store that no photo, removed or not, names. */
    spare: z.array(Hash),
  })
  .meta({ id: 'FilesCheck' });
export type FilesCheck = z.infer<typeof FilesCheck>;
