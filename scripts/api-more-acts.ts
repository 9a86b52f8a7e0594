import type { z } from 'zod';
import { calculationExamples } from '#contracts/build-arithmetic-examples.ts';
import type { OpeningRule } from '#contracts/opening-rules.ts';
import type { PartPage } from '#contracts/parts.ts';
import type { ClosingCheck, PutInChange, Racks, Searches } from '#contracts/searches.ts';
import type { ShopFacts } from '#contracts/shop.ts';
import { sheetExample } from '#contracts/spec-sheet-example.ts';
import type { Drafted, DraftKept, Revisions, SpecSheetDocument } from '#contracts/spec-sheets.ts';
import type { WorkedFigure } from '#contracts/worked-figures.ts';
import { demoPeople } from '../prisma/demo/people.ts';
import { boxesActs } from './api-boxes-acts.ts';
import { custodyActs } from './api-custody-acts.ts';
import { gaugeActs } from './api-gauge-acts.ts';
import { labelActs } from './api-label-acts.ts';
import { photoActs } from './api-photo-acts.ts';
import { procedureActs } from './api-procedure-acts.ts';
import { setUpActs } from './api-set-up-acts.ts';
import { storesActs } from './api-stores-acts.ts';
import { type Person, readPeople, signIn } from './walk/client.ts';

/** The demo's people by the key of prisma/demo/people.ts, signed in. */
async function everybody(base: string): Promise<(key: string) => Person> {
  const { people } = await readPeople(base);
  const signedIn = new Map<string, Person>();
  for (const { key, name, pin } of demoPeople) {
    const person = people.find((each) => each.name === name);
    if (person !== undefined) signedIn.set(key, await signIn(base, person, pin));
  }
  return (key) => {
    const person = signedIn.get(key);
    if (person === undefined) throw new Error(`${key} does not work here`);
    return person;
  };
}

