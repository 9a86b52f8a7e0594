import { useState } from 'react';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import type { Measuring } from './use-measuring.ts';

interface TemperatureDialogProps {
  readonly measuring: Measuring;
  readonly open: boolean;
  readonly onClose: () => void;
}

const isDegrees = (text: string): boolean => /^-?\d{1,3}([.,]\d{1,2})?$/.test(text.trim());

function TemperatureForm({ measuring, onClose }: Omit<TemperatureDialogProps, 'open'>) {
  const { measure } = useWords();
  const words = measure.temperature;
  const [part, setPart] = useState(measuring.temperature.part);
  const [gauge, setGauge] = useState(measuring.temperature.gauge);
  const partWrong = part.trim() !== '' && !isDegrees(part);
  const gaugeWrong = gauge.trim() !== '' && !isDegrees(gauge);
  const say = (next: { part: string; gauge: string }) => {
    measuring.sayTemperature(next);
    onClose();
  };
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!partWrong && !gaugeWrong) say({ part: part.trim(), gauge: gauge.trim() });
      }}
    >
      <p>{words.why}</p>
      <div className="pair">
        <Field label={words.part} big error={partWrong ? words.wrong : undefined}>
          {(input) => (
            <input
              {...input}
              // biome-ignore lint/a11y/noAutofocus: the sheet was opened to type this
              autoFocus
              inputMode="decimal"
              value={part}
              onFocus={({ target }) => target.select()}
              onChange={(event) => setPart(event.target.value)}
            />
          )}
        </Field>
        <Field label={words.gauge} big error={gaugeWrong ? words.wrong : undefined}>
          {(input) => (
            <input
              {...input}
              inputMode="decimal"
              value={gauge}
              onFocus={({ target }) => target.select()}
              onChange={(event) => setGauge(event.target.value)}
            />
          )}
        </Field>
      </div>
      <div className="dialog-acts">
        <Button big kind="main" type="submit" disabled={part.trim() === '' || partWrong || gaugeWrong}>
          {words.say}
        </Button>
        <Button big onClick={() => say({ part: '', gauge: '' })}>
          {words.forget}
        </Button>
      </div>
    </form>
  );
}

/** How warm part and gauge are: said once, shown beside every figure. */
export function TemperatureDialog({ measuring, open, onClose }: TemperatureDialogProps) {
  const { measure } = useWords();
  return (
    <Dialog title={measure.temperature.title} open={open} onClose={onClose}>
      <TemperatureForm measuring={measuring} onClose={onClose} />
    </Dialog>
  );
}
