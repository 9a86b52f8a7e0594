import { queryOptions, useQuery } from '@tanstack/react-query';
import type { LotsToChoose } from '#contracts/parts-instead.ts';
import { read } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';

export type LotToChoose = LotsToChoose['items'][number];

const lotsQuery = (lineId: string) =>
  queryOptions({
    queryKey: ['stores', 'lots', lineId],
    queryFn: ({ signal }) => read<LotsToChoose>(`/demand-lines/${lineId}/lots`, signal),
  });

/** It is taken with a reason: an alternative, or a lot that does not meet the line's rule. */
export const asksReason = ({ standing, meetsRule }: LotToChoose): boolean => standing === 'alternative' || !meetsRule;

interface ChoiceProps {
  readonly lineId: string;
  readonly lot: LotToChoose | null;
  readonly onLot: (lot: LotToChoose | null) => void;
  readonly reason: string;
  readonly onReason: (text: string) => void;
}

/** Which lot the pieces come out of: a used one with what was measured on it, or an alternative, with why it is taken. */
export function LotChoice({ lineId, lot, onLot, reason, onReason }: ChoiceProps) {
  const { choose: words } = useWords().partsInstead;
  const lots = useQuery(lotsQuery(lineId));
  if (lots.isPending) return <Skeleton label={words.reading} lines={3} />;
  if (lots.isError) return <Refusal error={lots.error} />;
  const { items } = lots.data;
  if (items.length === 0) return <p>{words.none}</p>;
  return (
    <>
      <Choice
        label={words.label}
        value={lot?.lotId ?? null}
        onChange={(id) => onLot(items.find(({ lotId }) => lotId === id) ?? null)}
        options={items.map((item) => ({
          value: item.lotId,
          label: words.lot(item.bin, item.code),
          note: <LotNote lot={item} />,
        }))}
      />
      {lot !== null && asksReason(lot) ? (
        <Field label={lot.standing === 'alternative' ? words.reason : words.reasonAgainst} hint={words.reasonHint}>
          {(input) => (
            <input {...input} maxLength={300} value={reason} onChange={({ target }) => onReason(target.value)} />
          )}
        </Field>
      ) : null}
    </>
  );
}

function LotNote({ lot }: { readonly lot: LotToChoose }) {
  const { choose: words, available } = useWords().partsInstead;
  const told = [
    available(lot.available),
    ...(lot.thickness === null ? [] : [`${lot.thickness.value} ${lot.thickness.unit}`]),
    ...(lot.grade === '' ? [] : [words.grade(lot.grade)]),
    ...(lot.meetsRule ? [] : [words.against]),
    ...(lot.serial === null ? [] : [words.serial(lot.serial)]),
    ...(lot.standing === 'replacement' ? [words.replacement(lot.part.number)] : []),
    ...(lot.onCondition === null ? [] : [words.alternative(lot.part.name, lot.onCondition)]),
    ...(lot.used ? [words.used(lot.measured)] : []),
  ];
  return told.join(', ');
}
