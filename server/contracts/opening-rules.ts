import { z } from 'zod';
import { Instant, Named, words } from './wire.ts';

const Clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day such as 17:00');
const ShiftEnd = z.strictObject({ weekday: z.int().min(1).max(7), endsAt: Clock });

const limits = {
  /** How long an engine may stand open and uncovered. */
  uncoveredMinutes: z.int().min(5).max(100_000),
  /** How long it may stand open, covered or not. */
  coveredMinutes: z.int().min(5).max(1_000_000),
  /** By weekday, 1 = Monday, in the shop's zone; a day without one has no shift. */
  shiftEnds: z.array(ShiftEnd).max(7),
};

export const SetOpeningRule = z.strictObject({ ...limits, note: words(500).optional() }).meta({
  id: 'SetOpeningRule',
  examples: [
    {
      uncoveredMinutes: 60,
      coveredMinutes: 2880,
      shiftEnds: [{ weekday: 1, endsAt: '17:00' }],
      note: 'Dust season: an hour at most',
    },
  ],
});
export type SetOpeningRule = z.infer<typeof SetOpeningRule>;

export const OpeningRule = z
  .strictObject({
    ...limits,
    zone: z.string(),
    /** Null: nobody has set it yet, these are what the shop starts with. */
    set: z.strictObject({ by: Named, at: Instant, note: z.string() }).nullable(),
    history: z.array(
      z.strictObject({
        uncoveredMinutes: z.int(),
        coveredMinutes: z.int(),
        shiftEnds: z.array(ShiftEnd),
        note: z.string(),
        by: Named,
        at: Instant,
      }),
    ),
  })
  .meta({ id: 'OpeningRule', description: 'When an open engine raises its voice on the floor and to the lead' });
export type OpeningRule = z.infer<typeof OpeningRule>;

/** Why an open engine raises its voice now. */
export const OpenVoice = z
  .strictObject({
    kind: z.enum(['may-be-inside', 'uncovered-at-shift-end', 'uncovered-too-long', 'open-too-long']),
    since: Instant,
    words: z.string(),
  })
  .meta({ id: 'OpenVoice' });
export type OpenVoice = z.infer<typeof OpenVoice>;

/** The open engines that raise their voice, the worst first. */
export const OpenVoices = z
  .strictObject({
    items: z.array(
      z.strictObject({
        engine: z.strictObject({ id: z.uuid(), serial: z.string() }),
        job: z.strictObject({ id: z.uuid(), number: z.int() }),
        openingId: z.uuid(),
        seen: z.strictObject({ by: Named, at: Instant, words: z.string() }),
        voices: z.array(OpenVoice),
      }),
    ),
  })
  .meta({ id: 'OpenVoices' });
export type OpenVoices = z.infer<typeof OpenVoices>;
