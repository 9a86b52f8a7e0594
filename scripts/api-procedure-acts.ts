import type { DraftMade, ProcedureDocument, ProcedureKept, ProcedureShelf } from '#contracts/procedure-documents.ts';
import type { ProcedureRun } from '#contracts/procedure-runs.ts';
import type { Person } from './walk/client.ts';

type ProcedureRunList = { readonly items: readonly ProcedureRun[] };

interface Acting {
  readonly lead: Person;
  readonly nadia: Person;
  readonly oskar: Person;
  readonly familyId: string;
  readonly jobId: string;
}

/** A procedure begun and thrown away, one exported, imported and published, and a run that is answered, left, resumed and done again. */
export async function procedureActs({ lead, nadia, oskar, familyId, jobId }: Acting): Promise<void> {
  const tagged = (edit: number) => ({ ifMatch: `"${edit}"` });
  const begun = await lead.post<DraftMade>('/procedures', {
    code: 'H355-FILTER',
    name: 'Oil filter, Halden 355',
    kind: 'strip',
    familyId,
  });
  await lead.put(`/procedure-versions/${begun.id}`, undefined, { ...tagged(begun.edit), method: 'DELETE' });
  const shelf = await lead.get<ProcedureShelf>('/procedure-shelf');
  const strip = shelf.items.find(({ code }) => code === 'H355-STRIP');
  const inForce = strip?.versions.find(({ publishedAt }) => publishedAt !== null);
  if (strip === undefined || inForce === undefined) return;
  const document = await lead.get<ProcedureDocument>(`/procedure-versions/${inForce.id}/procedure.json`);
  const next = await lead.post<DraftMade>(`/procedures/${strip.id}/drafts`);
  await lead.put(`/procedure-versions/${next.id}`, undefined, { ...tagged(next.edit), method: 'DELETE' });
  const brought = await lead.post<DraftMade>('/procedures/import', {
    ...document,
    code: 'H355-SHORT',
    name: 'A shorter strip',
  });
  const address = `/procedure-versions/${brought.id}`;
  const shorter = { ...document, code: 'H355-SHORT', name: 'A shorter strip', steps: document.steps.slice(0, 3) };
  const kept = await lead.put<ProcedureKept>(`${address}/procedure.json`, shorter, tagged(brought.edit));
  await lead.get(`${address}/faults`);
  await lead.get(`${address}/names`);
  await lead.put(`${address}/publish`, undefined, { ...tagged(kept.edit), method: 'POST' });
  await runIt({ nadia, oskar, jobId, versionId: brought.id });
}

async function runIt(of: Pick<Acting, 'nadia' | 'oskar' | 'jobId'> & { readonly versionId: string }): Promise<void> {
  const { nadia, oskar, jobId, versionId } = of;
  const { id } = await nadia.post<{ id: string }>(`/jobs/${jobId}/procedure-runs`, { versionId });
  const { items } = await nadia.get<ProcedureRunList>(`/jobs/${jobId}/procedure-runs`);
  const first = items.find((run) => run.id === id)?.steps[0];
  if (first === undefined) return;
  const step = `/procedure-runs/${id}/steps/${first.id}`;
  await nadia.post(`${step}/answer`, { choice: first.asks?.choices[0]?.code ?? '' });
  await nadia.post(`/procedure-runs/${id}/interrupt`, {
    why: 'End of my shift',
    loose: 'Nothing is loose',
  });
  await oskar.post(`/procedure-runs/${id}/resume`);
  await oskar.post(`${step}/mark`, { mark: 'done', noPhoto: 'The camera’s battery is flat' });
  await oskar.post(`${step}/again`, { reason: 'The left side was not photographed' });
}
