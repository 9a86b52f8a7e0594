import type { LooseShims, LooseShimsFound } from '#contracts/loose-shims.ts';
import { useMedia } from '../../../app/use-media.ts';
import { LashBoard } from '../../../drawings/lash-board.tsx';
import type { LashInterval, LashValve, ShimSource } from '../../../drawings/lash-facts.ts';
import { Button } from '../../../kit/button.tsx';
import { useFormat } from '../../../words/format.ts';
import { useWords } from '../../../words/words.tsx';
import { fieldOf, headAsked, missingOf, namedValves, sideOf, valveNumbers } from './head-asked.ts';
import { FieldRow, ListField, TextField } from './pane-fields.tsx';
import { PaneFrame } from './pane-frame.tsx';
import { blank } from './typed.ts';
import { type Keyed, useKeyed } from './use-keyed.ts';
import { useLoose } from './use-loose.ts';

const usual: Keyed = {
  valve1: 'IN-L',
  side1: 'intake',
  valve2: 'IN-R',
  side2: 'intake',
  valve3: 'EX-L',
  side3: 'exhaust',
  valve4: 'EX-R',
  side4: 'exhaust',
};
const parts = ['valve', 'low', 'high', 'fitted'] as const;
const sides = ['intake', 'exhaust'] as const;

interface FieldsProps {
  readonly keyed: Keyed;
  readonly put: (more: Keyed) => void;
  readonly wrong: (field: string) => string | undefined;
}

function ValveRows({ keyed, put, wrong }: FieldsProps) {
  const words = useWords().loosePanes.head;
  const free = valveNumbers.find((at) => blank(keyed[`valve${at}`]));
  const empty = (at: number) => Object.fromEntries(parts.map((part) => [`${part}${at}`, '']));
  return (
    <fieldset className="pane-rows">
      <legend>{words.valves}</legend>
      <ol>
        {namedValves(keyed).map((at) => {
          const part = parts.map((one) => `${one}${at}`).find((name) => wrong(name) !== undefined);
          return (
            <FieldRow
              key={at}
              legend={keyed[`valve${at}`] ?? String(at)}
              keyed={keyed}
              put={put}
              error={part === undefined ? undefined : wrong(part)}
              wrongPart={part}
              onDrop={() => put(empty(at))}
              parts={[
                { name: `valve${at}`, label: words.valve },
                { name: `side${at}`, label: words.side, options: words.sides },
                { name: `low${at}`, label: words.low },
                { name: `high${at}`, label: words.high },
                { name: `fitted${at}`, label: words.fitted },
              ]}
            />
          );
        })}
      </ol>
      {free === undefined ? null : (
        <Button onClick={() => put({ [`valve${free}`]: words.valveOf(free), [`side${free}`]: 'intake' })}>
          {words.add}
        </Button>
      )}
    </fieldset>
  );
}

function HeadFields({ keyed, put, wrong }: FieldsProps) {
  const words = useWords().loosePanes.head;
  const of = (name: string) => ({ name, keyed, put, error: wrong(name) });
  const used = sides.filter((side) => namedValves(keyed).some((at) => sideOf(keyed, at) === side));
  return (
    <div className="loose-inputs">
      {used.flatMap((side) => [
        <TextField key={`${side}W`} {...of(`${side}Wanted`)} label={words.wanted[side]} unit="mm" />,
        <TextField key={`${side}L`} {...of(`${side}Low`)} label={words.least[side]} unit="mm" />,
        <TextField key={`${side}H`} {...of(`${side}High`)} label={words.most[side]} unit="mm" />,
      ])}
      <TextField {...of('diameter')} label={words.diameter} unit="mm" />
      <TextField {...of('thinnest')} label={words.thinnest} unit="mm" />
      <TextField {...of('thickest')} label={words.thickest} unit="mm" />
      <TextField {...of('uncertainty')} label={words.uncertainty} unit="mm" hint={words.uncertaintyHint} />
      <ListField {...of('shims')} label={words.shims} hint={words.shimsHint} />
    </div>
  );
}

