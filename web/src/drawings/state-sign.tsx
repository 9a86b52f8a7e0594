import { Drawing } from './drawing.tsx';
import type { StockState } from './stock-state.ts';
import { type DrawingWords, englishWords } from './words.ts';

function Sign({ state }: { readonly state: StockState }) {
  switch (state) {
    case 'pick-now':
      return (
        <>
          <path d="M2 2H14V14H2Z" className="w" />
          <path d="M8 5V10M5.4 8L8 11L10.6 8" className="w" />
        </>
      );
    case 'reserved':
      return <path d="M2 2H14V14H2Z" className="held" />;
    case 'short':
      return <path d="M2 2H14V14H2Z" className="lack" />;
    case 'issued':
      return <path d="M1 1H15V15H1Z" className="f-ink" />;
    case 'cancelled':
      return <path d="M2 2H14V14H2ZM2 14L14 2" className="gone" />;
    case 'not-asked':
      return <path d="M2 2H14V14H2Z" className="dots" />;
  }
}

export type StateSignProps = { readonly state: StockState; readonly words?: Pick<DrawingWords, 'stock'> };

/** A stock line's state: a box that is wanted, held, missing, gone out, struck or not asked for yet, always with its word. */
export function StateSign({ state, words = englishWords }: StateSignProps) {
  return (
    <span className={`state-sign state-${state}`}>
      <Drawing viewBox={[0, 0, 16, 16]} width={18} height={18}>
        <Sign state={state} />
      </Drawing>
      {words.stock[state]}
    </span>
  );
}
