import type { LooseFasteners, LooseFastenersFound } from '#contracts/loose-fasteners.ts';
import { readPastedPositions } from '#domain/spec-sheet/pasted-positions.ts';
import { useMedia } from '../../../app/use-media.ts';
import { BoltMap } from '../../../drawings/bolt-map.tsx';
import { BoltSheet } from '../../../kit/bolt-sheet.tsx';
import { quantityText } from '../../../words/quantity-text.ts';
import { useWords } from '../../../words/words.tsx';
import { fastenersAsked, mostPositions } from './fastener-asked.ts';
import { ChoiceField, ListField, TextField } from './pane-fields.tsx';
import { PaneFrame } from './pane-frame.tsx';
import { blank } from './typed.ts';
import { type Keyed, useKeyed } from './use-keyed.ts';
import { type Faults, useLoose } from './use-loose.ts';

const usual: Keyed = {
  pattern: 'circle',
  count: '',
  diameter: '',
  columns: '',
  rows: '2',
  ordering: 'generated',
  reuse: 'reuse',
};

interface FieldsProps {
  readonly keyed: Keyed;
  readonly put: (more: Keyed) => void;
  readonly wrong: (field: string, pointer?: string) => string | undefined;
}

function PatternFields({ keyed, put, wrong }: FieldsProps) {
  const words = useWords().loosePanes.fasteners;
  const of = (name: string) => ({ name, keyed, put, error: wrong(name) });
  return (
    <>
      <ChoiceField {...of('pattern')} label={words.pattern} options={words.patterns} />
      {keyed.pattern === 'circle' ? (
        <>
          <TextField {...of('count')} label={words.count} />
          <TextField {...of('diameter')} label={words.diameter} unit="mm" />
        </>
      ) : null}
      {keyed.pattern === 'rectangle' ? (
        <>
          <TextField {...of('columns')} label={words.columns} />
          <TextField {...of('rows')} label={words.rows} />
          <TextField {...of('across')} label={words.across} unit="mm" />
          <TextField {...of('up')} label={words.up} unit="mm" />
        </>
      ) : null}
      {keyed.pattern === 'drawn' ? <DrawnPattern keyed={keyed} put={put} /> : null}
      {keyed.pattern === 'pasted' || keyed.pattern === 'drawn' ? (
        <ListField
          {...of('positions')}
          error={wrong('positions', '/positions')}
          label={words.positions}
          hint={words.positionsHint}
        />
      ) : null}
      <ChoiceField {...of('ordering')} label={words.ordering} options={words.orderings} />
      {keyed.ordering === 'typed' ? <TextField {...of('order')} label={words.order} /> : null}
    </>
  );
}

/** The same coordinates, set by hand on a squared sheet. */
function DrawnPattern({ keyed, put }: Pick<FieldsProps, 'keyed' | 'put'>) {
  const read = readPastedPositions(keyed.positions ?? '', 'mm');
  const places = read.ok ? read.positions.map(({ x, y }) => ({ x: Number(x), y: Number(y) })) : [];
  return (
    <BoltSheet
      most={mostPositions}
      places={places}
      onPlaces={(next) => put({ positions: next.map(({ x, y }) => `${x} ${y}`).join('\n') })}
    />
  );
}

function SetFields({ keyed, put, wrong }: FieldsProps) {
  const words = useWords().loosePanes.fasteners;
  const of = (name: string, pointer: string) => ({ name, keyed, put, error: wrong(name, pointer) });
  return (
    <>
      <TextField {...of('thread', '/thread')} label={words.thread} />
      <TextField {...of('grade', '/propertyClass')} label={words.grade} />
      <ChoiceField {...of('reuse', '/reuse')} label={words.reuse} options={words.reuses} />
      <ListField {...of('stages', '/stages')} label={words.stages} hint={words.stagesHint} rows={4} />
      <ListField {...of('pulls', '/pulls')} label={words.pulls} hint={words.pullsHint} rows={5} />
    </>
  );
}

/** Which line of a list a server's refusal is about, told in front of it. */
function useLined(faults: Faults) {
  const { looseBench } = useWords();
  return (pointer: string): string | undefined => {
    const said = faults.at(pointer);
    const fault = faults.all.find((one) => one.pointer.startsWith(`${pointer}/`));
    const line = fault?.pointer.slice(pointer.length + 1).split('/')[0];
    return said === undefined || line === undefined ? said : looseBench.linesOf(Number(line) + 1, said);
  };
}

