import { useId } from 'react';
import type { Quantity } from '#contracts/wire.ts';
import { quantityText } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import type { AdapterKeyed, Setting } from './adapter.ts';

interface AdapterPaneProps {
  readonly figure: Quantity;
  readonly keyed: AdapterKeyed;
  readonly setting: Setting | undefined;
  readonly onKeyed: (keyed: AdapterKeyed) => void;
}

/** An adapter on the wrench's head: how long both are, how it stands, and what to set then. */
export function AdapterPane({ figure, keyed, setting, onKeyed }: AdapterPaneProps) {
  const words = useWords().assemble.fasteners.adapter;
  const id = useId();
  const field = (name: 'wrenchLength' | 'adapterLength' | 'angle') => (
    <label>
      <span>{words[name]}</span>
      <input
        className="num"
        inputMode="decimal"
        autoComplete="off"
        value={keyed[name]}
        aria-describedby={id}
        onChange={(event) => onKeyed({ ...keyed, [name]: event.target.value })}
      />
    </label>
  );
  return (
    <div className="adapter">
      <label className="tick">
        <input
          type="checkbox"
          checked={keyed.on}
          onChange={(event) => onKeyed({ ...keyed, on: event.target.checked })}
        />
        {words.on}
      </label>
      {keyed.on ? (
        <div className="adapter-fields">
          {field('wrenchLength')}
          {field('adapterLength')}
          {field('angle')}
        </div>
      ) : null}
      {setting === undefined ? null : (
        <p id={id} aria-live="polite" className={setting.ok ? undefined : 'hot'}>
          {setting.ok ? (
            <>
              <b>{words.set(quantityText(setting.setting))}</b> {words.gets(quantityText(figure))}
            </>
          ) : (
            words[setting.reason]
          )}
        </p>
      )}
    </div>
  );
}
