import type { LooseRingClock, LooseRingClockFound } from '#contracts/loose-bench.ts';
import { useMedia } from '../../../app/use-media.ts';
import { RingClock } from '../../../drawings/ring-clock.tsx';
import { Button } from '../../../kit/button.tsx';
import { useWords } from '../../../words/words.tsx';
import { FieldRow, ListField, TextField } from './pane-fields.tsx';
import { PaneFrame } from './pane-frame.tsx';
import { blank, given, linesOf, plain, quantityOf } from './typed.ts';
import { type Keyed, useKeyed } from './use-keyed.ts';
import { useLoose } from './use-loose.ts';

const most = 8;
const ringNumbers = Array.from({ length: most }, (_, index) => index + 1);

const fourStroke: Keyed = {
  name1: 'Top ring',
  part1: 'compression',
  name2: 'Second ring',
  part2: 'compression',
  name3: 'Spacer',
  part3: 'spacer',
  name4: 'Upper rail',
  part4: 'rail',
  name5: 'Lower rail',
  part5: 'rail',
  zones: '80 100 over the pin\n260 280 over the pin\n350 10 thrust side\n170 190 thrust side',
  least: '90',
  leastRail: '30',
  start: '45',
  spacerOffset: '90',
  railOffset: '45',
};
const noRings = Object.fromEntries(
  ringNumbers.flatMap((at) => ['name', 'pin', 'maker', 'placed'].map((part) => [`${part}${at}`, ''])),
);
const twoStroke: Keyed = {
  ...noRings,
  name1: 'Top ring',
  part1: 'compression',
  pin1: '150',
  name2: 'Second ring',
  part2: 'compression',
  pin2: '210',
  zones: '',
  least: '',
  leastRail: '',
};

const partOf = (text: string | undefined) => (text === 'spacer' || text === 'rail' ? text : 'compression');
const named = (keyed: Keyed) => ringNumbers.filter((at) => !blank(keyed[`name${at}`]));

function bodyOf(keyed: Keyed): LooseRingClock | undefined {
  const rings = named(keyed);
  if (rings.length === 0) return undefined;
  return {
    rings: rings.map((at) => ({
      code: keyed[`name${at}`]?.trim() ?? '',
      part: partOf(keyed[`part${at}`]),
      ...given('pin', keyed[`pin${at}`], 'deg'),
      ...given('makersAngle', keyed[`maker${at}`], 'deg'),
      ...given('placed', keyed[`placed${at}`], 'deg'),
    })),
    zones: linesOf(keyed.zones).map(({ cells: [from = '', to = '?', ...why] }) => ({
      from: quantityOf(from, 'deg'),
      to: quantityOf(to, 'deg'),
      reason: why.join(' '),
    })),
    ...given('leastSeparation', keyed.least, 'deg'),
    ...given('railOffset', keyed.leastRail, 'deg'),
    rule: {
      ...given('start', keyed.start, 'deg'),
      ...given('spacerOffset', keyed.spacerOffset, 'deg'),
      ...given('railOffset', keyed.railOffset, 'deg'),
    },
  };
}

interface RowsProps {
  readonly keyed: Keyed;
  readonly put: (more: Keyed) => void;
  readonly faults: ReturnType<typeof useLoose>['faults'];
}

const partsByPointer: Readonly<Record<string, string>> = {
  makersAngle: 'maker',
  pin: 'pin',
  placed: 'placed',
  code: 'name',
};

