import type { ReasonAgainstClosing } from '#contracts/openings.ts';
import type { ReasonAgainstClosing as Reason } from '#domain/closing/closing-the-opening.ts';
import type { Layer } from '#domain/tally/pieces.ts';
import type { PieceSteps } from './piece-queries.ts';

const layers: Readonly<Record<Layer, string>> = {
  cover: 'The cover is off.',
  head: 'The head is off.',
  cylinder: 'The cylinder is off.',
  case: 'The case is open.',
};

interface Job {
  readonly jobId: string;
  readonly engineId: string;
  readonly pieceSteps: readonly PieceSteps[];
}

/** Whether a reason leads to the step of a piece. */
export const isOfPieces = ({ kind }: Reason): boolean =>
  kind === 'layer-off' || kind === 'piece-loose' || kind === 'piece-missing';

/** A piece goes back on at its assembly step; one that is missing, or in no assembly yet, is looked for where it came off. */
function stepOf(reason: Reason, steps: readonly PieceSteps[]): string | null {
  switch (reason.kind) {
    case 'layer-off': {
      const piece = steps.find(({ layerOff }) => layerOff === reason.layer);
      return piece?.backAt ?? piece?.offAt ?? null;
    }
    case 'piece-loose': {
      const piece = steps.find(({ pieceId }) => pieceId === reason.pieceId);
      return piece?.backAt ?? piece?.offAt ?? null;
    }
    case 'piece-missing':
      return steps.find(({ pieceId }) => pieceId === reason.pieceId)?.offAt ?? null;
    default:
      return null;
  }
}

/** The page where a reason is mended. */
function hrefOf(reason: Reason, { jobId, engineId, pieceSteps }: Job): string {
  const bench = `/bench/${jobId}`;
  switch (reason.kind) {
    case 'layer-off':
    case 'piece-loose':
    case 'piece-missing':
      return withStep(`${bench}/procedure`, stepOf(reason, pieceSteps));
    case 'stop-unsigned':
      return `${bench}/procedure?step=${reason.stopId}`;
    case 'procedure-left':
    case 'assembly-unfinished':
      return `${bench}/procedure?step=${reason.stepId}`;
    case 'put-in-still-in':
      return `${bench}/procedure#put-in`;
    case 'may-be-inside':
      return `${bench}/search`;
    case 'not-checked':
      return `${bench}/check`;
    case 'obligation-open':
      return `/engines/${engineId}#obligation-${reason.obligationId}`;
    case 'torque-incomplete':
      return `${bench}/assemble?step=fasteners&set=${encodeURIComponent(reason.setId)}`;
    case 'ring-not-placed':
    case 'ring-against-rule':
    case 'rings-unsigned':
      return `${bench}/assemble?step=rings`;
    case 'lash-not-verified':
    case 'lash-undecided':
    case 'lash-out':
      return `${bench}/assemble?step=lash&valve=${encodeURIComponent(reason.valve)}`;
  }
}

const withStep = (page: string, stepId: string | null): string => (stepId === null ? page : `${page}?step=${stepId}`);

/** A reason against closing as people read it, with the page where it is mended. */
export function reasonInWords(reason: Reason, of: Job & { readonly blind: ReadonlySet<string> }): ReasonAgainstClosing {
  return { ...told(reason, of.blind), href: hrefOf(reason, of) };
}

/** Counts of `blind` pieces are left out: somebody is to count them. */
function told(reason: Reason, blind: ReadonlySet<string>): Omit<ReasonAgainstClosing, 'href'> {
  const { kind } = reason;
  switch (reason.kind) {
    case 'layer-off':
      return { kind, words: layers[reason.layer], subject: reason.layer, count: null };
    case 'piece-loose': {
      const count = blind.has(reason.pieceId) ? null : reason.count;
      return {
        kind,
        words: `${count === null ? '' : `${count} × `}${reason.what}: off, and neither back on, renewed nor accounted for.`,
        subject: reason.pieceId,
        count,
      };
    }
    case 'piece-missing': {
      const count = blind.has(reason.pieceId) ? null : reason.count;
      return {
        kind,
        words: `${count === null ? '' : `${count} × `}${reason.what}: missing since it was counted off, and may be inside.`,
        subject: reason.pieceId,
        count,
      };
    }
    case 'obligation-open':
      return {
        kind,
        words: `Nobody has discharged: ${reason.what.replace(/\.$/, '')}.`,
        subject: reason.obligationId,
        count: null,
      };
    case 'torque-incomplete':
      return {
        kind,
        words: `${reason.what}, stage ${reason.stage}: ${reason.count} not pulled (position ${reason.positions.join(', ')}).`,
        subject: reason.setId,
        count: reason.count,
        stage: reason.stage,
        positions: [...reason.positions],
      };
    case 'ring-not-placed':
      return { kind, words: `${reason.what}: its gap is not placed.`, subject: reason.ringId, count: null };
    case 'ring-against-rule':
      return { kind, words: `${reason.what}: its gap stands against the rule.`, subject: reason.ringId, count: null };
    case 'rings-unsigned':
      return {
        kind,
        words: `Ring gaps (${reason.rings.join(', ')}): not signed off by a second person.`,
        subject: 'rings',
        count: reason.rings.length,
      };
    case 'lash-not-verified':
      return {
        kind,
        words: `Lash of ${reason.valve}: not measured after the work.`,
        subject: reason.valve,
        count: null,
      };
    case 'lash-undecided':
      return { kind, words: `Lash of ${reason.valve}: undecided.`, subject: reason.valve, count: null };
    case 'lash-out':
      return { kind, words: `Lash of ${reason.valve}: out of range.`, subject: reason.valve, count: null };
    case 'may-be-inside':
      return {
        kind,
        words: `May be inside: ${reason.what}. The search goes on; do not turn the engine over.`,
        subject: reason.searchId,
        count: null,
      };
    case 'put-in-still-in':
      return {
        kind,
        words: `${reason.count} × ${reason.what}: put in, and not out again.`,
        subject: reason.putInId,
        count: reason.count,
      };
    case 'not-checked':
      return {
        kind,
        words: `Closing check: ${reason.left} of ${reason.lines} lines not ticked by a second person.`,
        subject: 'check',
        count: reason.left,
      };
    case 'procedure-left':
    case 'assembly-unfinished':
    case 'stop-unsigned':
      return toldOfSteps(reason);
  }
}

type OfSteps = Extract<Reason, { kind: 'procedure-left' | 'assembly-unfinished' | 'stop-unsigned' }>;

function toldOfSteps(reason: OfSteps): Omit<ReasonAgainstClosing, 'href'> {
  const { kind } = reason;
  switch (reason.kind) {
    case 'procedure-left': {
      const { procedure, step, title, stepId: subject } = reason;
      const loose = reason.loose.replace(/\.$/, '');
      const words = `${procedure} was left at step ${step}, ${title}. Loose or half done: ${loose}. Read it and resume.`;
      return { kind, words, subject, count: null };
    }
    case 'assembly-unfinished': {
      const { procedure, step, title, open: count, stepId: subject } = reason;
      const open = count === 1 ? 'one step is open' : `${count} steps are open`;
      const words = `${procedure} is begun and not finished, ${open}. Next is step ${step}, ${title}.`;
      return { kind, words, subject, count };
    }
    case 'stop-unsigned': {
      const how = reason.apart
        ? 'apart again since it was done. Do it again, and a second person signs'
        : 'not signed by a second person';
      return { kind, words: `${reason.what}: ${how}.`, subject: reason.stopId, count: null };
    }
  }
}
