import { useState } from 'react';
import type { ValveStanding } from '#contracts/assembly.ts';
import type { FittedShims } from '#contracts/head-shims.ts';
import { faultAt, useWrite } from '../../app/write.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { isThickness } from './lash-valves.ts';

interface FittedShimProps {
  readonly jobId: string;
  readonly valve: ValveStanding;
  readonly fitted: string;
  readonly may: boolean;
  readonly onFitted: (fitted: string) => void;
  readonly onEnter: () => void;
}

const inMillimetres = (text: string) => ({ value: text.trim().replace(',', '.'), unit: 'mm' });

/** The shim that is in a valve: by micrometer, and apart from it what is printed on it. Kept together when both are left. */
export function FittedShim({ jobId, valve, fitted, may, onFitted, onEnter }: FittedShimProps) {
  const words = useWords().assemble.lash;
  const keeping = useWrite();
  const [printed, setPrinted] = useState(valve.fitted?.printed?.value ?? '');
  const wrong = (text: string) => (text !== '' && !isThickness(text) ? words.fittedWrong : undefined);
  const same =
    Number(fitted.replace(',', '.')) === Number(valve.fitted?.thickness.value) &&
    Number(printed.replace(',', '.')) === Number(valve.fitted?.printed?.value ?? '0');
  const keep = () => {
    if (!may || same || !isThickness(fitted) || wrong(printed) !== undefined) return;
    const body: FittedShims = {
      valves: [
        {
          valve: valve.code,
          thickness: inMillimetres(fitted),
          ...(printed === '' ? {} : { printed: inMillimetres(printed) }),
        },
      ],
    };
    keeping.write({ path: `/jobs/${jobId}/fitted-shims`, body });
  };
  return (
    <fieldset
      className="fitted-shim"
      onBlur={({ currentTarget, relatedTarget }) => (currentTarget.contains(relatedTarget) ? undefined : keep())}
    >
      <Thickness
        label={words.fitted}
        hint={words.fittedHint}
        big
        error={wrong(fitted) ?? faultAt(keeping.error, '/valves/0/thickness')}
        value={fitted}
        onChange={onFitted}
        onEnter={() => {
          keep();
          onEnter();
        }}
      />
      <Thickness
        label={words.printed}
        error={wrong(printed) ?? faultAt(keeping.error, '/valves/0/printed')}
        value={printed}
        onChange={setPrinted}
        onEnter={keep}
      />
    </fieldset>
  );
}

interface ThicknessProps {
  readonly label: string;
  readonly hint?: string;
  readonly big?: boolean;
  readonly error: string | undefined;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly onEnter: () => void;
}

function Thickness({ value, onChange, onEnter, ...field }: ThicknessProps) {
  return (
    <Field {...field}>
      {(input) => (
        <input
          {...input}
          className="num"
          inputMode="decimal"
          autoComplete="off"
          value={value}
          onChange={({ target }) => onChange(target.value)}
          onKeyDown={({ key }) => (key === 'Enter' ? onEnter() : undefined)}
        />
      )}
    </Field>
  );
}
