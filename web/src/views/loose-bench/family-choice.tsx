import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CalculationKind } from '#domain/build/calculations/kinds.ts';
import { inputsOf } from '#domain/build/calculations/kinds.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { NamedOptions } from '../../kit/named-options.tsx';
import { useWords } from '../../words/words.tsx';
import { familiesQuery } from '../counter/counter-queries.ts';
import { documentQuery } from '../specs/specs-queries.ts';
import { fittingPartsQuery } from '../stores/stores-queries.ts';
import { type Entries, sizeText } from './entries.ts';
import { sizesInStock } from './sizes-in-stock.ts';

interface FamilyProps {
  readonly kind: CalculationKind;
  readonly fill: (entries: Entries) => void;
}

/** Bore and stroke by the family's sheet; for the comparison also the pistons on the shelves. */
export function FamilyChoice({ kind, fill }: FamilyProps) {
  const { looseBench: words } = useWords();
  const families = useQuery(familiesQuery).data?.items ?? [];
  const [familyId, setFamilyId] = useState('');
  const family = families.find(({ id }) => id === familyId);
  const asked = inputsOf(kind);
  if (!('stroke' in asked) && !('bore' in asked)) return null;
  const choose = (id: string) => {
    setFamilyId(id);
    const chosen = families.find((one) => one.id === id);
    if (chosen === undefined) return;
    const { bore, stroke } = chosen;
    fill({ bore: { text: bore.value, unit: bore.unit }, stroke: { text: stroke.value, unit: stroke.unit } });
  };
  return (
    <div className="reckon-family">
      <Field label={words.family} hint={words.familyHint}>
        {(input) => (
          <select {...input} value={familyId} onChange={({ target }) => choose(target.value)}>
            <option value="">{words.noFamily}</option>
            <NamedOptions of={families} />
          </select>
        )}
      </Field>
      {kind === 'bore-comparison' && family !== undefined ? (
        <FromStock familyId={family.id} revisionId={family.revision?.id} fill={fill} />
      ) : null}
    </div>
  );
}

interface StockProps {
  readonly familyId: string;
  readonly revisionId: string | undefined;
  readonly fill: (entries: Entries) => void;
}

function FromStock({ familyId, revisionId, fill }: StockProps) {
  const { looseBench: words } = useWords();
  const sheet = useQuery({ ...documentQuery(revisionId ?? ''), enabled: revisionId !== undefined });
  const pistons = useQuery(fittingPartsQuery(familyId, 'piston'));
  const sizes =
    sheet.data === undefined || pistons.data === undefined
      ? undefined
      : sizesInStock(sheet.data.body, pistons.data.items, words.free);
  if (sizes !== undefined && sizes.rows.length === 0) return <p className="note">{words.fromStockNone}</p>;
  return (
    <Button
      disabled={sizes === undefined}
      onClick={() => sizes && fill({ sizes: { text: sizeText(sizes.rows), unit: sizes.unit } })}
    >
      {words.fromStock}
    </Button>
  );
}
