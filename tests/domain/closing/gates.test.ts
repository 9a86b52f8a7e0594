import { describe, expect, it } from 'vitest';
import { againstClosingTheOpening, type OpeningFacts } from '#domain/closing/closing-the-opening.ts';
import { againstHandingBack, type HandBackFacts } from '#domain/closing/handing-back.ts';
import type { PieceBalance } from '#domain/tally/pieces.ts';

const piece = (id: string, changes: Partial<PieceBalance>): PieceBalance => ({
  id,
  name: `the ${id}`,
  layer: null,
  oneTime: false,
  matchedSet: null,
  expected: 0,
  counted: true,
  off: 0,
  fitted: 0,
  renewed: 0,
  accounted: 0,
  inside: 0,
  ...changes,
});

const assembled: OpeningFacts = {
  balances: [
    piece('cover', { layer: 'cover', expected: 1, off: 1, fitted: 1 }),
    piece('circlips', { oneTime: true, expected: 2, off: 2, renewed: 2 }),
  ],
  obligations: [],
  torque: [{ setId: 'head', name: 'head nuts', openStages: [] }],
  rings: [{ ringId: 'top', name: 'top ring', standing: 'placed' }],
  lash: [{ valve: 'IL', standing: 'in-range' }],
  left: [],
  unfinished: [],
  unsignedStops: [],
  stillIn: [],
  searches: [],
  check: { lines: 2, left: 0 },
};
const closing = (changes: Partial<OpeningFacts>) => againstClosingTheOpening({ ...assembled, ...changes });

describe('closing the opening', () => {
  it('is free when every piece is back and every check made', () => {
    expect(closing({})).toEqual([]);
  });

  it('is refused for each piece loose or missing, with how many of what', () => {
    const balances = [
      piece('dowels', { expected: 4, off: 3, fitted: 3 }),
      piece('bolts', { expected: 6, off: 6, fitted: 4 }),
    ];
    expect(closing({ balances })).toEqual([
      { kind: 'piece-loose', pieceId: 'bolts', what: 'the bolts', count: 2 },
      { kind: 'piece-missing', pieceId: 'dowels', what: 'the dowels', count: 1 },
    ]);
  });

  it('is refused while a cover or the head is off', () => {
    const balances = [piece('head', { layer: 'head', expected: 1, off: 1 })];
    expect(closing({ balances })).toEqual([
      { kind: 'layer-off', layer: 'head' },
      { kind: 'piece-loose', pieceId: 'head', what: 'the head', count: 1 },
    ]);
  });

  it('is refused for an obligation on the inside, not for one outside', () => {
    const obligations = [
      { id: 'o1', what: 'bore past the limit', inside: true },
      { id: 'o2', what: 'radiator dented', inside: false },
    ];
    expect(closing({ obligations })).toEqual([
      { kind: 'obligation-open', obligationId: 'o1', what: 'bore past the limit' },
    ]);
  });

  it('is refused for a torque stage, with the positions still to pull', () => {
    const openStages = [
      { stage: 1, missing: [] },
      { stage: 2, missing: [3, 4] },
    ];
    expect(closing({ torque: [{ setId: 'head', name: 'head nuts', openStages }] })).toEqual([
      { kind: 'torque-incomplete', setId: 'head', what: 'head nuts', stage: 2, count: 2, positions: [3, 4] },
    ]);
  });

  it('is refused once for rings that stand well and nobody else has signed, not before they stand', () => {
    const well = { ringId: 'top', name: 'top ring', standing: 'unsigned' } as const;
    const other = { ringId: 'oil', name: 'oil spacer', standing: 'unsigned' } as const;
    expect(closing({ rings: [well, other] })).toEqual([{ kind: 'rings-unsigned', rings: ['top ring', 'oil spacer'] }]);
    expect(closing({ rings: [well, { ...other, standing: 'not-placed' }] })).toEqual([
      { kind: 'ring-not-placed', ringId: 'oil', what: 'oil spacer' },
    ]);
  });

  it('is refused for rings, lash and stop points', () => {
    const reasons = closing({
      rings: [
        { ringId: 'top', name: 'top ring', standing: 'not-placed' },
        { ringId: 'oil', name: 'oil spacer', standing: 'against-the-rule' },
      ],
      lash: [
        { valve: 'IL', standing: 'not-verified' },
        { valve: 'IR', standing: 'undecided' },
        { valve: 'EL', standing: 'out' },
      ],
      unsignedStops: [{ id: 's1', what: 'second person looks at the circlips', apart: false }],
    });
    expect(reasons.map(({ kind }) => kind)).toEqual([
      'ring-not-placed',
      'ring-against-rule',
      'lash-not-verified',
      'lash-undecided',
      'lash-out',
      'stop-unsigned',
    ]);
  });

  it('is refused for a procedure left in the middle and for an assembly not finished, each at its step', () => {
    const left = [{ stepId: 's4', procedure: 'Strip', step: 4, title: 'Cams out', loose: 'two caps on' }];
    const unfinished = [{ stepId: 's7', procedure: 'Assemble', step: 7, title: 'Head on', open: 3 }];
    expect(closing({ left, unfinished })).toEqual([
      { kind: 'procedure-left', ...left[0] },
      { kind: 'assembly-unfinished', ...unfinished[0] },
    ]);
  });

  it('tells a stop point that came apart after it was done from one that nobody has signed', () => {
    const unsignedStops = [
      { id: 's1', what: 'time the cams', apart: true },
      { id: 's2', what: 'circlips in', apart: false },
    ];
    expect(closing({ unsignedStops })).toEqual([
      { kind: 'stop-unsigned', stopId: 's1', what: 'time the cams', apart: true },
      { kind: 'stop-unsigned', stopId: 's2', what: 'circlips in', apart: false },
    ]);
  });
});