/** Acts of the trade that the walk has no occasion for, each once, on an engine of their own. */
export async function moreActs(base: string): Promise<void> {
  const who = await everybody(base);
  const [lead, writer, clerk, nadia, oskar] = ['maren', 'idris', 'hetty', 'nadia', 'oskar'].map(who);
  if (!lead || !writer || !clerk || !nadia || !oskar) return;
  const shop = await lead.get<ShopFacts>('/shop');
  await lead.post('/bays', { name: 'Bay 6', kind: 'machining', capacity: 1, grid: { column: 4, row: 1 } }).catch(tell);
  await lead.post('/vendors', { name: 'Ferncliff Grinding', trade: 'crank grinding', contact: 'weekdays' });
  await writer.post('/owners', { name: 'Tove Brandal', contact: 'by letter' });
  await oskar
    .post(`/instruments/${shop.instruments[0]?.id}/checks`, {
      zeroError: { value: '0.001', unit: 'mm' },
      master: 'anvils closed',
    })
    .catch(tell);
  await setUpActs(lead, oskar);
  await gaugeActs(lead, nadia);
  await labelActs(base, { lead, clerk });
  await custodyActs(lead, nadia);
  const engines = await lead.get<{ items: { id: string }[] }>('/engines?search=H355&limit=30');
  for (const { id } of engines.items) {
    await lead.get(`/engines/${id}/family-wear`);
    const page = await lead.get<{ obligations: { id: string }[] }>(`/engines/${id}`);
    for (const obligation of page.obligations) await lead.get(`/obligations/${obligation.id}/outlook`);
  }
  const rack = shop.bays.find(({ kind }) => kind === 'rack')?.id;
  const familyId = shop.families.find(({ code }) => code === 'H355')?.id;
  const job = await writer.post<{ id: string; engineId: string }>('/jobs', {
    engine: { serial: `H355-X${Date.now().toString().slice(-6)}`, familyId },
    owner: { name: 'Tove Brandal', contact: '' },
    hours: '88',
    complaint: 'Loses oil at the base gasket',
    bayId: rack,
  });
  await writer.amend(`/jobs/${job.id}`, { wishes: 'Keep the old gasket for me' }, '"1"');
  const procedures = await nadia.get<{ items: { versionId: string }[] }>(`/procedures?familyId=${familyId}`);
  await nadia.get(`/procedure-versions/${procedures.items[0]?.versionId}`);
  await nadia.post(`/engines/${job.engineId}/take`, { bayId: rack, trayIds: [] });
  await lead.post(`/jobs/${job.id}/obligations`, { words: 'Look at the oil pump before it is closed', inside: true });
  await lead.post(`/jobs/${job.id}/fitted-parts`, {
    placeCode: 'piston',
    name: 'Piston',
    sizeClass: 'standard',
    grade: 'B',
  });
  if (familyId !== undefined) await procedureActs({ lead, nadia, oskar, familyId, jobId: job.id });
  if (familyId !== undefined && rack !== undefined) await boxesActs({ lead, writer, nadia, familyId, bayId: rack });
  await measureAndStrike(nadia, job.id);
  await keepFigures(nadia, job.id);
  await tally(nadia, { jobId: job.id, lead, other: oskar });
  for (const answer of ['decline', 'withdraw']) {
    const offer = await nadia.post<{ id: string }>(`/jobs/${job.id}/handovers`, {
      receiverId: oskar.id,
      placeId: rack,
      includeEngine: true,
      trayIds: [],
    });
    if (answer === 'decline') await oskar.post(`/handovers/${offer.id}/decline`, { reason: 'Not washed yet' });
    else await nadia.post(`/handovers/${offer.id}/withdraw`);
  }
  await photoActs(lead, nadia, job);
  await torque(nadia, job.id);
  await stores({ clerk, lead }, { jobId: job.id, vendorId: shop.vendors[0]?.id ?? '' });
  await nadia.post(`/engines/${job.engineId}/leave`, { bayId: rack, trayIds: [], counts: [] }).catch(tell);
  await lead
    .post(`/engines/${job.engineId}/move`, { to: { bayId: rack }, reason: 'Nadia has gone home', trayIds: [] })
    .catch(tell);
  await lead.get(`/parts/${(await clerk.get<Parts>('/parts?limit=1')).items[0]?.id}`);
  if (familyId !== undefined) await specSheets(lead, familyId, job.id);
  await lead
    .get(
      `/spec-revisions/${(await lead.get<{ items: { revision: { id: string } | null }[] }>('/families')).items[0]?.revision?.id}`,
    )
    .catch(tell);
}

