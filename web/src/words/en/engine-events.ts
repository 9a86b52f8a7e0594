import { countedPlace } from '#domain/custody/counting.ts';
import type { EngineEventKind } from '#domain/custody/engine-events.ts';
import type { Told } from '../../views/engine/told.ts';
import { dispositionOf } from './dispositions.ts';
import { looseBench } from './loose-bench.ts';

/** The parts of a sentence that say something, joined. */
const said = (...parts: readonly string[]): string => parts.filter((part) => part !== '').join(', ');
const after = (before: string, text: string): string => (text === '' ? '' : `${before}${text}`);
const several = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;
const pieces = (told: Told): string => told.list('pieces') || told.text('piece');
/** A dimension by its name; by its code where an older event tells no more. */
const nameOf = (told: Told): string => told.text('name') || told.text('dimension');
/** A rag, plug or tool put in: `2 × Plug`. */
const thing = (told: Told): string =>
  told.count('count') > 1 ? `${told.count('count')} × ${told.text('name')}` : told.text('name');
/** Of a line kept in order, which places they came out of. */
const placesOf = (told: Told): string =>
  told
    .each('pieces')
    .map((piece) => piece.list('places'))
    .filter((places) => places !== '')
    .join('; ');
const withReason = (told: Told): string => after('', told.text('reason'));

const calculationNamed = (kind: string): string =>
  Object.entries(looseBench.kinds).find(([known]) => known === kind)?.[1] ?? kind;

type Sentence = (told: Told) => string;

