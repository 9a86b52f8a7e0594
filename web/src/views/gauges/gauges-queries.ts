import { queryOptions } from '@tanstack/react-query';
import type { Studies, Study } from '#contracts/gauge-studies.ts';
import type { InstrumentFacts, Instruments } from '#contracts/instruments.ts';
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

export const isFeeler = ({ blades }: InstrumentFacts): boolean => blades.length > 0;
