import { unitsOfKind } from '#domain/units/unit-table.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { type FastenerStage, type FastenersProps, newAngle, newTorque } from './fastener-entry.ts';
import { FaultAt } from './fault-scope.tsx';
import { FigureField, SelectField } from './form-fields.tsx';
import { RowActs } from './row-acts.tsx';

/** To what a set is tightened, one stage after the other: each a torque or an angle. */
export function StageFields({ entry, change }: FastenersProps) {
  const words = useWords().specForms.fasteners;
  const { stages } = entry;
  const unit = stages.find(({ torque }) => torque !== null)?.torque?.unit ?? 'N.m';
  return (
    <fieldset className="group">
      <legend>{words.stages}</legend>
      <FaultAt at="/stages" />
      <ol className="entry-rows">
        {stages.map((stage, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a stage has nothing of its own but its place
          <li key={index} className="entry-row stage-row">
            <StageRow
              stage={stage}
              number={index + 1}
              unit={unit}
              onChange={(next) => change({ stages: stages.map((one, at) => (at === index ? next : one)) })}
            />
            <RowActs
              what={words.stage(index + 1)}
              list={stages}
              at={index}
              onChange={(next) => change({ stages: next })}
            />
          </li>
        ))}
      </ol>
      <Button disabled={stages.length >= 10} onClick={() => change({ stages: [...stages, newTorque(unit)] })}>
        {words.addStage}
      </Button>
    </fieldset>
  );
}

interface RowProps {
  readonly stage: FastenerStage;
  readonly number: number;
  /** That a torque begins with: all of a set are in one. */
  readonly unit: string;
  readonly onChange: (stage: FastenerStage) => void;
}

function StageRow({ stage, number, unit, onChange }: RowProps) {
  const words = useWords().specForms.fasteners;
  const { torque, angle } = stage;
  const by = angle === null ? 'torque' : 'angle';
  const at = `/stages/${number - 1}`;
  return (
    <>
      <b className="num entry-number">{number}</b>
      <SelectField
        label={words.by}
        value={by}
        options={[
          ['torque', words.torque],
          ['angle', words.angle],
        ]}
        onChange={(next) => onChange(next === 'angle' ? newAngle : newTorque(unit))}
      />
      {by === 'torque' ? (
        <FigureField
          label={words.torque}
          at={`${at}/torque`}
          figure={torque}
          unit={unit}
          units={unitsOfKind('torque')}
          onChange={(next) => onChange({ torque: next, angle: null })}
        />
      ) : (
        <FigureField
          label={words.angle}
          at={`${at}/angle`}
          figure={angle}
          unit="deg"
          units={unitsOfKind('angle')}
          onChange={(next) => onChange({ torque: null, angle: next })}
        />
      )}
    </>
  );
}
