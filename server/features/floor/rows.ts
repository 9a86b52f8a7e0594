import type { z } from 'zod';
import type { Family, FloorBay, FloorNote, HolderNow, OpeningNow, PastOrUndecided, Wait } from '#contracts/floor.ts';

/** Rows of the floor's statement. They arrive as JSON: an instant ends in +00:00, a day is plain text. */
export interface ShopRow {
  readonly name: string;
  readonly zone: string;
  readonly openLimitMinutes: number;
  readonly figuresInvented: boolean;
  readonly asOf: string;
  readonly today: string;
}

export interface BayRow {
  readonly id: string;
  readonly name: string;
  readonly kind: z.infer<typeof FloorBay>['kind'];
  readonly capacity: number;
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
}

export interface EngineRow {
  readonly id: string;
  readonly serial: string;
  readonly jobId: string;
  readonly number: number;
  readonly takenInAt: string;
  readonly familyId: string;
  readonly code: string;
  readonly family: string;
  readonly cycle: Family['cycle'];
  readonly cooling: Family['cooling'];
  readonly bore: number;
  readonly stroke: number;
  readonly ownerId: string;
  readonly owner: string;
  readonly holderKind: HolderNow['kind'] | null;
  readonly holderId: string | null;
  readonly holder: string | null;
  readonly since: string | null;
  readonly placeId: string | null;
  readonly place: string | null;
  readonly assignedId: string | null;
  readonly assigned: string | null;
  readonly openingId: string | null;
  readonly openedAt: string | null;
  readonly depth: OpeningNow['depth'] | null;
  readonly covered: boolean | null;
  readonly coveredSince: string | null;
  readonly readyOn: string | null;
  readonly sureOf5: number | null;
}

export interface WaitRow {
  readonly engineId: string;
  readonly waitsFor: Wait['waitsFor'];
  readonly since: string;
  readonly dueOn: string | null;
  readonly words: string;
  readonly cause: Wait['cause']['kind'];
  readonly causeId: string;
  readonly endsKind: Wait['endedBy']['kind'];
  readonly endsId: string | null;
  readonly endsName: string;
}

export interface HandoverRow {
  readonly engineId: string;
  readonly id: string;
  readonly offeredAt: string;
  readonly answerDueAt: string;
  readonly ofTheEngine: boolean;
  readonly giverId: string;
  readonly giver: string;
  readonly receiverId: string;
  readonly receiver: string;
}

export interface PartsRow {
  readonly engineId: string;
  readonly jobId: string;
  readonly demandLineId: string;
  readonly partId: string;
  readonly number: string;
  readonly name: string;
  readonly short: number;
  readonly wanted: number;
  readonly since: string;
  readonly dueOn: string | null;
  /** Numbers of what replaced the part, from which it is promised. */
  readonly instead?: readonly string[];
  /** By which rule of lots it is short, in words that follow its name; empty for the oldest first. */
  readonly rule?: string;
}

/** A worked-out value as findings keep it: base units, never rounded; felt: 1 play, 0 none. */
export interface ValueRow {
  readonly valueType: 'point' | 'interval' | 'span' | 'felt';
  readonly low: number;
  readonly high: number | null;
  readonly unit: string;
  readonly decimals: number;
}

export interface FindingRow extends ValueRow {
  readonly engineId: string;
  readonly jobId: string;
  readonly findingId: string;
  readonly dimension: string;
  readonly name: string;
  readonly round: z.infer<typeof PastOrUndecided>['round'];
  readonly verdict: z.infer<typeof PastOrUndecided>['verdict'];
  readonly guard: number;
  readonly side: 'lower' | 'upper' | null;
  readonly limit: number | null;
  readonly margin: number | null;
  readonly pLow: number;
  readonly pHigh: number;
  readonly judgedAt: string;
  readonly obligationId: string | null;
  readonly decided: boolean;
  readonly settled: boolean;
}

export interface ArrivalRow {
  readonly kind: Exclude<z.infer<typeof FloorNote>['kind'], 'promise'>;
  readonly on: string;
  readonly jobId: string | null;
  readonly engineId: string | null;
  readonly family: string | null;
  readonly serial: string | null;
  readonly vendorId: string;
  readonly vendor: string;
  readonly words: string;
  readonly quantity: number | null;
}