/** What happened to an engine, a sentence a kind of event. */
export const engineEvents: Readonly<Record<string, Sentence>> = {
  'engine.taken-in': (told) =>
    said(
      `Taken in${after(' at ', told.text('hours'))}${told.text('hours') === '' ? '' : ' h'}`,
      told.text('complaint'),
    ),
  'engine.handed-back': (told) =>
    said(
      told.is('inBoxes') ? 'Handed back in boxes' : 'Handed back to its owner',
      after('in spite of: ', told.list('overridden', 'words')),
    ),
  'revision.moved': (told) =>
    said('Moved to another revision of the spec sheet', told.text('reason'), told.list('findings', 'name')),
  'job.amended': (told) => said('Job amended', told.text('complaint'), told.text('wishes')),
  'bay.assigned': (told) => (told.text('bay') === '' ? 'No bay planned any more' : `Planned for ${told.text('bay')}`),
  'promise.made': (told) =>
    said(
      `Promised for ${told.text('readyOn')}`,
      after('sure ', told.text('sureOf5') && `${told.text('sureOf5')} times of 5`),
    ),
  'quote.sent': (told) =>
    said(`Quote ${told.text('number')} sent`, after('held until a day from now on: ', told.list('held'))),
  'quote.answered': (told) =>
    said(
      told.is('yes') ? 'Yes to the quote' : 'No to the quote',
      after('said by ', told.text('saidBy')),
      told.text('how'),
      after('held firmly now: ', told.list('firm')),
      after('given back to stock: ', told.list('released')),
      after('not waited for any more: ', told.list('noLongerAsked')),
    ),
  'procedure.started': (told) => `Procedure started: ${told.text('procedure') || told.text('name')}`,
  'procedure.interrupted': (told) =>
    `Work left at step ${told.text('step')}, ${told.text('title')}: ${told.text('why')}. Loose or half done: ${told.text('loose')}`,
  'procedure.resumed': (told) =>
    `Work taken up again at step ${told.text('step')}, ${told.text('title')}, left by ${told.text('leftBy')}`,
  'step.answered': (told) => said(`Found: ${told.text('asks')} ${told.text('answer')}`, withReason(told)),
  'step.again': (told) => `To be done again: ${told.text('title')}: ${told.text('reason')}`,
  'step.marked': (told) =>
    said(
      `Step ${told.text('step')} ${told.text('mark')}`.trim(),
      told.text('title'),
      withReason(told),
      after('no photo: ', told.text('noPhoto')),
    ),
  'opening.opened': () => 'Opened',
  'opening.covered': () => 'Covered',
  'opening.uncovered': () => 'Uncovered',
  'opening.closed': (told) =>
    told.list('overridden') === ''
      ? said('Closed, every piece accounted for', told.text('note'))
      : said(`Closed all the same: ${told.text('reason')}`, `although ${told.list('overridden')}`, told.text('note')),
  'opening.left-in-boxes': (told) => said('Left open, and packed in boxes for its owner', withReason(told)),
  'piece.counted': (told) => said(`Off: ${pieces(told)}`, after('into ', told.text('tray')), told.text('loosened')),
  'piece.found': (told) => said(`Found again: ${pieces(told)}`, withReason(told)),
  'piece.never-there': (told) => said(`Was never there: ${pieces(told)}`, withReason(told)),
  'piece.possibly-inside': (told) => said(`Possibly inside: ${pieces(told)}`, withReason(told)),
  'piece.not-inside': (told) => said(`Not inside, a lead decided: ${pieces(told)}`, withReason(told)),
  'piece.swapped': (told) =>
    said(`Places changed: ${told.text('piece')}, ${told.text('one')} with ${told.text('other')}`, withReason(told)),
  'put-in.put': (told) => said(`Put in: ${thing(told)}`, told.text('where')),
  'put-in.taken-out': (told) => said(`Taken out: ${thing(told)}`, told.text('where')),
  'put-in.not-found': (told) => said(`Put in and not found: ${thing(told)}`, told.text('where'), withReason(told)),
  'put-in.found': (told) => said(`Found again: ${thing(told)}`, withReason(told)),
  'put-in.not-inside': (told) => said(`Not inside, a lead decided: ${thing(told)}`, withReason(told)),
  'search.looked': (told) => said(`Searched for ${told.text('what')}: ${told.text('step')}`, told.text('words')),
  'closing.checked': (told) => said('Closing check ticked', told.list('lines')),
  'opening.looked': (told) =>
    said(`Looked at it: ${told.is('covered') ? 'covered' : 'not covered'}`, told.text('words')),
  'piece.moved': (told) => said(`Moved: ${pieces(told)}`, after('into ', told.text('tray'))),
  'piece.fitted': (told) => said(`Back on: ${pieces(told)}`, placesOf(told)),
  'piece.renewed': (told) => said(`Renewed: ${pieces(told)}`, placesOf(told)),
  'piece.accounted': (told) => said(`Accounted for: ${pieces(told)}`, placesOf(told), withReason(told)),
  'piece.given-back': (told) => said(`Given back to the owner with the engine: ${pieces(told)}`, withReason(told)),
  'rack.filled': (told) =>
    told
      .each('pieces')
      .map((line) =>
        said(
          `Rack of ${line.text('name')}`,
          after('filled: ', line.list('filled')),
          after('empty: ', line.list('emptied')),
        ),
      )
      .join('; ') || 'Rack changed',
  'tray.made': (told) => said(`Tray ${told.text('label')}`, told.text('name')),
  'tray.counted': (told) =>
    told.is('agrees')
      ? `Counted, ${countedPlace(told.text('tray'))}: agrees`
      : said(`Counted, ${countedPlace(told.text('tray'))}: differs`, told.list('differences')),
  'custody.counted': (told) =>
    said('Counted otherwise than the tally says, not moved', told.list('differences', 'piece')),
  'custody.taken': (told) =>
    `Took ${told.list('what') || told.text('what') || 'it'}${after(' from ', told.text('from'))}`,
  'custody.left': (told) => `Left ${told.list('what') || told.text('what') || 'it'}${after(' in ', told.text('bay'))}`,
  'custody.moved': (told) =>
    said(`Moved ${told.list('what') || told.text('what') || 'it'}${after(' to ', told.text('to'))}`, withReason(told)),
  'outside.sent': (told) =>
    said(`Sent to ${told.text('vendor')}`, told.text('what'), told.text('work'), after('due ', told.text('dueOn'))),
  'outside.back': (told) => said(`Back from ${told.text('vendor')}`, told.text('what'), told.text('work')),
  'handover.offered': (told) =>
    said(`Handover offered to ${told.text('receiver')}`, after('trays ', told.list('trays'))),
  'handover.accepted': (told) =>
    said(
      `Handed over by ${told.text('giver')}`,
      after('trays ', told.list('trays')),
      told.list('differences') === '' ? 'counts agree' : `differs: ${told.list('differences')}`,
    ),
  'handover.declined': (told) => said('Handover declined', withReason(told)),
  'handover.withdrawn': () => 'Handover taken back',
  'readings.kept': (told) =>
    said(
      several(told.count('count'), 'reading kept', 'readings kept'),
      told
        .each('findings')
        .map((finding) => `${nameOf(finding)}: ${finding.text('verdict')}`)
        .join(', ') || told.list('dimensions'),
    ),
  'reading.struck': (told) => said(`Reading struck: ${nameOf(told)}`, told.text('text'), withReason(told)),
  'finding.drawn': (told) =>
    said(`Drawn by chance: ${nameOf(told)}`, `${told.text('trials')} trials, seed ${told.text('seed')}`),
  'finding.judged': (told) =>
    `${nameOf(told) || 'A dimension'} judged: ${said(told.text('value'), told.text('verdict'))}`,
  'obligation.raised': (told) => `Obligation: ${told.text('words')}`,
  'obligation.decided': (told) =>
    said(
      `Decided: ${said(dispositionOf(told.text('kind') || told.text('decision')), told.text('sizeClass'))}`,
      told.text('words'),
      withReason(told),
      after('in spite of: ', told.text('tooSmall')),
      after('no longer wanted: ', told.list('calledOff')),
    ),
  'obligation.discharged': (told) => said('Obligation discharged', told.text('words'), withReason(told)),
  'part.fitted': (told) => said(`Fitted: ${told.text('name')}`, told.text('sizeClass'), told.text('mark')),
  'parts.demanded': (told) => said('Parts asked of stores', told.list('lines', 'words')),
  'demand.cancelled': (told) =>
    said(`No longer wanted: ${told.text('name')}`, told.text('words'), after('and with it: ', told.list('calledOff'))),
  'kit.reserved': (told) => said('Parts reserved', told.list('reserved', 'part')),
  'part.short': (told) => said('Parts short', told.list('short', 'words')),
  'part.released': (told) => said(`Reservation let go: ${told.text('name')}`, withReason(told)),
  'hold.begun': (told) => said('Held until a day from now on, for want of a yes', told.list('held')),
  'hold.lapsed': (told) => said('Held for a yes that did not come in time: let go', told.list('released')),
  'reservation.given': (told) =>
    said(
      `Reservation given to job ${told.text('toJob')}: ${told.text('quantity')} × ${told.text('name')}`,
      told.text('reason'),
    ),
  'reservation.taken': (told) =>
    said(
      `Reservation taken over from job ${told.text('fromJob')}: ${told.text('quantity')} × ${told.text('name')}`,
      told.text('reason'),
    ),
  'reservation.carried': (told) =>
    said(
      `Reserved, lies in ${told.text('toBin')} now: ${told.text('quantity')} × ${told.text('name')}`,
      after('carried there from ', told.text('bin')),
      withReason(told),
    ),
  'lot-rule.set': (told) =>
    said(
      `Lots of ${told.text('name')}: ${told.text('words') || 'the oldest first'}`,
      withReason(told),
      told.count('givenBack') === 0 ? '' : `${told.count('givenBack')} given back to stock`,
    ),
  'part.chosen': (told) =>
    said(
      `Reserved by choice: ${told.text('quantity')} × ${told.text('name')}`,
      told.text('condition'),
      after('instead: ', told.text('instead')),
      told.text('onCondition'),
      after('wanted ', told.text('againstRule')),
      withReason(told),
    ),
  'part.added': (told) => `Part added: ${told.text('name')} (${told.text('part')})`,
  'part.changed': (told) => `Part changed: ${told.text('name')} (${told.text('part')})`,
  'bins.changed': () => 'Several bins changed in one act',
  'parts.changed': () => 'Several parts changed in one act',
  'part.superseded': (told) =>
    said(
      `Replaced: ${told.text('name')} (${told.text('part')}) by ${told.text('by')}`,
      told.text('oldStock') === 'use up' ? 'old stock used up first' : 'old stock not fitted any more',
    ),
  'part.supersession-withdrawn': (told) =>
    said(`No longer replaced: ${told.text('name')} (${told.text('part')})`, withReason(told)),
  'part.alternative-named': (told) =>
    said(
      `Alternative to ${told.text('part')}: ${told.text('otherName')} (${told.text('other')})`,
      told.text('condition'),
    ),
  'part.alternative-withdrawn': (told) =>
    said(`No alternative to ${told.text('part')} any more: ${told.text('other')}`, withReason(told)),
  'part.issued': (told) =>
    `Issued: ${after('', told.text('quantity') && `${told.text('quantity')} × `)}${told.text('name')}`,
  'part.returned': (told) =>
    said(
      `Returned to stores: ${told.text('name')}`,
      withReason(told),
      after('no longer wanted with it: ', told.list('calledOff')),
    ),
  'part.ordered': (told) =>
    said(
      `Ordered: ${told.text('name')}`,
      after('from ', told.text('vendor')),
      after('promised ', told.text('promisedOn')),
    ),
  'stock.received': (told) =>
    said(
      `Came in: ${told.text('quantity')} × ${told.text('name')}`,
      told.text('saidNo') === '' ? '' : 'not reserved, since the owner said no',
    ),
  'stock.moved': (told) => said(`Stock moved: ${told.text('name')}`, withReason(told)),
  'lot.marked': (told) => said(`Marks of a lot put right: ${told.text('name')}`, withReason(told)),
  'part.taken-back': (told) =>
    said(`Taken back, now short: ${told.text('quantity')} × ${told.text('name')}`, withReason(told)),
  'count.begun': (told) => `Count begun, sheet ${told.text('sheet')}: ${told.list('bins')}`,
  'count.keyed-by-file': (told) => `Counted from a file: ${told.text('lines')} lines of sheet ${told.text('sheet')}`,
  'count.keyed': (told) => `Counted: ${told.text('name')} in ${told.text('bin')}`,
  'count.handed-in': (told) =>
    said(
      `Count handed in, sheet ${told.text('sheet')}`,
      `${told.text('right')} right`,
      `${told.text('adjusted')} adjusted`,
      `${told.text('again')} to count again`,
    ),
  'count.recount-begun': (told) => `Recount begun, sheet ${told.text('sheet')}`,
  'count.again': (told) => said(`To be counted again: ${told.text('name')} in ${told.text('bin')}`, withReason(told)),
  'count.decided': (told) => said(`Count settled: ${told.text('name')} in ${told.text('bin')}`, withReason(told)),
  'count.given-up': (told) => said(`Count given up, sheet ${told.text('sheet')}`, withReason(told)),
  'count.rule-set': (told) => `Rule of counts set for class ${told.text('class')}`,
  'rings.placed': (told) => said('Rings placed', told.list('faults')),
  'shims.measured': (told) => said('Shims in the valves measured', told.list('shims', 'valve')),
  'shims.chosen': (told) => said('Shims chosen', told.list('shims', 'valve')),
  'shim.chosen': (told) => said(`Shim chosen: ${told.text('valve')}`, told.text('thickness'), told.text('from')),
  'torque.pulled': (told) =>
    said(
      `${told.text('set')}: pulled`,
      after('bolt ', told.text('fastener')),
      told.is('complete') ? 'set complete' : '',
    ),
  'rings.signed': () => 'Ring gaps signed off',
  'fasteners.inspected': (told) => said(`${told.text('set')} looked at`, told.text('reason')),
  'torque.struck': (told) => said(`${told.text('set')}: pull struck`, withReason(told)),
  'figure.kept': (told) => said(`Reckoned and kept: ${calculationNamed(told.text('calculation'))}`, told.text('note')),
  'figure.struck': (told) => said(`Struck: ${calculationNamed(told.text('calculation'))}`, withReason(told)),
  'photo.added': (told) =>
    said(
      told.text('document') === '' ? 'Photo taken' : `Document added: ${told.text('document')}`,
      told.text('of'),
      told.text('caption'),
    ),
  'photo.noted': (told) =>
    said('Caption of a photo', told.text('caption'), told.is('onSheet') ? 'printed on the build sheet' : ''),
  'photo.removed': (told) => said('Photo removed', withReason(told)),
  'photo.discarded': (told) => said('Content of a removed photo deleted', withReason(told)),
  'proof.passed': (told) => said(`${told.text('proof')}: passed`, told.text('words')),
  'proof.failed': (told) => said(`${told.text('proof')}: failed`, told.text('words')),
  'proof.signed': (told) => `${told.text('proof')}: signed off`,
  'gate.overridden': (told) => said('Gate overridden', withReason(told)),
} satisfies Readonly<Record<EngineEventKind, Sentence>>;
