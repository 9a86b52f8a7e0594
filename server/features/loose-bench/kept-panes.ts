import type { z } from 'zod';
import { LooseRingClock } from '#contracts/loose-bench.ts';
import { LooseFasteners, LooseWrench } from '#contracts/loose-fasteners.ts';
import { LooseShells } from '#contracts/loose-shells.ts';
import { LooseShims } from '#contracts/loose-shims.ts';
import type { Quantity, QuantityInterval } from '#contracts/wire.ts';
import type { PaneName, WorkedFigure } from '#contracts/worked-figures.ts';
import { ProblemError } from '#platform/problem.ts';
import { looseFasteners, looseWrench } from './fasteners.ts';
import { looseRingClock } from './rings.ts';
import { looseShells } from './shells.ts';
import { looseShims } from './shims.ts';

/** What is kept of a result. */
export type Kept = Pick<WorkedFigure, 'figures' | 'rows' | 'cautions'>;

/** Reads what was given as the operation itself would, or refuses with the pointer to what is wrong. */
function read<Body extends z.ZodType>(body: Body, given: unknown): z.infer<Body> {
  const parsed = body.safeParse(given);
  if (parsed.success) return parsed.data;
  const errors = parsed.error.issues.map(({ path, message }) => ({
    pointer: `/given/${path.join('/')}`,
    detail: message,
  }));
  throw new ProblemError('refused', `At ${errors[0]?.pointer}: ${errors[0]?.detail}.`, { errors });
}

const said = (lines: readonly (readonly [code: string, words: string])[]): Kept['cautions'] =>
  lines.map(([code, words]) => ({ code, words }));

/** One end of what is known of a figure; null: nothing is, or it is open there. */
function endOf(interval: QuantityInterval | null, end: 'low' | 'high'): Quantity | null {
  const value = interval?.[end] ?? null;
  return interval === null || value === null ? null : { value, unit: interval.unit };
}

function fasteners(given: unknown): Kept {
  const found = looseFasteners(read(LooseFasteners, given));
  const refused = found.log.filter(({ taken }) => !taken);
  return {
    figures: {},
    rows: found.stages.map(({ stage, figure }) => ({
      name: `Stage ${stage}`,
      figures: { [figure.unit === 'deg' ? 'angle' : 'torque']: figure },
    })),
    cautions: said([
      ['tightening', `Tightened ${found.tightening.join(' ')}; loosened ${found.loosening.join(' ')}.`],
      ...found.stages.flatMap(({ stage, guard }) =>
        guard.words === null ? [] : [[`guard-${stage}`, guard.words] as const],
      ),
      ...(found.torqueToYield ? [['to-yield', 'Stretched past yield: new ones every time.'] as const] : []),
      ...(found.log.length === 0
        ? []
        : [
            [
              'log',
              `${found.log.length - refused.length} of ${found.log.length} pulls taken; ${found.complete ? 'complete' : 'not complete'}.`,
            ] as const,
          ]),
      ...refused.map(({ words }, index) => [`not-taken-${index + 1}`, words ?? ''] as const),
    ]),
  };
}

function wrench(given: unknown): Kept {
  const asked = read(LooseWrench, given);
  const found = looseWrench(asked);
  const none = asked.wrenches.length === 0 ? [] : [['take', 'None of the wrenches fits.'] as const];
  return {
    figures: { setting: found.setting, torque: asked.torque },
    rows: [],
    cautions: said([
      ...(found.take === null ? none : [['take', `Take ${found.take}.`] as const]),
      ...found.wrenches.flatMap(({ code, faults }) =>
        faults.map((fault, index) => [`${code}-${index + 1}`, fault] as const),
      ),
    ]),
  };
}

function rings(given: unknown): Kept {
  const found = looseRingClock(read(LooseRingClock, given));
  return {
    figures: {},
    rows: found.rings.map(({ code, angle }) => ({ name: code, figures: { angle } })),
    cautions: said(
      found.rings.flatMap(({ code, words }) =>
        words.map((one, index) => [`${code}-${index + 1}`, `${code}: ${one}`] as const),
      ),
    ),
  };
}

function head(given: unknown): Kept {
  const asked = read(LooseShims, given);
  const found = looseShims(asked);
  const fitted = (name: string, valve: string): Quantity | null =>
    asked.heads.find((one) => one.name === name)?.valves.find((one) => one.valve === valve)?.fitted?.thickness ?? null;
  return {
    figures: {},
    rows: found.valves.map(({ head: name, valve, chosen, after }) => ({
      name: asked.heads.length > 1 ? `${name} ${valve}` : valve,
      figures: {
        fitted: fitted(name, valve),
        shim: chosen?.thickness ?? null,
        lashLow: endOf(after, 'low'),
        lashHigh: endOf(after, 'high'),
      },
    })),
    cautions: said(
      found.valves
        .filter(({ standing }) => standing !== 'guaranteed')
        .map(({ head: name, valve, words }) => [`${name}-${valve}`, `${valve}: ${words}`] as const),
    ),
  };
}

function shells(given: unknown): Kept {
  const found = looseShells(read(LooseShells, given));
  return {
    figures: {},
    rows: found.grades.map(({ grade, clearance }) => ({
      name: grade,
      figures: { clearanceLow: endOf(clearance, 'low'), clearanceHigh: endOf(clearance, 'high') },
    })),
    cautions: said([['grade', found.words]]),
  };
}

const panes: Readonly<Record<PaneName, (given: unknown) => Kept>> = {
  'fastener-set': fasteners,
  wrench,
  'ring-clock': rings,
  'whole-head': head,
  'bearing-shells': shells,
};

/** What chooses instead of reckoning, worked out here for keeping with a job. */
export const keptPane = (kind: PaneName, given: unknown): Kept => panes[kind](given);
