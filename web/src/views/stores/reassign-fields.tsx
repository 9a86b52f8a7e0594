import { useQuery } from '@tanstack/react-query';
import type { DemandLine } from '#contracts/demands.ts';
import type { PartPromise } from '#contracts/promising.ts';
import { read } from '../../app/api.ts';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

interface FieldsProps {
  readonly line: DemandLine;
  readonly jobId: string;
  readonly onChoose: (jobId: string) => void;
}

type Wish = PartPromise['wishes'][number];

/** Other jobs that want the part, or one that it may serve, each once. */
function jobsWanting(wishes: readonly Wish[], besides: string) {
  const jobs = new Map<string, Pick<Wish, 'job' | 'promisedOn'> & { readonly count: number }>();
  for (const { job, short, notAsked, promisedOn } of wishes) {
    if (job.id === besides) continue;
    jobs.set(job.id, { job, promisedOn, count: (jobs.get(job.id)?.count ?? 0) + short + notAsked });
  }
  return [...jobs.values()];
}

/** To which job the pieces go: those that want the part too, the earliest promise first. */
export function ReassignFields({ line, jobId, onChoose }: FieldsProps) {
  const { acts: words } = useWords().stores;
  const format = useFormat();
  const wishes = useQuery({
    queryKey: ['parts', line.part.id, 'promise', ''],
    queryFn: ({ signal }) => read<PartPromise>(`/parts/${line.part.id}/promise`, signal),
  }).data?.wishes;
  const jobs = wishes === undefined ? undefined : jobsWanting(wishes, line.jobId);
  return (
    <Field label={words.toJob} error={jobs?.length === 0 ? words.noJobWants : undefined}>
      {(input) => (
        <select {...input} required value={jobId} onChange={({ target }) => onChoose(target.value)}>
          <option value="">{words.chooseJob}</option>
          {jobs?.map(({ job, count, promisedOn }) => (
            <option key={job.id} value={job.id}>
              {words.jobWants(
                `${job.number}, ${job.family} ${job.serial}`,
                count,
                promisedOn === null ? null : format.day(promisedOn),
              )}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
