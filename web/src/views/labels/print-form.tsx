import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { DrawnLabels, LabelAsked, SymbolKind } from '#contracts/labels.ts';
import { labelStocks, perPage } from '#domain/labels/stock.ts';
import { send, sendForFile } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { NamedOptions } from '../../kit/named-options.tsx';
import { useWords } from '../../words/words.tsx';
import { keepSettings, keptSettings, millimetresOf, type PrintSettings, printOf, stockOf } from './print-settings.ts';
import { SheetPicker } from './sheet-picker.tsx';
import './labels.css';

interface PrintFormProps {
  readonly labels: readonly LabelAsked[];
  readonly onClose?: () => void;
}

/** Saves a file under a name, as a link to it would. */
function saveAs(file: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** On what, with which symbol, from which label on: then the labels as a PDF. */
export function PrintForm({ labels, onClose }: PrintFormProps) {
  const words = useWords().labels;
  const [settings, setSettings] = useState(keptSettings);
  const [start, setStart] = useState(1);
  const [state, setState] = useState<{ readonly busy: boolean; readonly error: Error | null; readonly saved: boolean }>(
    {
      busy: false,
      error: null,
      saved: false,
    },
  );
  const stock = stockOf(settings.stock);
  const many = stock === undefined ? 1 : perPage(stock);
  const change = (part: Partial<PrintSettings>) => {
    setSettings((before) => ({ ...before, ...part }));
    setState({ busy: false, error: null, saved: false });
    if (part.stock !== undefined) setStart(1);
  };
  const count = labels.reduce((sum, { copies = 1 }) => sum + copies, 0);
  const asked = printOf({ labels: [...labels], start: Math.min(start, many), ...settings });
  const ready = labels.length > 0 && asked !== undefined && !state.busy;
  const print = async (event: FormEvent) => {
    event.preventDefault();
    if (!ready) return;
    setState({ busy: true, error: null, saved: false });
    try {
      saveAs(await sendForFile('/labels/sheet', asked), words.file);
      keepSettings(settings);
      setState({ busy: false, error: null, saved: true });
    } catch (error) {
      setState({ busy: false, error: error instanceof Error ? error : new Error(String(error)), saved: false });
    }
  };
  return (
    <form className="print-labels" onSubmit={print}>
      <Preview labels={labels} settings={settings} />
      <Field label={words.stock}>
        {(input) => (
          <select {...input} value={settings.stock} onChange={({ target }) => change({ stock: target.value })}>
            <NamedOptions of={labelStocks} />
          </select>
        )}
      </Field>
      <Choice
        label={words.symbol}
        value={settings.symbol}
        onChange={(symbol: SymbolKind) => change({ symbol })}
        options={[
          { value: 'datamatrix', label: words.dataMatrix, note: words.dataMatrixWhy },
          { value: 'qr', label: words.qr, note: words.qrWhy },
        ]}
      />
      {stock === undefined || many === 1 ? null : (
        <SheetPicker stock={stock} start={Math.min(start, many)} count={count} onStart={setStart} />
      )}
      <Offset settings={settings} change={change} />
      <Refusal error={state.error} />
      {state.saved ? (
        <p role="status" className="labels-saved">
          {words.saved(words.file)}
        </p>
      ) : null}
      <div className="dialog-acts">
        <Button type="submit" big kind="main" disabled={!ready}>
          {words.make(count)}
        </Button>
        {onClose === undefined ? null : (
          <Button big onClick={onClose}>
            {words.close}
          </Button>
        )}
      </div>
    </form>
  );
}

interface OffsetProps {
  readonly settings: PrintSettings;
  readonly change: (part: Partial<PrintSettings>) => void;
}

/** A printer that misses by a millimetre is made up for. */
function Offset({ settings, change }: OffsetProps) {
  const words = useWords().labels;
  const wrong = (text: string) => (millimetresOf(text) === undefined ? words.offsetWrong : undefined);
  return (
    <details className="label-offset">
      <summary>{words.offset}</summary>
      <p className="note">{words.offsetHint}</p>
      <div className="pair">
        {(['right', 'down'] as const).map((way) => (
          <Field key={way} label={words[way]} error={wrong(settings[way])}>
            {(input) => (
              <input
                {...input}
                inputMode="text"
                autoComplete="off"
                maxLength={6}
                value={settings[way]}
                onChange={({ target }) => change({ [way]: target.value })}
              />
            )}
          </Field>
        ))}
      </div>
    </details>
  );
}

/** The first label as it will be printed. */
function Preview({
  labels,
  settings: { stock, symbol },
}: {
  readonly labels: readonly LabelAsked[];
  readonly settings: PrintSettings;
}) {
  const words = useWords().labels;
  const [first] = labels;
  const drawn = useQuery({
    queryKey: ['label', first, stock, symbol],
    queryFn: () => send<DrawnLabels>('/labels/drawings', { labels: [first], stock, symbol }),
    enabled: first !== undefined,
    meta: { follows: 'no change' },
    staleTime: 0,
  });
  const label = drawn.data?.items[0];
  if (drawn.isError) return <Refusal error={drawn.error} />;
  return (
    <figure className="label-preview">
      {label === undefined ? null : (
        <img
          src={`data:image/svg+xml;charset=utf-8,${encodeURIComponent(label.svg)}`}
          alt={words.previewOf(label.name)}
        />
      )}
      {labels.length > 1 ? <figcaption className="note">{words.andMore(labels.length - 1)}</figcaption> : null}
    </figure>
  );
}
