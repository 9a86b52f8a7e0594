import { z } from 'zod';
import { Id, Instant, Named, someWords, words } from './wire.ts';

export const photoTypes = ['image/jpeg', 'image/png', 'image/webp', 'application/pdf'] as const;
export const attachments = ['step', 'piece', 'reading', 'finding', 'obligation', 'handover', 'place', 'job'] as const;

/** What the file shows: at most one thing of the job. A step is named with its run. */
export const AddPhotoQuery = z
  .strictObject({
    run: Id.optional(),
    step: Id.optional(),
    piece: Id.optional(),
    reading: Id.optional(),
    finding: Id.optional(),
    obligation: Id.optional(),
    handover: Id.optional(),
    /** A place of the spec sheet, such as cylinder. */
    place: words(40).min(1).optional(),
    caption: words(300).optional(),
    /** When it was taken, if whoever sends it knows better than the picture. */
    takenAt: Instant.optional(),
    /** The file's name, for a document. */
    name: words(200).optional(),
  })
  .refine(({ run, step }) => (run === undefined) === (step === undefined), {
    message: 'a step is named together with its run',
    path: ['step'],
  })
  .refine(
    ({ step, piece, reading, finding, obligation, handover, place }) =>
      [step, piece, reading, finding, obligation, handover, place].filter((one) => one !== undefined).length <= 1,
    { message: 'a photo is attached to one thing at most', path: ['piece'] },
  );
export type AddPhotoQuery = z.infer<typeof AddPhotoQuery>;

export const PhotoFile = z.unknown().meta({
  description:
    'The bytes of one JPEG, PNG or WebP picture or of one PDF, at most 25 MiB; judged by content, not by name',
  type: 'string',
  format: 'binary',
  examples: ['(the file)'],
});

export const Photo = z
  .strictObject({
    id: Id,
    engineId: Id,
    job: z.strictObject({ id: Id, number: z.int() }),
    type: z.enum(photoTypes),
    bytes: z.int(),
    /** Upright, in pixels; null for a document. */
    width: z.int().nullable(),
    height: z.int().nullable(),
    name: z.string(),
    caption: z.string(),
    /** As the camera or the terminal claims. */
    takenAt: Instant,
    addedAt: Instant,
    by: Named,
    terminal: Named.nullable(),
    /** What it shows; `job` when it shows the engine as a whole. */
    of: z.strictObject({ kind: z.enum(attachments), id: z.string(), words: z.string() }),
    /** The build sheet prints it; a picture that its step asked for without anybody saying so. */
    onSheet: z.boolean(),
  })
  .meta({ id: 'Photo' });
export type Photo = z.infer<typeof Photo>;

export const RemovedPhoto = z
  .strictObject({
    id: Id,
    reason: z.string(),
    by: Named,
    at: Instant,
    /** False: its content was taken out of the store for good. */
    kept: z.boolean(),
  })
  .meta({ id: 'RemovedPhoto' });
export type RemovedPhoto = z.infer<typeof RemovedPhoto>;

export const Photos = z
  .strictObject({
    /** Newest first. */
    items: z.array(Photo),
    removed: z.array(RemovedPhoto),
  })
  .meta({ id: 'Photos' });
export type Photos = z.infer<typeof Photos>;

export const ThumbnailQuery = z.object({ size: z.enum(['small', 'large']).default('small') });

export const NotePhoto = z
  .strictObject({ caption: words(300), onSheet: z.boolean() })
  .meta({ id: 'NotePhoto', examples: [{ caption: 'Scored on the exhaust side', onSheet: true }] });
export type NotePhoto = z.infer<typeof NotePhoto>;

export const RemovePhoto = z
  .strictObject({ reason: someWords(300) })
  .meta({ id: 'RemovePhoto', examples: [{ reason: 'Shows another engine' }] });
export type RemovePhoto = z.infer<typeof RemovePhoto>;