/** The next revision of a family: drafted, written anew, added to, compared; one draft discarded, the next published, and a job moved to it. */
async function specSheets(lead: Person, familyId: string, jobId: string): Promise<void> {
  const family = await lead.post<{ id: string }>('/families', {
    code: 'R510',
    name: 'Rimfell 510',
    cycle: 'four-stroke',
    cooling: 'water',
    bore: { value: '95.0', unit: 'mm' },
    stroke: { value: '72.0', unit: 'mm' },
  });
  const first = await lead.post<Drafted>(`/families/${family.id}/spec-revisions`, {
    document: { ...sheetExample, family: { code: 'R510', name: 'Rimfell 510' }, valves: [] },
  });
  const only = [
    'dimension;what;value;unit;place;method;position',
    'spring;dimension;;in;clutch;single;',
    'spring;position;;;;;at',
    'spring;service low;1.580;in;;;',
  ];
  const typed = await lead.put<DraftKept>(`/spec-revisions/${first.id}/sheet.csv`, undefined, {
    ifMatch: `"${first.version}"`,
    csv: only.join('\r\n'),
  });
  await lead.put(`/spec-revisions/${first.id}/publish`, undefined, {
    ifMatch: `"${typed.version}"`,
    method: 'POST',
  });
  const { items } = await lead.get<Revisions>(`/families/${familyId}/spec-revisions`);
  const inForce = items.find(({ publishedAt }) => publishedAt !== null);
  if (inForce === undefined) return;
  const tagged = (version: number) => ({ ifMatch: `"${version}"` });
  const draft = await lead.post<Drafted>(`/families/${familyId}/spec-revisions`, { copyOf: inForce.id });
  const address = `/spec-revisions/${draft.id}`;
  const document = await lead.get<SpecSheetDocument>(`${address}/sheet.json`);
  const kept = await lead.put<DraftKept>(`${address}/sheet.json`, document, tagged(draft.version));
  const csv = 'dimension;what;value;source;page\r\nbore;service high;88.055;service bulletin 7;p. 2\r\n';
  const added = await lead.put<DraftKept>(`${address}/sheet.csv`, undefined, {
    ...tagged(kept.version),
    csv,
    method: 'PATCH',
  });
  await lead.get(`${address}/changes?since=${inForce.id}`);
  await lead.get(`/spec-revisions/${inForce.id}/jobs`);
  await lead.put(address, undefined, { ...tagged(added.version), method: 'DELETE' });
  const next = await lead.post<Drafted>(`/families/${familyId}/spec-revisions`, { copyOf: inForce.id });
  await lead.put(`/spec-revisions/${next.id}/publish`, undefined, { ...tagged(next.version), method: 'POST' });
  await lead.get(`/jobs/${jobId}/newer-revision`);
  await lead.post(`/jobs/${jobId}/revision`, { revisionId: next.id, reason: 'Service bulletin 7' });
}

type Parts = z.infer<typeof PartPage>;

const tell = (error: Error): void => console.log(error.message);

async function measureAndStrike(person: Person, jobId: string): Promise<void> {
  const reading = {
    round: 'as received',
    dimension: 'piston',
    readings: [{ position: 'at', repeat: 1, text: '87.958', unit: 'mm', instrumentCode: 'MI-4' }],
  };
  await person.post(`/jobs/${jobId}/readings/preview`, reading).catch(tell);
  const kept = await person
    .post<{ readings: { id: string }[]; findings: { id: string }[] }>(`/jobs/${jobId}/readings`, reading)
    .catch(tell);
  if (kept?.findings[0] !== undefined) {
    await person.post(`/findings/${kept.findings[0].id}/simulations`, { trials: 5000, seed: 20261126 });
    await person.get(`/findings/${kept.findings[0].id}/simulations`);
  }
  if (kept?.readings[0] !== undefined)
    await person.post(`/readings/${kept.readings[0].id}/strike`, { reason: 'read the scale wrong' });
}

/** Two calculations kept with the job, one of them struck again. */
async function keepFigures(person: Person, jobId: string): Promise<void> {
  const given = { ...calculationExamples['port-timing'] };
  const kept = await person.post<WorkedFigure>(`/jobs/${jobId}/worked-figures`, { kind: 'port-timing', given });
  await person.post(`/worked-figures/${kept.id}/strike`, { reason: 'A four-stroke has no ports' });
  const ratio = { ...calculationExamples['compression-ratio'] };
  await person.post(`/jobs/${jobId}/worked-figures`, {
    kind: 'compression-ratio',
    given: ratio,
    note: 'As it came in',
  });
  await person.get(`/jobs/${jobId}/worked-figures`);
}