/** All valves of a head at once: which shim goes where, out of those in the engine, at hand or to buy. */
export function WholeHeadPane() {
  const { loosePanes, looseBench } = useWords();
  const words = loosePanes.head;
  const { keyed, put, clear } = useKeyed('whole-head', usual);
  const body = headAsked(keyed);
  const { found, faults, error } = useLoose<LooseShimsFound>('shims', body);
  const wrong = (field: string) => {
    const fault = faults.all.find(({ pointer }) => fieldOf(pointer, keyed) === field);
    if (fault === undefined) return undefined;
    const said = faults.at(fault.pointer);
    const line = fault.pointer.split('/')[2];
    return field === 'shims' && said !== undefined && line !== undefined
      ? looseBench.linesOf(Number(line) + 1, said)
      : said;
  };
  return (
    <PaneFrame
      kind="whole-head"
      given={found === undefined ? undefined : body}
      missing={missingOf(keyed).map((field) =>
        words.nameOf(field, keyed[`valve${/\d+$/.exec(field)?.[0] ?? ''}`] ?? ''),
      )}
      faults={faults}
      error={error}
      clear={clear}
      cautions={words.cautions}
      fields={
        <>
          <ValveRows keyed={keyed} put={put} wrong={wrong} />
          <HeadFields keyed={keyed} put={put} wrong={wrong} />
        </>
      }
      found={found === undefined || body === undefined ? null : <HeadFound keyed={keyed} body={body} found={found} />}
    />
  );
}

interface FoundProps {
  readonly keyed: Keyed;
  readonly body: LooseShims;
  readonly found: LooseShimsFound;
}

type ValveFound = LooseShimsFound['valves'][number];

const intervalOf = (ends: { readonly low: string; readonly high: string | null } | null): LashInterval | null =>
  ends === null ? null : [Number(ends.low), Number(ends.high ?? ends.low)];

function sourceOf({ chosen }: ValveFound, said: ReturnType<typeof useWords>['loosePanes']['head']): ShimSource {
  if (chosen === null) return { kind: 'none', text: said.from.none };
  switch (chosen.from) {
    case 'engine':
      return { kind: 'moves', text: said.from.engine(chosen.name), valve: chosen.name };
    case 'bin':
      return { kind: 'bin', text: said.from.bin };
    case 'buy':
      return { kind: 'buy', text: said.from.buy };
    case 'stays':
      return { kind: 'stays', text: said.from.stays };
  }
}

function HeadFound({ keyed, body, found }: FoundProps) {
  const words = useWords().loosePanes.head;
  const format = useFormat();
  const phone = useMedia('(max-width: 420px)');
  const asked = body.heads[0]?.valves ?? [];
  const numbers = namedValves(keyed);
  const valves = found.valves.map((one, index): LashValve => {
    const { lash, fitted } = asked[index] ?? {};
    return {
      id: one.valve,
      name: one.valve,
      side: sideOf(keyed, numbers[index] ?? 1),
      lash: intervalOf(lash ?? null),
      out: one.before === 'out',
      adjustment: {
        kind: 'shim',
        fitted: fitted === undefined ? null : Number(fitted.thickness.value),
        chosen: one.chosen === null ? null : Number(one.chosen.thickness.value),
        after: intervalOf(one.after),
        source: sourceOf(one, words),
      },
    };
  });
  const interval = (ends: { low: string; high: string | null } | null | undefined) =>
    ends === null || ends === undefined
      ? '–'
      : `${format.decimal(ends.low)} – ${ends.high === null ? '…' : format.decimal(ends.high)}`;
  return (
    <>
      <p>
        <b>{words.counted(found.guaranteed, found.possible, found.out)}</b> {words.taken(found.fromBins, found.bought)}
      </p>
      <LashBoard stacked format={format.number} width={phone ? 300 : 360} valves={valves} />
      <ul className="pane-log">
        {found.valves.map((one, index) => (
          <li key={one.valve}>
            <b>{one.valve}</b>{' '}
            <span className="num">{words.lashFromTo(interval(asked[index]?.lash), interval(one.after))}</span>{' '}
            <span className={one.standing === 'out' ? 'hot' : 'quiet'}>{words.standings[one.standing]}</span>
            <p className="note">
              {one.words}
              {one.alternatives.length === 0 || one.chosen?.from === 'stays'
                ? ''
                : ` ${words.alternatives(one.alternatives.slice(0, 3).map(({ thickness }) => format.decimal(thickness.value)))}`}
            </p>
          </li>
        ))}
      </ul>
      {found.comeOut.length === 0 ? null : (
        <p className="note">
          {words.comeOut(
            found.comeOut.map(({ valve, thickness }) => `${format.decimal(thickness.value)} mm (${valve})`),
          )}
        </p>
      )}
    </>
  );
}
