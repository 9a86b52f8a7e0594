import { useQuery } from '@tanstack/react-query';
import type { ProcedureDocument } from '#contracts/procedure-documents.ts';
import { useWords } from '../../words/words.tsx';
import { conditionWords } from './condition-words.ts';
import { namesQuery } from './procedures-queries.ts';

type Step = ProcedureDocument['steps'][number];

function Asked({ step, versionId }: { readonly step: Step; readonly versionId: string }) {
  const { procedures: words } = useWords();
  const names = useQuery(namesQuery(versionId)).data;
  return (
    <>
      {step.readings.length === 0 ? null : (
        <p>
          <b>{words.measured}</b>{' '}
          {step.readings
            .map(({ dimension, round }) => `${names?.dimensions.get(dimension) ?? dimension} (${words.rounds[round]})`)
            .join(', ')}
        </p>
      )}
      {step.fastenerSet === null ? null : (
        <p>
          <b>{words.fasteners}</b> {names?.fastenerSets.get(step.fastenerSet) ?? step.fastenerSet}
        </p>
      )}
      {step.putIn.length === 0 ? null : (
        <p>
          <b>{words.goesIn}</b> {step.putIn.map(({ name, count, where }) => `${count} × ${name}, ${where}`).join('; ')}
        </p>
      )}
      {step.photo === '' ? null : (
        <p>
          <b>{words.photo}</b> {step.photo}
        </p>
      )}
      {step.asks === null ? null : (
        <div>
          <b>{step.asks.words}</b>
          <ul className="asked">
            {step.asks.choices.map(({ code, words: told }) => (
              <li key={code}>{told}</li>
            ))}
          </ul>
        </div>
      )}
      {step.turnsEngine ? <p className="second">{words.turns}</p> : null}
      {step.secondPerson ? <p className="second">{words.twoPeople}</p> : null}
    </>
  );
}

function Pieces({ step }: { readonly step: Step }) {
  const { procedures: words } = useWords();
  if (step.pieces.length === 0) return null;
  return (
    <ul className="pieces-of">
      {step.pieces.map(({ name, expected, from, why, oneTime, matchedSet }) => (
        <li key={name}>
          <b className="num">{expected}</b> <span>{name}</span>{' '}
          <span className="note">
            {[from, why, oneTime ? words.usedOnce : '', matchedSet === null ? '' : words.together(matchedSet)]
              .filter((part) => part !== '')
              .join(' · ')}
          </span>
        </li>
      ))}
    </ul>
  );
}

interface StepsInFullProps {
  readonly document: ProcedureDocument;
  readonly versionId: string;
}

/** Every step of a version, to be read from first to last; on paper each has a box to tick, its cautions beside it. */
export function StepsInFull({ document, versionId }: StepsInFullProps) {
  const { procedures: words } = useWords();
  return (
    <ol className="steps-in-full">
      {document.steps.map((step, index) => (
        <li key={step.title}>
          {step.section !== '' && step.section !== document.steps[index - 1]?.section ? <h2>{step.section}</h2> : null}
          <div className="one-step">
            <div className="tick-box" aria-hidden="true">
              <i />
              {step.secondPerson ? <i className="of-two" /> : null}
            </div>
            <div className="step-told">
              <h3>
                <span className="num">{index + 1}</span> {step.title}
              </h3>
              {step.onlyIf.map((condition) => (
                <p key={JSON.stringify(condition)} className="only-if">
                  {conditionWords(document, condition, words)}
                </p>
              ))}
              {step.words === '' ? null : <p>{step.words}</p>}
              <Pieces step={step} />
              <Asked step={step} versionId={versionId} />
            </div>
            <div className="step-cautions">
              {step.cautions.map(({ hazard, words: told }) => (
                <p key={hazard + told}>
                  <b>{words.hazards[hazard]}.</b> {told}
                </p>
              ))}
            </div>
          </div>
        </li>
      ))}
    </ol>
  );
}
