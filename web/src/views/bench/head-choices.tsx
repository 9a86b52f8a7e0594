import type { HeadsShimsAnswer } from '#contracts/head-shims.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

type Head = HeadsShimsAnswer['heads'][number];
type Valve = Head['valves'][number];

interface HeadChoicesProps {
  readonly answer: HeadsShimsAnswer;
  /** The job at this bench; others are named. */
  readonly own: string;
  /** The clerk looked, and the shim is not in its bin. */
  readonly onNotThere: (lotId: string) => void;
}

/** Valve by valve: the lash now, the shim that goes in, where it comes from, the lash then; and what else would do. */
export function HeadChoices({ answer, own, onNotThere }: HeadChoicesProps) {
  const words = useWords().assemble.lash.head;
  return answer.heads.map((head) => (
    <section key={head.jobId} className="head-choices">
      {head.jobId === own ? null : <h2>{words.besideOne(head.job, head.serial)}</h2>}
      <ul>
        {head.valves.map((valve) => (
          <ValveChoice key={valve.valve} valve={valve} onNotThere={onNotThere} />
        ))}
      </ul>
      {head.comeOut.length === 0 ? null : <p className="note">{words.comeOut(head.comeOut)}</p>}
      {head.calledOff.length === 0 ? null : <p className="note">{words.calledOff(head.calledOff)}</p>}
    </section>
  ));
}

function ValveChoice({ valve, onNotThere }: { readonly valve: Valve; readonly onNotThere: (lotId: string) => void }) {
  const { assemble } = useWords();
  const words = assemble.lash;
  const format = useFormat();
  const { name, chosen, why, lash, alternatives } = valve;
  const interval = ({ low, high }: Valve['lash']) =>
    `${format.decimal(low)} – ${high === null ? '…' : format.decimal(high)}`;
  return (
    <li>
      <p>
        <b className="valve-name">{name}</b>
        {chosen === null ? null : <b className="num"> {words.proposal(format.decimal(chosen.thickness.value))}</b>}
        {chosen === null ? null : <span className="note"> {chosen.words}</span>}
      </p>
      {chosen === null ? (
        <p className={why === null ? 'note' : 'hot'}>{why ?? words.head.screw}</p>
      ) : (
        <p className="num">
          {words.head.lashFromTo(interval(lash), interval(chosen.after))}{' '}
          <span className={chosen.standing === 'out' ? 'hot' : 'quiet'}>{words[chosen.standing]}</span>
        </p>
      )}
      {alternatives.length === 0 || chosen?.from === 'stays' ? null : (
        <p className="note">
          {words.head.alternatives(alternatives.map((one) => `${format.decimal(one.thickness.value)} (${one.words})`))}
        </p>
      )}
      {chosen?.from === 'bin' && chosen.lotId !== null ? (
        <Button onClick={() => onNotThere(chosen.lotId ?? '')}>{words.head.notThere}</Button>
      ) : null}
    </li>
  );
}