async function tally(
  person: Person,
  { jobId, lead, other }: { jobId: string; lead: Person; other: Person },
): Promise<void> {
  const { id } = await person.post<{ id: string }>(`/jobs/${jobId}/openings`);
  const [first, second] = [
    await person.post<{ id: string }>(`/jobs/${jobId}/trays`, { name: 'Odd pieces' }),
    await person.post<{ id: string }>(`/jobs/${jobId}/trays`, { name: 'Seals' }),
  ];
  const off = (name: string, count: number, expected: number) =>
    person.post<{ pieces: { id: string }[] }>(`/openings/${id}/pieces/off`, {
      trayId: first.id,
      pieces: [{ byHand: { name, expected }, count }],
    });
  const clip = await off('hose clip', 1, 2);
  await person.post(`/openings/${id}/pieces/never-there`, {
    pieces: [{ pieceId: clip.pieces[0]?.id, count: 1 }],
    reason: 'Only one was ever fitted',
  });
  const pin = await off('split pin', 0, 1);
  await person.post(`/openings/${id}/pieces/possibly-inside`, {
    pieces: [{ pieceId: pin.pieces[0]?.id, count: 1 }],
    reason: 'Not on the bench, not in the wash',
  });
  await search(person, lead, jobId);
  await putInAndOut(person, id);
  await rack(person, id);
  await person.post(`/openings/${id}/looks`, { covered: true, words: 'cloth tight' });
  await person.get('/openings/voices');
  await person.get('/opening-rule');
  const { uncoveredMinutes, coveredMinutes, shiftEnds } = await person.get<OpeningRule>('/opening-rule');
  await lead.post('/opening-rule', { uncoveredMinutes, coveredMinutes, shiftEnds, note: 'As before' });
  const seal = await off('old seal', 1, 1);
  await person.post(`/openings/${id}/pieces/moved`, { pieces: [{ pieceId: seal.pieces[0]?.id }], trayId: second.id });
  await person.post(`/openings/${id}/pieces/accounted`, {
    pieces: [{ pieceId: seal.pieces[0]?.id, count: 1 }],
    reason: 'Thrown away, worn through',
  });
  const { lines } = await person.get<ClosingCheck>(`/openings/${id}/check`);
  const settled = lines.findIndex(({ ready }) => !ready);
  const ready = lines.slice(0, settled < 0 ? lines.length : settled).map((line) => line.id);
  if (ready.length > 0) await other.post(`/openings/${id}/check`, { lines: ready });
}

/** Every step of the search but the last resort ticked, then a lead's decision. */
async function search(person: Person, lead: Person, jobId: string): Promise<void> {
  const { items } = await person.get<Searches>(`/jobs/${jobId}/searches`);
  const [open] = items;
  for (const { code } of (open?.steps ?? []).filter(({ lastResort }) => !lastResort)) {
    await person.post(`/searches/${open?.id}/ticks`, { step: code });
  }
  await lead.post(`/searches/${open?.id}/decision`, { reason: 'Seen in the scrap box, worn through' });
}

async function putInAndOut(person: Person, openingId: string): Promise<void> {
  const rag = { kind: 'rag', where: 'case mouth', count: 2 };
  const { thing } = await person.post<PutInChange>(`/openings/${openingId}/put-in`, rag);
  await person.post(`/put-in/${thing.id}/taken-out`, { count: 1 });
  await person.post(`/put-in/${thing.id}/not-found`, { count: 1, reason: 'Gone from the case mouth' });
  await person.post(`/put-in/${thing.id}/found`, { count: 1, reason: 'Under the stand' });
}

/** A line kept in order, and two of its pieces swapped. */
async function rack(person: Person, openingId: string): Promise<void> {
  const set = { name: 'Clutch plate', matchedSet: 'clutch pack', expected: 3 };
  await person.post(`/openings/${openingId}/pieces/off`, { pieces: [{ byHand: set, count: 3 }] });
  const { items } = await person.get<Racks>(`/openings/${openingId}/racks`);
  const swap = { one: '1', other: '2', reason: 'the worn one goes to the outside' };
  const pieceId = items[0]?.pieceId;
  await person.get(`/racks/${pieceId}`);
  await person.post(`/openings/${openingId}/racks/${pieceId}/swap`, swap);
  await person.post(`/openings/${openingId}/racks/${pieceId}/places`, { emptied: ['3'] });
  await person.post(`/openings/${openingId}/pieces/fitted`, { pieces: [{ pieceId, count: 3 }] });
}

