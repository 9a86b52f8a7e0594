import type { ProcedureDocument, StepInDocument } from './document.ts';

/** One difference of two versions. `step` is its place in the newer one; of what was removed, in the older. */
export interface ProcedureChange {
  readonly what: 'added' | 'removed' | 'moved' | 'changed';
  readonly step: number | null;
  readonly title: string;
  /** Fields that differ; none when it was added, removed or only moved. */
  readonly fields: readonly string[];
}

const plain = (value: unknown): string => JSON.stringify(value);

const fieldsThatDiffer = (before: object, after: object, leave: readonly string[]): readonly string[] => {
  const [old, now] = [new Map(Object.entries(before)), new Map(Object.entries(after))];
  const keys = new Set([...old.keys(), ...now.keys()]);
  return [...keys].filter((key) => !leave.includes(key) && plain(old.get(key)) !== plain(now.get(key)));
};

/** Steps of both in the longest order they share: what stands outside of it has moved. */
function inSharedOrder(places: readonly number[]): ReadonlySet<number> {
  const lengths = places.map(() => 1);
  const before = places.map(() => -1);
  places.forEach((place, index) => {
    for (let earlier = 0; earlier < index; earlier += 1) {
      const length = (lengths[earlier] ?? 0) + 1;
      if ((places[earlier] ?? 0) < place && length > (lengths[index] ?? 0)) {
        lengths[index] = length;
        before[index] = earlier;
      }
    }
  });
  let at = lengths.indexOf(Math.max(0, ...lengths));
  const kept = new Set<number>();
  while (at >= 0) {
    kept.add(places[at] ?? -1);
    at = before[at] ?? -1;
  }
  return kept;
}

/** What differs between two versions of a procedure. Steps are known again by their titles. */
export function compareProcedures(before: ProcedureDocument, after: ProcedureDocument): readonly ProcedureChange[] {
  const changes: ProcedureChange[] = [];
  const head = fieldsThatDiffer(before, after, ['steps', 'shape']);
  if (head.length > 0) changes.push({ what: 'changed', step: null, title: after.name, fields: head });
  const old = new Map<string, { step: StepInDocument; place: number }>(
    before.steps.map((step, place) => [step.title, { step, place }]),
  );
  const shared = inSharedOrder(after.steps.flatMap(({ title }) => old.get(title)?.place ?? []));
  after.steps.forEach((step, index) => {
    const known = old.get(step.title);
    const of = { step: index + 1, title: step.title };
    if (known === undefined) {
      changes.push({ ...of, what: 'added', fields: [] });
      return;
    }
    if (!shared.has(known.place)) changes.push({ ...of, what: 'moved', fields: [] });
    const fields = fieldsThatDiffer(known.step, step, ['title']);
    if (fields.length > 0) changes.push({ ...of, what: 'changed', fields });
  });
  const now = new Set(after.steps.map(({ title }) => title));
  before.steps.forEach(({ title }, index) => {
    if (!now.has(title)) changes.push({ what: 'removed', step: index + 1, title, fields: [] });
  });
  return changes;
}
