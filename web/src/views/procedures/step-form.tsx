import { hazards } from '#domain/procedures/document.ts';
import { useWords } from '../../words/words.tsx';
import { LinesField, SelectField, TextField } from '../specs/form-fields.tsx';
import { ListEditor } from './list-editor.tsx';
import { BranchFields } from './step-branches.tsx';
import { PieceFields } from './step-pieces.tsx';
import type { StepFormProps, WrittenStep } from './written-step.ts';

const rounds = ['as received', 'after work', 'as built'] as const;

/** Everything a step says and asks for. */
export function StepForm({ step, before, onChange }: StepFormProps) {
  const { edit: words, hazards: hazardWords, rounds: roundWords } = useWords().procedures;
  const set = (part: Partial<WrittenStep>) => onChange({ ...step, ...part });
  return (
    <div className="step-form form">
      <TextField label={words.section} value={step.section} onChange={(section) => set({ section })} />
      <TextField label={words.title} value={step.title} onChange={(title) => set({ title })} />
      <LinesField label={words.words} value={step.words} onChange={(told) => set({ words: told })} />
      <ListEditor<WrittenStep['cautions'][number]>
        title={words.cautions}
        hint={words.cautionsHint}
        items={step.cautions}
        fresh={{ hazard: 'other', words: '' }}
        onChange={(cautions) => set({ cautions: [...cautions] })}
        row={(caution, change) => (
          <>
            <SelectField
              label={words.hazard}
              value={caution.hazard}
              options={hazards.map((hazard) => [hazard, hazardWords[hazard]] as const)}
              onChange={(hazard) => change({ ...caution, hazard: hazard ?? 'other' })}
            />
            <LinesField
              label={words.cautionWords}
              value={caution.words}
              onChange={(told) => change({ ...caution, words: told })}
            />
          </>
        )}
      />
      <PieceFields step={step} set={set} />
      <ListEditor<WrittenStep['readings'][number]>
        title={words.readings}
        hint={words.readingsHint}
        items={step.readings}
        fresh={{ dimension: '', round: 'as received' }}
        onChange={(readings) => set({ readings: [...readings] })}
        row={(reading, change) => (
          <>
            <TextField
              label={words.dimension}
              value={reading.dimension}
              onChange={(dimension) => change({ ...reading, dimension })}
            />
            <SelectField
              label={words.round}
              value={reading.round}
              options={rounds.map((round) => [round, roundWords[round]] as const)}
              onChange={(round) => change({ ...reading, round: round ?? 'as received' })}
            />
          </>
        )}
      />
      <TextField
        label={words.fastenerSet}
        hint={words.fastenerSetHint}
        value={step.fastenerSet ?? ''}
        onChange={(set_) => set({ fastenerSet: set_.trim() === '' ? null : set_ })}
      />
      <TextField label={words.photo} hint={words.photoHint} value={step.photo} onChange={(photo) => set({ photo })} />
      <label className="tick">
        <input
          type="checkbox"
          checked={step.secondPerson}
          onChange={({ target }) => set({ secondPerson: target.checked })}
        />
        {words.secondPerson}
      </label>
      <label className="tick">
        <input
          type="checkbox"
          checked={step.turnsEngine === true}
          onChange={({ target }) => set({ turnsEngine: target.checked ? true : undefined })}
        />
        {words.turnsEngine}
      </label>
      <BranchFields step={step} before={before} set={set} />
    </div>
  );
}
