import { z } from 'zod';
import { ShopHead } from './shop.ts';
import { Day, Id, Instant, Money, Named, someWords, words } from './wire.ts';
import { StandingFigure } from './worked-figures.ts';

export const RecordProof = z
  .strictObject({ proof: z.string().min(1).max(40), passed: z.boolean(), words: someWords(500) })
  .meta({
    id: 'RecordProof',
    examples: [{ proof: 'leak-down', passed: true, words: '6 % at 600 kPa, cold; rings, no valve' }],
  });
export type RecordProof = z.infer<typeof RecordProof>;

export const ProofStanding = z
  .strictObject({
    code: z.string(),
    name: z.string(),
    words: z.string(),
    caution: z.string(),
    last: z
      .strictObject({
        id: Id,
        passed: z.boolean(),
        words: z.string(),
        by: Named,
        at: Instant,
        signedBy: Named.nullable(),
        signedAt: Instant.nullable(),
        /** The engine has been open since: it counts no more. */
        stale: z.boolean(),
      })
      .nullable(),
  })
  .meta({ id: 'ProofStanding' });
export type ProofStanding = z.infer<typeof ProofStanding>;

export const ReasonAgainst = z
  .strictObject({ kind: z.string(), words: z.string(), subject: z.string().nullable(), count: z.int().nullable() })
  .meta({ id: 'ReasonAgainst', description: 'One thing that keeps the gate shut, in words' });
export type ReasonAgainst = z.infer<typeof ReasonAgainst>;

export const HandBackPage = z
  .strictObject({
    jobId: Id,
    handedBackAt: Instant.nullable(),
    /** Its owner declined, and it went home in boxes: there is a packing list. */
    inBoxes: z.boolean(),
    proofs: z.array(ProofStanding),
    reasons: z.array(ReasonAgainst),
  })
  .meta({ id: 'HandBackPage' });
export type HandBackPage = z.infer<typeof HandBackPage>;

export const HandBack = z
  .strictObject({
    note: words(1000).optional(),
    /** A lead's reason for handing back although something is still against it; printed on the build sheet. */
    override: someWords(500).optional(),
  })
  .meta({ id: 'HandBack', examples: [{ note: 'Run-in: two tanks at half throttle' }] });
export type HandBack = z.infer<typeof HandBack>;

export const SignOffProof = z
  .strictObject({ words: words(300).optional() })
  .meta({ id: 'SignOffProof', examples: [{}] });

const sheetFinding = z.strictObject({
  dimension: z.string(),
  name: z.string(),
  round: z.string(),
  text: z.string(),
  unit: z.string(),
  verdict: z.string(),
  rule: z.string(),
  /** Plain numbers in the unit, for the drawing; null ends are open. */
  figure: z.strictObject({
    low: z.number(),
    high: z.number().nullable(),
    guard: z.number(),
    type: z.string(),
    decimals: z.int(),
    standardLow: z.number().nullable(),
    standardHigh: z.number().nullable(),
    serviceLow: z.number().nullable(),
    serviceHigh: z.number().nullable(),
  }),
  instruments: z.array(z.string()),
  by: Named,
  at: Instant,
  /** Revision of the spec sheet that it was judged by. */
  revision: z.int(),
  /** What disagreed with another measurement when it was judged. */
  disagreed: z.array(z.string()),
});

/** The engine as the papers of its job name and draw it. */
export const EngineOnPaper = z.strictObject({
  serial: z.string(),
  family: z.string(),
  cycle: z.enum(['four-stroke', 'two-stroke']),
  cooling: z.enum(['water', 'air']),
});

