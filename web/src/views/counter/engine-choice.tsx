import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useDeferredValue } from 'react';
import type { EngineLine } from '#contracts/engines.ts';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { familiesQuery, serialsQuery } from './counter-queries.ts';
import { isIn, type TakeInEntry } from './take-in-entry.ts';

interface ChoiceProps {
  readonly entry: TakeInEntry;
  readonly change: (part: Partial<TakeInEntry>) => void;
  readonly fault: string | undefined;
  readonly familyFault: string | undefined;
}

/** Which engine: one that was here before, found by its serial, or a new one of some family. */
export function EngineChoice({ entry, change, fault, familyFault }: ChoiceProps) {
  const { takeIn: words } = useWords().counter;
  const typed = useDeferredValue(entry.serial);
  const found = useQuery({ ...serialsQuery(typed), enabled: typed.length >= 2 });
  const matches =
    entry.known !== null || typed.length < 2
      ? []
      : (found.data?.items ?? []).filter(({ serial }) => serial.includes(typed));
  const choose = (engine: EngineLine) =>
    change({
      known: engine,
      serial: engine.serial,
      ownerId: engine.owner.id,
      ownerName: engine.owner.name,
      ownerNote: '',
    });
  const type = (text: string) => {
    const serial = text.toUpperCase().replace(/\s/g, '');
    const exact = found.data?.items.find((engine) => engine.serial === serial);
    if (exact !== undefined) choose(exact);
    else change({ serial, known: null, ...(entry.known === null ? {} : { ownerId: null, ownerName: '' }) });
  };
  return (
    <>
      <Field label={words.serial} hint={words.serialHint} error={fault}>
        {(input) => (
          <input
            {...input}
            className="num"
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            maxLength={40}
            value={entry.serial}
            onChange={({ target }) => type(target.value)}
          />
        )}
      </Field>
      {matches.length === 0 ? null : (
        <ul className="matches" aria-label={words.matches}>
          {matches.map((engine) => (
            <li key={engine.id}>
              <button
                type="button"
                className="found"
                aria-label={words.choose(engine.serial)}
                onClick={() => choose(engine)}
              >
                <b className="num">{engine.serial}</b>
                <span className="note">{engine.family.name}</span>
                <span className="note">{engine.owner.name}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {entry.known === null ? (
        <FamilyField entry={entry} change={change} fault={familyFault} />
      ) : (
        <Known engine={entry.known} />
      )}
    </>
  );
}

function Known({ engine }: { readonly engine: EngineLine }) {
  const { takeIn: words } = useWords().counter;
  const format = useFormat();
  const visit = engine.lastVisit;
  return (
    <p className="known" role="status">
      {words.known(engine.family.name, engine.visits)} {visit === null ? '' : words.lastAt(format.decimal(visit.hours))}{' '}
      {visit !== null && isIn(engine) ? (
        <>
          <b className="hot">{words.already(visit.number)}</b>{' '}
          <Link to="/counter/$jobId" params={{ jobId: visit.jobId }}>
            {words.toJob}
          </Link>
        </>
      ) : null}
    </p>
  );
}

function FamilyField({ entry, change, fault }: Omit<ChoiceProps, 'familyFault'>) {
  const { takeIn: words } = useWords().counter;
  const families = useQuery(familiesQuery).data?.items ?? [];
  return (
    <Field label={words.family} hint={entry.serial.length < 2 ? undefined : words.isNew} error={fault}>
      {(input) => (
        <select {...input} value={entry.familyId} onChange={({ target }) => change({ familyId: target.value })}>
          <option value="">{words.chooseFamily}</option>
          {families.map(({ id, name, revision }) => (
            <option key={id} value={id} disabled={revision === null}>
              {revision === null ? `${name}, ${words.noSheet}` : name}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
