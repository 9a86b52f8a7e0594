import { queryOptions } from '@tanstack/react-query';
import type { Photo, Photos } from '#contracts/photos.ts';
import { read } from '../../app/api.ts';

export const photosQuery = (engineId: string) =>
  queryOptions({
    queryKey: ['engine-photos', engineId],
    queryFn: ({ signal }) => read<Photos>(`/engines/${engineId}/photos`, signal),
    meta: { follows: { engineId } },
  });

/** What a photo taken here shows. */
export interface PhotoTarget {
  readonly jobId: string;
  /** As the API's query says it; empty: the engine. */
  readonly of: Readonly<Record<string, string>>;
  readonly words: string;
}

export const thumbnailOf = ({ id }: Pick<Photo, 'id'>, size: 'small' | 'large' = 'small'): string =>
  `/api/photos/${id}/thumbnail?size=${size}`;
export const contentOf = ({ id }: Pick<Photo, 'id'>): string => `/api/photos/${id}/content`;

export const kilobytes = (bytes: number): number => Math.max(1, Math.round(bytes / 1024));
