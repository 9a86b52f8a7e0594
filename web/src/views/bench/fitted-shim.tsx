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

/** The shim that is in a valve: by micrometer, and apart from it what is printed on it. Kept when the field is left. */
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
    <div className="fitted-shim">
      <Field
        label={words.fitted}
        hint={words.fittedHint}
        big
        error={wrong(fitted) ?? faultAt(keeping.error, '/valves/0/thickness')}
      >
        {(input) => (
          <input
            {...input}
            className="num"
            inputMode="decimal"
            autoComplete="off"
            value={fitted}
            onChange={({ target }) => onFitted(target.value)}
            onBlur={keep}
            onKeyDown={({ key }) => {
              if (key !== 'Enter') return;
              keep();
              onEnter();
            }}
          />
        )}
      </Field>
      <Field label={words.printed} error={wrong(printed) ?? faultAt(keeping.error, '/valves/0/printed')}>
        {(input) => (
          <input
            {...input}
            className="num"
            inputMode="decimal"
            autoComplete="off"
            value={printed}
            onChange={({ target }) => setPrinted(target.value)}
            onBlur={keep}
          />
        )}
      </Field>
    </div>
  );
}
