import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Lot, PartSheet } from '#contracts/parts.ts';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { LabelButton } from '../labels/label-button.tsx';
import { CorrectDialog } from './correct-dialog.tsx';
import { Movements } from './movements.tsx';
import { OrderDialog } from './order-dialog.tsx';
import { PartFormDialog } from './part-form-dialog.tsx';
import { PartInsteadSection } from './part-instead.tsx';
import { PartPromiseSection } from './part-promise.tsx';
import { ReceiveDialog } from './receive-dialog.tsx';
import { Scrolled } from './scrolled.tsx';
import { partQuery } from './stores-queries.ts';
import { Supply } from './supply.tsx';

interface SheetProps {
  readonly partId: string;
  readonly onPart: (partId: string) => void;
}

/** One part: what there is of it and where, who has it promised, what moved. */
export function PartSheetView({ partId, onPart }: SheetProps) {
  const { stores, partForms } = useWords();
  const words = stores.part;
  const sheet = useQuery(partQuery(partId));
  const may = useMay('stores');
  const [doing, setDoing] = useState<'receive' | 'order' | 'change' | null>(null);
  if (sheet.isPending) return <Skeleton label={stores.reading} lines={6} />;
  if (sheet.isError) return <Failed error={sheet.error} again={() => void sheet.refetch()} />;
  const { part, holders, companions, movements } = sheet.data;
  return (
    <div className="part-sheet">
      <h3>
        {part.name} <span className="note num">{part.number}</span>
      </h3>
      <PartFacts part={part} />
      <div className="kit-acts">
        <LabelButton labels={[{ kind: 'part', id: part.id }]} />
        {may && !part.retired ? (
          <>
            <Button onClick={() => setDoing('receive')}>{stores.receive}</Button>
            <Button onClick={() => setDoing('order')}>{stores.order}</Button>
          </>
        ) : null}
        {may ? <Button onClick={() => setDoing('change')}>{partForms.change}</Button> : null}
      </div>
      <Lots part={part} may={may} />
      <PartInsteadSection part={part} onPart={onPart} />
      <PartPromiseSection partId={part.id} />
      <Supply partId={part.id} />
      <section>
        <h3>{words.holders}</h3>
        {holders.length === 0 ? <p className="nothing">{words.noHolders}</p> : null}
        <ul className="plain">
          {holders.map(({ demandLineId, lotId, job, quantity }) => (
            <li key={`${demandLineId} ${lotId}`}>
              {words.holder(quantity, `${job.family} ${job.serial}, ${job.number}`)}
            </li>
          ))}
        </ul>
      </section>
      {companions.length === 0 ? null : (
        <section>
          <h3>{words.companions}</h3>
          <ul className="plain">
            {companions.map(({ part: other, quantity }) => (
              <li key={other.id}>
                <button type="button" className="part-link" onClick={() => onPart(other.id)}>
                  {quantity} × {other.name}
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <Movements partId={part.id} newest={movements} />
      {doing === 'change' ? (
        <PartFormDialog part={part} companions={companions} onClose={() => setDoing(null)} />
      ) : null}
      {doing === 'receive' ? <ReceiveDialog part={part} purchase={null} onClose={() => setDoing(null)} /> : null}
      {doing === 'order' ? (
        <OrderDialog order={{ part, quantity: 1, jobId: '', words: '' }} onClose={() => setDoing(null)} />
      ) : null}
    </div>
  );
}

type Part = PartSheet['part'];

function PartFacts({ part }: { readonly part: Part }) {
  const { part: words } = useWords().stores;
  const format = useFormat();
  const size = [
    part.sizeClass,
    part.grade,
    part.shim === null ? null : `${format.decimal(part.shim.value)} ${part.shim.unit}`,
  ]
    .filter((text) => text !== null && text !== '')
    .join(' ');
  const facts = [
    { name: words.onHand, value: part.onHand },
    { name: words.reserved, value: part.reserved },
    { name: words.available, value: part.available },
    { name: words.coming, value: part.coming },
    { name: words.reorder, value: part.reorderPoint },
    ...(size === '' ? [] : [{ name: words.fits, value: size }]),
    ...(part.value === null || part.average === null
      ? []
      : [
          { name: words.worth, value: format.money(part.value) },
          { name: words.average, value: format.money(part.average) },
        ]),
    ...(part.price === null ? [] : [{ name: words.price, value: format.money(part.price), wide: size !== '' }]),
    ...(part.core === null || part.core.minor === '0' ? [] : [{ name: words.core, value: format.money(part.core) }]),
  ];
  return (
    <>
      {part.retired ? (
        <p className="hot">
          {words.retired}
          {part.supersededBy === null ? '' : `, ${words.instead(part.supersededBy.name)}`}
        </p>
      ) : null}
      {part.oneTime ? <p className="note">{words.oneTime}</p> : null}
      {part.fastenerSet === null ? null : <p className="note">{words.fastener(part.fastenerSet)}</p>}
      <TitleBlock facts={facts} columns={4} />
    </>
  );
}

function Lots({ part, may }: { readonly part: Part; readonly may: boolean }) {
  const { part: words } = useWords().stores;
  const format = useFormat();
  const [correcting, setCorrecting] = useState<Lot | null>(null);
  const measured = part.lots.some(({ thickness }) => thickness !== null);
  const graded = part.lots.some(({ grade }) => grade !== '');
  return (
    <section>
      <h3>{words.lots}</h3>
      {part.lots.length === 0 ? <p className="nothing">{words.noLots}</p> : null}
      {part.lots.length === 0 ? null : (
        <Scrolled label={words.lots}>
          <table>
            <thead>
              <tr>
                <th>{words.bin}</th>
                <th>{words.lot}</th>
                {measured ? <th className="n">{words.thickness}</th> : null}
                {graded ? <th>{words.grade}</th> : null}
                <th className="n">{words.onHand}</th>
                <th className="n">{words.available}</th>
                <th>{words.in}</th>
                {may ? (
                  <th>
                    <span className="visually-hidden">{words.correct}</span>
                  </th>
                ) : null}
              </tr>
            </thead>
            <tbody>
              {part.lots.map((lot) => (
                <tr key={lot.id}>
                  <td className="num">
                    <b>{lot.bin}</b>
                  </td>
                  <td className="num">
                    {lot.code}
                    {lot.used ? <p className="note">{words.used(lot.condition)}</p> : null}
                  </td>
                  {measured ? (
                    <td className="n">{lot.thickness === null ? '' : format.decimal(lot.thickness.value)}</td>
                  ) : null}
                  {graded ? <td className="num">{lot.grade}</td> : null}
                  <td className="n">{lot.onHand}</td>
                  <td className="n">{lot.available}</td>
                  <td className="num">{format.date(lot.receivedAt)}</td>
                  {may ? (
                    <td className="n">
                      <Button aria-label={words.correctOf(lot.bin)} onClick={() => setCorrecting(lot)}>
                        {words.correct}
                      </Button>
                    </td>
                  ) : null}
                </tr>
              ))}
            </tbody>
          </table>
        </Scrolled>
      )}
      {correcting === null ? null : <CorrectDialog part={part} lot={correcting} onClose={() => setCorrecting(null)} />}
    </section>
  );
}
