import { useQuery } from '@tanstack/react-query';
import type { Instruments } from '#contracts/instruments.ts';
import type { LooseWrench, LooseWrenchFound } from '#contracts/loose-fasteners.ts';
import { read } from '../../../app/api.ts';
import { dayIn } from '../../../app/today.ts';
import { WrenchAdapter } from '../../../drawings/wrench-adapter.tsx';
import { Button } from '../../../kit/button.tsx';
import { quantityText } from '../../../words/quantity-text.ts';
import { useWords } from '../../../words/words.tsx';
import { ChoiceField, ListField, TextField } from './pane-fields.tsx';
import { PaneFrame } from './pane-frame.tsx';
import { blank, linesOf, plain, quantityOf } from './typed.ts';
import { type Keyed, useKeyed } from './use-keyed.ts';
import { useLoose } from './use-loose.ts';

const usual: Keyed = { unit: 'N.m', adapter: 'no', angle: '0', day: dayIn() };
const torqueUnits = { 'N.m': 'N·m', 'lbf.ft': 'lbf·ft', 'lbf.in': 'lbf·in', 'kgf.m': 'kgf·m' };

/** A line a wrench: what it is called, its largest setting in N·m, its calibration's last day, pulls since. */
function wrenchesOf(text: string | undefined): LooseWrench['wrenches'] {
  return linesOf(text).map(({ cells: [code = '', largest = '', until = '-', pulls] }) => ({
    code,
    largest: quantityOf(largest === '' ? '?' : largest, 'N.m'),
    calibratedUntil: until === '-' ? null : until,
    ...(pulls === undefined ? {} : { pulls: Number(plain(pulls)) }),
  }));
}

function bodyOf(keyed: Keyed): LooseWrench | undefined {
  const on = keyed.adapter === 'yes';
  if (blank(keyed.torque) || blank(keyed.day)) return undefined;
  if (on && (blank(keyed.wrenchLength) || blank(keyed.adapterLength) || blank(keyed.angle))) return undefined;
  return {
    torque: quantityOf(keyed.torque, keyed.unit ?? 'N.m'),
    day: keyed.day?.trim() ?? '',
    wrenches: wrenchesOf(keyed.wrenches),
    ...(on
      ? {
          adapter: {
            wrenchLength: quantityOf(keyed.wrenchLength, 'mm'),
            adapterLength: quantityOf(keyed.adapterLength, 'mm'),
            angle: quantityOf(keyed.angle, 'deg'),
          },
        }
      : {}),
  };
}

/** The shop's own wrenches, from the register of gauges. */
function FromRegister({ put }: { readonly put: (more: Keyed) => void }) {
  const words = useWords().loosePanes.wrench;
  const gauges = useQuery({
    queryKey: ['instruments'],
    queryFn: ({ signal }) => read<Instruments>('/instruments', signal),
  });
  const lines = (gauges.data?.items ?? []).flatMap((one) =>
    one.kind === 'torque' && one.range.high.unit === 'N.m'
      ? [`${one.code} ${one.range.high.value} ${one.calibrationDueOn ?? '-'}`]
      : [],
  );
  return lines.length === 0 ? null : (
    <div className="pane-acts">
      <Button onClick={() => put({ wrenches: lines.join('\n') })}>{words.fromRegister}</Button>
    </div>
  );
}

/** What to set when an adapter is on the wrench, and which wrench to take for it. */
export function WrenchPane() {
  const words = useWords().loosePanes.wrench;
  const { keyed, put, clear } = useKeyed('wrench', usual);
  const body = bodyOf(keyed);
  const { found, faults, error } = useLoose<LooseWrenchFound>('wrench', body);
  const on = keyed.adapter === 'yes';
  const of = (name: string, pointer: string) => ({ name, keyed, put, error: faults.at(pointer) });
  const whole = faults.all.find(({ pointer }) => pointer === '/adapter')?.detail;
  const missing = [
    ...(blank(keyed.torque) ? [words.torque] : []),
    ...(on && blank(keyed.wrenchLength) ? [words.wrenchLength] : []),
    ...(on && blank(keyed.adapterLength) ? [words.adapterLength] : []),
  ];
  return (
    <PaneFrame
      kind="wrench"
      given={found === undefined ? undefined : body}
      missing={missing.map((one) => one.toLowerCase())}
      faults={faults}
      error={error}
      clear={clear}
      cautions={words.cautions}
      fields={
        <>
          <div className="loose-inputs">
            <TextField {...of('torque', '/torque')} label={words.torque} />
            <ChoiceField {...of('unit', '/torque/unit')} label={words.unit} options={torqueUnits} />
            <ChoiceField {...of('adapter', '/none')} label={words.adapter} options={words.adapters} />
            {on ? (
              <>
                <TextField {...of('wrenchLength', '/adapter/wrenchLength')} label={words.wrenchLength} unit="mm" />
                <TextField {...of('adapterLength', '/adapter/adapterLength')} label={words.adapterLength} unit="mm" />
                <TextField
                  {...of('angle', '/adapter/angle')}
                  error={faults.at('/adapter/angle') ?? whole}
                  label={words.angle}
                  unit="°"
                  hint={words.angleHint}
                />
              </>
            ) : null}
            <TextField {...of('day', '/day')} label={words.day} />
            <ListField {...of('wrenches', '/wrenches')} label={words.wrenches} hint={words.wrenchesHint} rows={4} />
          </div>
          <FromRegister put={put} />
          {on ? (
            <div className="loose-drawing">
              <WrenchAdapter
                wrench={Number(plain(keyed.wrenchLength ?? ''))}
                adapter={Number(plain(keyed.adapterLength ?? ''))}
                angle={Number(plain(keyed.angle ?? ''))}
                words={words.drawing}
              />
            </div>
          ) : null}
        </>
      }
      found={found === undefined ? null : <WrenchFound found={found} adapter={on} torque={body?.torque} />}
    />
  );
}

interface FoundProps {
  readonly found: LooseWrenchFound;
  readonly adapter: boolean;
  readonly torque: LooseWrench['torque'] | undefined;
}

function WrenchFound({ found, adapter, torque }: FoundProps) {
  const words = useWords().loosePanes.wrench;
  return (
    <>
      <dl className="reckon-results">
        <div data-figure="setting">
          <dt>{words.setting}</dt>
          <dd>
            <span className="num nowrap">{quantityText(found.setting)}</span>
            {adapter && torque !== undefined ? <span className="note">{words.gets(quantityText(torque))}</span> : null}
          </dd>
        </div>
      </dl>
      {found.wrenches.length === 0 ? null : (
        <>
          <p>
            <b className={found.take === null ? 'hot' : ''}>
              {found.take === null ? words.noneFits : words.take(found.take)}
            </b>
          </p>
          <ul className="pane-log">
            {found.wrenches.map(({ code, fits, smallest, largest, deviation, faults }) => (
              <li key={code}>
                <b>{code}</b>{' '}
                <span className="note">
                  {words.range(
                    quantityText(smallest),
                    quantityText(largest),
                    String(Math.round(deviation * 1000) / 10),
                  )}
                </span>{' '}
                {fits ? words.fits : <span className="hot">{faults.join(' ')}</span>}
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}
