import { queryOptions } from '@tanstack/react-query';
import type { Studies, Study } from '#contracts/gauge-studies.ts';
import type { InstrumentFacts, Instruments } from '#contracts/instruments.ts';
import { findUnitCode, unitOf } from '#domain/units/unit-table.ts';
import { read } from '../../app/api.ts';

export const gaugesQuery = queryOptions({
  queryKey: ['instruments'],
  queryFn: ({ signal }) => read<Instruments>('/instruments', signal),
  meta: { follows: 'every change' },
});

export const studiesQuery = (instrumentId: string) =>
  queryOptions({
    queryKey: ['gauge-studies', instrumentId],
    queryFn: ({ signal }) => read<Studies>(`/gauge-studies?instrument=${instrumentId}`, signal),
    meta: { follows: 'every change' },
  });

export const studyQuery = (id: string) =>
  queryOptions({
    queryKey: ['gauge-study', id],
    queryFn: ({ signal }) => read<Study>(`/gauge-studies/${id}`, signal),
    meta: { follows: 'every change' },
  });

/** A figure as it was typed, with a point; undefined while it is none. */
export function typedFigure(text: string): string | undefined {
  const trimmed = text.trim().replace(',', '.').replace('−', '-');
  return /^-?\d{1,9}(\.\d{1,6})?$/.test(trimmed) ? trimmed : undefined;
}

/** What a gauge reads to: as engraved, without the padding of the register. */
export const plainly = (value: string): string =>
  value.includes('.') ? value.replace(/0+$/, '').replace(/\.$/, '') : value;

/** The unit as it is lettered: N·m, not the code that stands for it. */
export const symbolOf = (unit: string): string => {
  const code = findUnitCode(unit);
  return code === undefined ? unit : unitOf(code).symbol;
};

export const isFeeler = ({ blades }: InstrumentFacts): boolean => blades.length > 0;
