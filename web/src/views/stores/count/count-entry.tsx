import { useEffect, useRef, useState } from 'react';
import { Button } from '../../../kit/button.tsx';
import { NumberPad } from '../../../kit/number-pad.tsx';
import { useWords } from '../../../words/words.tsx';
import { type KeyPress, useCommands, useKeys } from '../../bench/use-keys.ts';
import type { LineToCount } from './line-to-count.ts';
import { LineName } from './line-words.tsx';

interface EntryProps {
  readonly now: LineToCount;
  readonly onKeep: (counted: number) => void;
  /** To the line so many further on. */
  readonly onStep: (by: number) => void;
  readonly onFound: () => void;
}

const most = 100_000;

/** The count of one line: typed, tapped, or for a piece with a serial seen or not. */
export function CountEntry({ now: { line, counted }, onKeep, onStep, onFound }: EntryProps) {
  const { entry: words, sheet } = useWords().counts;
  const [typed, setTyped] = useState('');
  const card = useRef<HTMLDivElement>(null);
  const { serial } = line;
  useEffect(() => {
    if (matchMedia('(max-width: 899px)').matches) card.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  const value = typed === '' ? null : Number(typed);
  const fits = value !== null && value <= (serial === null ? most : 1);
  const hear = (press: KeyPress) => {
    if (press.type === 'enter') {
      if (fits && value !== null) onKeep(value);
      else if (typed === '' && counted !== null) onStep(1);
    } else if (press.type === 'erase') setTyped(typed.slice(0, -1));
    else if (press.type === 'clear') setTyped('');
    else if (press.text === '+') onFound();
    else if (/^\d$/.test(press.text) && typed.length < 6) setTyped(typed === '0' ? press.text : typed + press.text);
  };
  useKeys(hear);
  useCommands({ 'place before': () => onStep(-1), 'place after': () => onStep(1) });
  const shown = typed === '' ? (counted === null ? '–' : String(counted)) : typed;
  return (
    <div className="count-entry" ref={card}>
      <p className="count-what">
        <span className="count-bin-code num">{sheet.bin(line.bin.code)}</span>
        <LineName line={line} />
      </p>
      <output
        className={typed === '' ? 'count-figure kept' : 'count-figure'}
        aria-label={words.howMany(line.part.name)}
      >
        {shown}
      </output>
      {value !== null && !fits && serial === null ? (
        <p className="field-error" role="alert">
          {words.tooMany}
        </p>
      ) : null}
      {serial === null ? (
        <NumberPad
          label={words.label}
          decimalKey={false}
          eraseLabel={words.erase}
          onKey={(key) => hear(key === 'Backspace' ? { type: 'erase' } : { type: 'text', text: key })}
          acts={[
            {
              id: 'keep',
              label: words.keep,
              main: true,
              disabled: !fits,
              onPress: () => {
                if (value !== null) onKeep(value);
              },
            },
          ]}
        />
      ) : (
        <div className="count-seen-keys">
          <Button big kind="main" onClick={() => onKeep(1)}>
            {words.seen}
          </Button>
          <Button big onClick={() => onKeep(0)}>
            {words.notSeen}
          </Button>
        </div>
      )}
      <p className="note count-keys">{words.keys}</p>
    </div>
  );
}
