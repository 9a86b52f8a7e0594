import { useQuery } from '@tanstack/react-query';
import type { Photo } from '#contracts/photos.ts';
import { useFormat } from '../../words/format.ts';
import { PhotosHere } from '../photos/job-photos.tsx';
import { photosQuery } from '../photos/photos-query.ts';
import { findingIn, type Taken } from './measuring.ts';
import type { Measuring } from './use-measuring.ts';

const shows =
  (taken: readonly Taken[]) =>
  ({ of }: Photo): boolean =>
    of.kind === 'reading' && taken.some(({ readingId }) => readingId === of.id);

/** The photos of the readings at one place. */
export const usePhotosAt = (engineId: string, taken: readonly Taken[]): readonly Photo[] =>
  useQuery(photosQuery(engineId)).data?.items.filter(shows(taken)) ?? [];

/** Of the finding once there is one, of its part until then. */
function DimensionPhotos({ measuring: { bench, dimension, round } }: { readonly measuring: Measuring }) {
  const finding = findingIn(dimension, round);
  const findings = new Set(dimension.findings.map(({ id }) => id));
  return (
    <PhotosHere
      engineId={bench.engineId}
      target={{
        jobId: bench.jobId,
        of: finding === undefined ? { place: dimension.placeCode } : { finding: finding.id },
        words: dimension.name,
      }}
      which={({ job, of }) =>
        job.id === bench.jobId &&
        (of.kind === 'finding' ? findings.has(of.id) : of.kind === 'place' && of.id === dimension.placeCode)
      }
    />
  );
}

/** At the place asked for, of the latest reading that the server has: only that one has a name to attach a photo to. */
function ReadingPhotos({ measuring: { bench, dimension, place, standings } }: { readonly measuring: Measuring }) {
  const format = useFormat();
  const at = place ?? (standings.length === 1 ? standings[0] : undefined);
  const reading = at?.taken.findLast(({ readingId }) => readingId !== null);
  if (at === undefined || reading === undefined || reading.readingId === null) return null;
  const value = `${at.position.label} ${format.decimal(reading.text)}`;
  return (
    <div className="reading-photos">
      <span className="note num">{value}</span>
      <PhotosHere
        engineId={bench.engineId}
        target={{ jobId: bench.jobId, of: { reading: reading.readingId }, words: `${dimension.name}, ${value}` }}
        which={shows(at.taken)}
      />
    </div>
  );
}

/** Photos of the reading at the place asked for, if there is one, and of what is measured. */
export function PlacePhotos({ measuring }: { readonly measuring: Measuring }) {
  return (
    <>
      <ReadingPhotos measuring={measuring} />
      <DimensionPhotos measuring={measuring} />
    </>
  );
}