async function torque(person: Person, jobId: string): Promise<void> {
  const question = {
    valve: 'in-l',
    lash: { low: '0.08', high: '0.09', unit: 'mm' },
    fitted: { value: '2.350', unit: 'mm' },
  };
  await person.post(`/jobs/${jobId}/shim-proposals`, question).catch(tell);
  const other = { ...question, valve: 'in-r', lash: { low: '0.12', high: '0.13', unit: 'mm' } };
  const head = { valves: [question, other] };
  const shown = await person.post<{ seen: string }>(`/jobs/${jobId}/head-shim-proposals`, head).catch(tell);
  await person.post(`/jobs/${jobId}/head-shims`, { ...head, seen: shown?.seen }).catch(tell);
  const fitted = { valve: 'in-l', thickness: { value: '2.342', unit: 'mm' }, printed: { value: '2.35', unit: 'mm' } };
  await person.post(`/jobs/${jobId}/fitted-shims`, { valves: [fitted] }).catch(tell);
  await person.get(`/jobs/${jobId}/heads-beside`);
  const heads = { heads: [{ jobId, ...head }] };
  await person.post('/head-shim-proposals', heads).catch(tell);
  await person.post('/head-shims', heads).catch(tell);
  const { sets } = await person.get<{
    sets: { code: string; next: { fastener: number; stage: number; figure: object } | null }[];
  }>(`/jobs/${jobId}/assembly`);
  const set = sets.find(({ next }) => next !== null);
  if (set?.next == null) return;
  const { fastener, stage, figure } = set.next;
  const pulled = await person.post<{ pulls: { id: string }[] }>(`/jobs/${jobId}/torque-pulls`, {
    set: set.code,
    fastener,
    stage,
    value: figure,
  });
  await person.post(`/torque-pulls/${pulled.pulls[0]?.id}/strike`, { reason: 'The wrench slipped off' });
}

async function stores(
  { clerk, lead }: { clerk: Person; lead: Person },
  { jobId, vendorId }: { jobId: string; vendorId: string },
): Promise<void> {
  const { items } = await clerk.get<Parts>('/parts?limit=50');
  const [part, other] = items.filter(({ available, lots }) => available > 3 && lots.length > 0);
  const lot = part?.lots.find(({ available }) => available > 3) ?? part?.lots[0];
  if (part === undefined || other === undefined || lot === undefined) return;
  await clerk.post('/stock-movements', { act: 'scrap', lotId: lot.id, quantity: 1, reason: 'bent' });
  const [bin] = (await clerk.get<{ items: { id: string }[] }>('/bins')).items;
  await clerk.post('/purchase-lines', {
    vendorId,
    partId: part.id,
    quantity: 4,
    promisedOn: new Date(Date.now() + 3 * 86_400_000).toISOString().slice(0, 10),
  });
  await clerk.post('/receipts', { partId: part.id, binId: bin?.id, quantity: 2, lotCode: 'B-77' });
  const { lines } = await clerk.post<{ lines: { id: string }[] }>(`/jobs/${jobId}/demands`, {
    lines: [
      { partId: part.id, quantity: 2, words: 'worn' },
      { partId: other.id, quantity: 1, words: 'to be sure' },
    ],
  });
  await clerk.post(`/jobs/${jobId}/reservations`, { allOrNothing: false });
  const [first, second] = lines;
  await clerk.post(`/demand-lines/${first?.id}/release`, { quantity: 1, reason: 'needed next week only' });
  await clerk.post(`/demand-lines/${first?.id}/issue`, { quantity: 1 });
  await clerk.post(`/demand-lines/${first?.id}/return`, { quantity: 1, reason: 'not used' });
  await clerk.post(`/demand-lines/${second?.id}/cancel`, { words: 'the old one is good' });
  await storesActs(clerk, lead);
}
