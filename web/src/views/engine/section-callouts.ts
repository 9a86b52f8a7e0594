import type { EnginePage } from '#contracts/engines.ts';
import { isOff } from '#domain/section/depth.ts';
import type { Callout, CalloutPart } from '../../drawings/section/callouts.tsx';
import type { Format } from '../../words/format.ts';
import type { Words } from '../../words/words.tsx';

type Layer = 'cover' | 'head' | 'cylinder' | 'case';

export interface CalloutFacts {
  readonly cycle: 'four-stroke' | 'two-stroke';
  readonly opening: {
    readonly depth: Layer;
    readonly covered: boolean;
    readonly coveredOrNotSince: string;
  } | null;
  readonly trays: EnginePage['trays'];
}

export interface Lettering {
  readonly format: Pick<Format, 'since'>;
  readonly words: Words['engine'];
}

type Tray = EnginePage['trays'][number];

const sum = (counts: readonly (number | null)[]): number | null =>
  counts.reduce<number | null>((total, count) => (total === null || count === null ? null : total + count), 0);

/** Which tray the layer's pieces lie in, how many of how many, and who has it. */
function whereabouts(layer: Layer, trays: readonly Tray[], words: Words['engine']): string {
  const holding = trays.flatMap((tray) => {
    const pieces = tray.pieces.filter((piece) => (piece.layer ?? tray.layer) === layer);
    const loose = sum(pieces.map(({ off, back }) => (off === null || back === null ? null : off - back)));
    return tray.emptiedAt !== null || pieces.length === 0 || loose === 0 ? [] : [{ tray, pieces, loose }];
  });
  const [first] = holding;
  if (first === undefined) return '';
  const loose = sum(holding.map((each) => each.loose));
  const expected = sum(holding.flatMap(({ pieces }) => pieces.map((piece) => piece.expected)));
  const labels = words.inTray(holding.map(({ tray }) => tray.label).join(', '));
  const count = loose === null || expected === null || expected === 1 ? '' : words.piecesOf(loose, expected);
  const place = first.tray.place?.name ?? first.tray.holder?.name ?? '';
  return [labels, count, place].filter((part) => part !== '').join(', ');
}

/** The lettering of an engine's section: what is off and where it lies, what is still on. */
export function sectionCallouts({ cycle, opening, trays }: CalloutFacts, { format, words }: Lettering): Callout[] {
  const layers: readonly Exclude<Layer, 'case'>[] =
    cycle === 'four-stroke' ? ['cover', 'head', 'cylinder'] : ['head', 'cylinder'];
  const callout = (part: CalloutPart, text: string, note: string, off: boolean): Callout => ({ part, text, note, off });
  const callouts = layers.map((layer) => {
    const off = opening !== null && isOff(opening.depth, layer);
    return callout(layer, words.layers[layer], off ? words.off(whereabouts(layer, trays, words)) : words.on, off);
  });
  if (opening !== null) {
    const since = format.since(opening.coveredOrNotSince);
    const bare = isOff(opening.depth, 'cylinder') && !isOff(opening.depth, 'case');
    if (bare) callouts.push(callout('piston', words.parts.piston, words.onTheRod, false));
    callouts.push(
      opening.covered
        ? callout('opening', words.parts.rag, words.coveredSince(since), false)
        : callout('opening', words.parts.mouth, words.uncoveredSince(since), false),
    );
  }
  const open = opening?.depth === 'case';
  const inCase = open ? whereabouts('case', trays, words) : '';
  callouts.push(
    callout(
      'case',
      words.layers.case,
      open ? [words.caseOpen, inCase].filter(Boolean).join(', ') : words.caseClosed,
      false,
    ),
  );
  return callouts;
}