function RingRows({ keyed, put, faults }: RowsProps) {
  const words = useWords().loosePanes.rings;
  const rings = named(keyed);
  const free = ringNumbers.find((at) => blank(keyed[`name${at}`]));
  return (
    <fieldset className="pane-rows">
      <legend>{words.rings}</legend>
      <ol>
        {rings.map((at, index) => {
          const pointer = `/rings/${index}`;
          const fault = faults.all.find((one) => one.pointer === pointer || one.pointer.startsWith(`${pointer}/`));
          const part = partsByPointer[fault?.pointer.split('/')[3] ?? ''];
          return (
            <FieldRow
              key={at}
              legend={keyed[`name${at}`] ?? String(at)}
              keyed={keyed}
              put={put}
              error={faults.at(pointer)}
              wrongPart={part === undefined ? undefined : `${part}${at}`}
              onDrop={() => put({ [`name${at}`]: '', [`pin${at}`]: '', [`maker${at}`]: '', [`placed${at}`]: '' })}
              parts={[
                { name: `name${at}`, label: words.name },
                { name: `part${at}`, label: words.part, options: words.parts },
                { name: `pin${at}`, label: words.pin },
                { name: `maker${at}`, label: words.maker },
                { name: `placed${at}`, label: words.placed },
              ]}
            />
          );
        })}
      </ol>
      <div className="pane-acts">
        {free === undefined ? null : (
          <Button onClick={() => put({ [`name${free}`]: words.ringOf(free), [`part${free}`]: 'compression' })}>
            {words.add}
          </Button>
        )}
        <Button onClick={() => put({ ...noRings, ...fourStroke })}>{words.fourStroke}</Button>
        <Button onClick={() => put(twoStroke)}>{words.twoStroke}</Button>
      </div>
    </fieldset>
  );
}

/** Ring gaps on the clock: as placed, by pin, by the maker, else by rule of thumb; every reason against them. */
export function RingClockPane() {
  const { loosePanes, looseBench } = useWords();
  const words = loosePanes.rings;
  const { keyed, put, clear } = useKeyed('ring-clock', fourStroke);
  const body = bodyOf(keyed);
  const { found, faults, error } = useLoose<LooseRingClockFound>('ring-clock', body);
  const of = (name: string, pointer: string) => ({ name, keyed, put, error: faults.at(pointer), unit: '°' });
  const zone = faults.all.find(({ pointer }) => pointer.startsWith('/zones/'));
  const zoneError =
    zone === undefined
      ? undefined
      : looseBench.linesOf(Number(zone.pointer.split('/')[2]) + 1, faults.at(zone.pointer) ?? zone.detail);
  return (
    <PaneFrame
      kind="ring-clock"
      given={found === undefined ? undefined : body}
      missing={body === undefined ? [words.name.toLowerCase()] : []}
      faults={faults}
      error={error}
      clear={clear}
      cautions={words.cautions}
      fields={
        <>
          <RingRows keyed={keyed} put={put} faults={faults} />
          <div className="loose-inputs">
            <TextField {...of('least', '/leastSeparation')} label={words.least} />
            <TextField {...of('leastRail', '/railOffset')} label={words.leastRail} />
            <TextField {...of('start', '/rule/start')} label={words.start} />
            <TextField {...of('spacerOffset', '/rule/spacerOffset')} label={words.spacerOffset} />
            <TextField {...of('railOffset', '/rule/railOffset')} label={words.railOffset} />
            <ListField
              name="zones"
              keyed={keyed}
              put={put}
              error={zoneError}
              label={words.zones}
              hint={words.zonesHint}
              rows={4}
            />
          </div>
        </>
      }
      found={found === undefined || body === undefined ? null : <RingsFound body={body} found={found} />}
    />
  );
}

function RingsFound({ body, found }: { readonly body: LooseRingClock; readonly found: LooseRingClockFound }) {
  const words = useWords().loosePanes.rings;
  const phone = useMedia('(max-width: 420px)');
  return (
    <>
      <RingClock
        size={phone ? 300 : 380}
        gaps={found.rings.map(({ code, well, angle }, index) => ({
          mark: String(index + 1),
          name: code,
          angle: angle === null ? null : Number(angle.value),
          allowed: well,
        }))}
        forbidden={(body.zones ?? []).map(({ from, to }) => ({
          from: Number(plain(from.value)),
          to: Number(plain(to.value)),
        }))}
      />
      <ol className="pane-rings">
        {found.rings.map(({ code, angle, by, well, words: said }) => (
          <li key={code}>
            <b>{code}</b> {angle === null ? null : <b className="num">{angle.value}°</b>}{' '}
            {by === null ? null : <span className="note">{words.by[by]}</span>}
            <p className={well ? 'note' : 'hot'}>{well ? words.well : said.join(' ')}</p>
          </li>
        ))}
      </ol>
    </>
  );
}