/** Everything the printed proof of one job says. */
export const BuildSheet = z
  .strictObject({
    shop: ShopHead.extend({ figuresInvented: z.boolean() }),
    jobNumber: z.int(),
    visit: z.int(),
    engine: EngineOnPaper,
    owner: z.string(),
    hours: z.string(),
    complaint: z.string(),
    wishes: z.string(),
    takenInAt: Instant,
    handedBackAt: Instant.nullable(),
    handedBackBy: Named.nullable(),
    note: z.string(),
    revision: z.strictObject({
      number: z.int(),
      family: z.string(),
      /** The job came in under an earlier one and was moved; findings before that were judged by it. */
      moves: z.array(z.strictObject({ from: z.int(), to: z.int(), reason: z.string(), by: z.string(), at: Instant })),
    }),
    findings: z.array(sheetFinding),
    decisions: z.array(
      z.strictObject({
        obligation: z.string(),
        kind: z.string(),
        reason: z.string(),
        by: z.string(),
        discharged: z.string(),
      }),
    ),
    parts: z.array(z.strictObject({ number: z.string(), name: z.string(), quantity: z.int() })),
    outside: z.array(
      z.strictObject({ vendor: z.string(), work: z.string(), sentAt: Instant, backAt: Instant.nullable() }),
    ),
    torque: z.array(
      z.strictObject({
        name: z.string(),
        stages: z.array(z.string()),
        pulls: z.int(),
        complete: z.boolean(),
        by: z.array(z.string()),
        condition: z.string(),
        /** Codes of the wrenches it was pulled with. */
        wrenches: z.array(z.string()),
      }),
    ),
    ringsPlaced: z.strictObject({ by: z.string(), marksWell: z.boolean(), signedBy: z.string().nullable() }).nullable(),
    rings: z.array(
      z.strictObject({
        name: z.string(),
        angle: z.string().nullable(),
        /** What is marked on its face, and where that was seen to look; null: not looked at. */
        mark: z.string(),
        faces: z.enum(['crown', 'skirt', 'either']).nullable(),
        faults: z.array(z.string()),
      }),
    ),
    shims: z.array(z.strictObject({ valve: z.string(), thickness: z.string(), from: z.string() })),
    /** Photos that a step asked for or somebody chose for it, the oldest first. */
    photos: z.array(z.strictObject({ id: Id, caption: z.string(), of: z.string(), takenAt: Instant, by: z.string() })),
    /** Steps that ask for a photo and were done without one. */
    unphotographed: z.array(z.strictObject({ step: z.string(), reason: z.string(), by: z.string(), at: Instant })),
    /** What was reckoned and kept, as it stands. */
    worked: z.array(StandingFigure),
    proofs: z.array(
      z.strictObject({
        name: z.string(),
        passed: z.boolean(),
        words: z.string(),
        by: z.string(),
        at: Instant,
        signedBy: z.string().nullable(),
      }),
    ),
    openings: z.array(
      z.strictObject({
        openedAt: Instant,
        closedAt: Instant.nullable(),
        closedBy: z.string().nullable(),
        /** How many came off; null while the reader is to count a tray of the job blind. */
        pieces: z.int().nullable(),
        signedBy: z.string().nullable(),
        /** A lead closed it over what stood against it: see `overrides`. */
        overridden: z.boolean(),
        /** It ended, and the engine was never closed: it went to its owner in boxes. */
        leftInBoxes: z.boolean(),
      }),
    ),
    handovers: z.strictObject({ accepted: z.int(), withDifference: z.int() }),
    /** What was looked for inside: found, or not inside by a lead's decision after so many steps of the search. */
    searches: z.array(
      z.strictObject({
        what: z.string(),
        outcome: z.enum(['found', 'not inside']),
        by: z.string(),
        at: Instant,
        reason: z.string(),
        steps: z.int(),
      }),
    ),
    overrides: z.array(
      z.strictObject({ gate: z.string(), words: z.string(), by: z.string(), reasons: z.array(z.string()) }),
    ),
    agreed: Money.nullable(),
    people: z.array(z.strictObject({ name: z.string(), initials: z.string() })),
    promised: Day.nullable(),
  })
  .meta({ id: 'BuildSheet' });
export type BuildSheet = z.infer<typeof BuildSheet>;
