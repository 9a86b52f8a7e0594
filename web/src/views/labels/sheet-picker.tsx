import { type LabelStock, perPage } from '#domain/labels/stock.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

interface SheetPickerProps {
  readonly stock: LabelStock;
  readonly start: number;
  readonly count: number;
  readonly onStart: (start: number) => void;
}

/** The sheet from above: which labels are gone, which will be printed. A tap on one starts there. */
export function SheetPicker({ stock, start, count, onStart }: SheetPickerProps) {
  const words = useWords().labels;
  const many = perPage(stock);
  const pages = Math.ceil((start - 1 + count) / many);
  return (
    <div className="sheet-picker">
      <Field label={words.start} hint={words.startHint(pages)}>
        {(input) => (
          <input
            {...input}
            type="number"
            inputMode="numeric"
            min={1}
            max={many}
            value={start}
            onChange={({ target }) => onStart(Math.min(many, Math.max(1, Math.round(target.valueAsNumber) || 1)))}
          />
        )}
      </Field>
      <svg
        aria-hidden="true"
        className="sheet-from-above"
        viewBox={`0 0 ${stock.page.width} ${stock.page.height}`}
        width={132}
        height={Math.round((132 * stock.page.height) / stock.page.width)}
      >
        <rect width={stock.page.width} height={stock.page.height} className="paper" />
        {Array.from({ length: many }, (_, index) => {
          const used = index < start - 1;
          const printed = !used && index < start - 1 + count;
          const x = stock.origin.x + (index % stock.columns) * stock.pitch.x;
          const y = stock.origin.y + Math.floor(index / stock.columns) * stock.pitch.y;
          return (
            // biome-ignore lint/a11y/noStaticElementInteractions: the number beside it does the same by keyboard
            <rect
              // biome-ignore lint/suspicious/noArrayIndexKey: a label is its place on the sheet
              key={index}
              x={x + 0.6}
              y={y + 0.6}
              width={stock.label.width - 1.2}
              height={stock.label.height - 1.2}
              className={used ? 'gone' : printed ? 'printed' : 'free'}
              onClick={() => onStart(index + 1)}
            />
          );
        })}
      </svg>
    </div>
  );
}
