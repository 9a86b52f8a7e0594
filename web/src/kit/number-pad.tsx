import type { ReactNode } from 'react';

export type PadAct = {
  readonly id: string;
  readonly label: ReactNode;
  readonly onPress: () => void;
  readonly disabled?: boolean;
  /** The one act that ends the entry: over the whole width. */
  readonly main?: boolean;
};

/** What a key sends: a figure, the decimal separator as it stands on its key, or Backspace. */
export type NumberPadProps = {
  readonly label: string;
  readonly onKey: (key: string) => void;
  /** Whole numbers and PINs have no use for a separator. */
  readonly decimalKey?: boolean;
  /** As the locale writes it; the reader of the entry must accept it. */
  readonly separator?: string;
  readonly eraseLabel?: string;
  readonly acts?: readonly PadAct[];
};

const figures = ['7', '8', '9', '4', '5', '6', '1', '2', '3'] as const;

type KeyProps = { readonly name?: string; readonly shown: string; readonly onPress: () => void };

/** A tap must not take focus: the entry keeps it, so a keyboard or a gauge that types goes on working. */
function Key({ name, shown, onPress }: KeyProps) {
  return (
    <button
      type="button"
      className="key"
      tabIndex={-1}
      aria-label={name}
      onPointerDown={(event) => event.preventDefault()}
      onMouseDown={(event) => event.preventDefault()}
      onClick={onPress}
    >
      {shown}
    </button>
  );
}

/** Big figures for gloved hands. Its keys are out of the tab order: whoever has a keyboard types. */
export function NumberPad(props: NumberPadProps) {
  const { label, onKey, decimalKey = true, separator = '.', eraseLabel = 'erase', acts = [] } = props;
  return (
    <section className="pad" aria-label={label}>
      {figures.map((figure) => (
        <Key key={figure} shown={figure} onPress={() => onKey(figure)} />
      ))}
      {decimalKey ? <Key shown={separator} onPress={() => onKey(separator)} /> : <span />}
      <Key shown="0" onPress={() => onKey('0')} />
      <Key shown="⌫" name={eraseLabel} onPress={() => onKey('Backspace')} />
      {acts.map(({ id, label: words, onPress, disabled = false, main = false }) => (
        <button key={id} type="button" className={main ? 'key go' : 'key act'} disabled={disabled} onClick={onPress}>
          {words}
        </button>
      ))}
    </section>
  );
}