const ready: HandBackFacts = {
  openOpeningId: null,
  lastClosedAt: 100,
  obligations: [],
  proofs: [{ id: 'p1', what: 'leak-down', at: 120, passed: true }],
  newestQuote: { id: 'q1', answer: 'yes' },
  issuedParts: [{ demandLineId: 'd1', what: 'piston', notUsed: 0 }],
  openDemands: [],
  atVendors: [],
  offeredHandovers: [],
  traysOut: [],
  unsignedMarks: [],
};
const handingBack = (changes: Partial<HandBackFacts>) => againstHandingBack({ ...ready, ...changes });

describe('handing back', () => {
  it('is free when the engine is closed, proved, agreed and complete', () => {
    expect(handingBack({})).toEqual([]);
    expect(handingBack({ newestQuote: null })).toEqual([]);
  });

  it('is refused without a proof since the engine was last closed', () => {
    expect(handingBack({ proofs: [] })).toEqual([{ kind: 'not-proved' }]);
    expect(handingBack({ lastClosedAt: 121 })).toEqual([{ kind: 'not-proved' }]);
  });

  it('goes by the newest proof of each kind: a failure after a pass counts', () => {
    const failed = { id: 'p2', what: 'leak-down', at: 130, passed: false };
    expect(handingBack({ proofs: [failed, ...ready.proofs] })).toEqual([
      { kind: 'proof-failed', proofId: 'p2', what: 'leak-down' },
    ]);
    expect(handingBack({ proofs: [{ ...failed, at: 110 }, ...ready.proofs] })).toEqual([]);
  });

  it('is refused while the owner hasn’t said yes, or said no', () => {
    expect(handingBack({ newestQuote: { id: 'q2', answer: null } })).toEqual([
      { kind: 'quote-without-yes', quoteId: 'q2', answer: null },
    ]);
    expect(handingBack({ newestQuote: { id: 'q2', answer: 'no' } })).toMatchObject([{ answer: 'no' }]);
  });

  it('names everything that is still about, whatever its kind', () => {
    const reasons = handingBack({
      openOpeningId: 'o1',
      obligations: [{ id: 'b1', what: 'radiator dented', inside: false }],
      issuedParts: [{ demandLineId: 'd1', what: 'crush washer', notUsed: 2 }],
      openDemands: [{ demandLineId: 'd2', what: 'cam chain', count: 1 }],
      atVendors: [{ subjectId: 't1', what: 'cylinder', vendorId: 'v1' }],
      offeredHandovers: [{ handoverId: 'h1', what: 'tray B' }],
      traysOut: [{ subjectId: 't2', what: 'tray C', pieces: 3 }],
      unsignedMarks: [{ id: 'm1', what: 'leak-down proof' }],
    });
    expect(reasons).toEqual([
      { kind: 'opening-open', openingId: 'o1' },
      { kind: 'obligation-open', obligationId: 'b1', what: 'radiator dented' },
      { kind: 'part-not-returned', demandLineId: 'd1', what: 'crush washer', count: 2 },
      { kind: 'demand-open', demandLineId: 'd2', what: 'cam chain', count: 1 },
      { kind: 'at-vendor', subjectId: 't1', what: 'cylinder', vendorId: 'v1' },
      { kind: 'handover-offered', handoverId: 'h1', what: 'tray B' },
      { kind: 'tray-not-back', subjectId: 't2', what: 'tray C', count: 3 },
      { kind: 'mark-missing', markId: 'm1', what: 'leak-down proof' },
    ]);
  });
});