/** A pattern of bolts: order, stages, what the bolt stands, and a log held against all of it. */
export function FastenerSetPane() {
  const { loosePanes } = useWords();
  const words = loosePanes.fasteners;
  const { keyed, put, clear } = useKeyed('fastener-set', usual);
  const untouched =
    keyed.pattern === 'circle'
      ? blank(keyed.count) || blank(keyed.diameter)
      : keyed.pattern === 'rectangle'
        ? blank(keyed.columns) || blank(keyed.across)
        : blank(keyed.positions);
  const asked = fastenersAsked(keyed, loosePanes.patternWords);
  const body = untouched || !asked.ok ? undefined : asked.body;
  const { found, faults, error } = useLoose<LooseFastenersFound>('fasteners', body);
  const lined = useLined(faults);
  const wrong = (field: string, pointer?: string) => {
    if (!untouched && !asked.ok && asked.field === field) return asked.detail;
    return pointer === undefined ? undefined : lined(pointer);
  };
  return (
    <PaneFrame
      kind="fastener-set"
      given={found === undefined ? undefined : body}
      missing={untouched ? [words.where] : []}
      faults={!untouched && !asked.ok ? { ...faults, all: [{ pointer: asked.field, detail: asked.detail }] } : faults}
      error={error}
      clear={clear}
      cautions={words.cautions}
      fields={
        <div className="loose-inputs">
          <PatternFields keyed={keyed} put={put} wrong={wrong} />
          <SetFields keyed={keyed} put={put} wrong={wrong} />
        </div>
      }
      found={found === undefined || body === undefined ? null : <FastenersFound body={body} found={found} />}
    />
  );
}

function FastenersFound({ body, found }: { readonly body: LooseFasteners; readonly found: LooseFastenersFound }) {
  const words = useWords().loosePanes.fasteners;
  const phone = useMedia('(max-width: 420px)');
  const next = found.next;
  return (
    <>
      <BoltMap
        width={phone ? 300 : 380}
        stage={next?.stage ?? Math.max(1, found.stages.length)}
        stages={found.stages.length}
        next={next === null ? null : String(next.fastener)}
        bolts={body.positions.map(({ number, x, y }) => ({
          id: String(number),
          number: String(number),
          place: found.tightening.indexOf(number) + 1,
          x: Number(x.value),
          y: Number(y.value),
          stagesDone: found.stages.filter(({ done }) => done.includes(number)).length,
        }))}
      />
      <p className="note">{words.lettered}</p>
      <dl className="pane-orders">
        <dt>{words.tightening}</dt>
        <dd className="num">{found.tightening.join(' ')}</dd>
        <dt>{words.loosening}</dt>
        <dd className="num">{found.loosening.join(' ')}</dd>
      </dl>
      <ol className="pane-stages">
        {found.stages.map(({ stage, figure, guard, missing }) => (
          <li key={stage}>
            <b>{words.stage(stage, quantityText(figure))}</b>{' '}
            <span className="note">{words.left(missing.length, body.positions.length)}</span>
            <p className={guard.kind === 'warn' ? 'hot' : 'note'}>
              {guard.words ?? (figure.unit === 'deg' ? words.angleNotJudged : words.guards[guard.kind])}
            </p>
          </li>
        ))}
      </ol>
      {found.torqueToYield ? <p className="hot">{words.toYield}</p> : null}
      <p>{words.after[found.afterLoosening]}</p>
      {found.log.length === 0 ? null : <LogFound found={found} />}
    </>
  );
}

function LogFound({ found }: { readonly found: LooseFastenersFound }) {
  const words = useWords().loosePanes.fasteners;
  const refused = found.log.flatMap((one, index) => (one.taken ? [] : [{ ...one, line: index + 1 }]));
  const { next } = found;
  return (
    <section aria-label={words.log}>
      <h3>{words.log}</h3>
      <p>{words.taken(found.log.length - refused.length, found.log.length)}</p>
      <ul className="pane-log">
        {refused.map(({ line, fastener, stage, words: said }) => (
          <li key={line} className="hot">
            {words.notTaken(line, fastener, stage)} {said}
          </li>
        ))}
      </ul>
      <p>
        <b>{next === null ? words.complete : words.next(next.fastener, next.stage, quantityText(next.figure))}</b>
      </p>
    </section>
  );
}
