import { useState } from 'react';
import type { AssemblyPage, FastenerSetStanding } from '#contracts/assembly.ts';
import { useEntries } from '../../app/outbox.ts';
import { useMay } from '../../app/session.tsx';
import { useToday } from '../../app/today.ts';
import { quantityText } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { noAdapter, settingOf } from './adapter.ts';
import { setNow, tapOn, wrenchesFor } from './pulling.ts';
import { type KeyPress, letGo, useKeys } from './use-keys.ts';
import { usePulling } from './use-pulling.ts';

/** What is keyed at a fastener set: the figure the tool shows, its wrench, and each pull as it is said. */
export function usePullKeying(jobId: string, set: FastenerSetStanding, shop: AssemblyPage['wrenches']) {
  const words = useWords().assemble.fasteners;
  const today = useToday();
  const may = useMay('bench');
  const entries = useEntries().filter((entry) => entry.jobId === jobId);
  const now = setNow(set, entries);
  const pulling = usePulling(jobId, set);
  const [text, setText] = useState('');
  const [notice, setNotice] = useState('');
  const [chosen, setChosen] = useState<string | null>(null);
  const [adapter, setAdapter] = useState(noAdapter);
  const { next } = now;
  const isTorque = next !== undefined && next.stage.figure.unit !== 'deg';
  const setting = isTorque && adapter.on ? settingOf(next.stage.figure, adapter) : undefined;
  const figure = setting?.ok === true ? setting.setting : next?.stage.figure;
  const wrenches = figure === undefined ? null : wrenchesFor(shop, figure, today);
  const own = wrenches?.offered.find(({ code, fit }) => code === chosen && fit.ok)?.code;
  const suggested = set.next?.stage === next?.stage.ordinal ? (set.next?.instrumentCode ?? undefined) : undefined;
  const wrench = own ?? (setting === undefined ? suggested : undefined) ?? wrenches?.take;

  const pull = (fastener: number) => {
    const tap = tapOn(now, fastener);
    if (!tap.ok) {
      setNotice(
        tap.reason === 'complete'
          ? words.none
          : tap.reason === 'already'
            ? words.already(fastener, tap.stage)
            : words.first(tap.next, fastener),
      );
      return;
    }
    if (next === undefined || figure === undefined || !may) return;
    if (setting?.ok === false) {
      setNotice(words.adapter[setting.reason]);
      return;
    }
    const value = text.trim() === '' ? figure.value : text.trim().replace(',', '.');
    pulling.pull({
      set: set.code,
      fastener,
      stage: next.stage.ordinal,
      value: { value, unit: figure.unit },
      ...(setting === undefined ? {} : { adapter: setting.adapter }),
      ...(wrenches === null || wrench === undefined ? {} : { instrumentCode: wrench }),
    });
    setText('');
    setNotice('');
  };
  const hear = (press: KeyPress) => {
    setNotice('');
    if (press.type === 'text') letGo();
    if (press.type === 'enter') {
      if (next !== undefined) pull(next.fastener);
    } else if (press.type === 'clear') setText('');
    else if (press.type === 'erase') setText((before) => before.slice(0, -1));
    else if (press.text !== ' ') setText((before) => (before + press.text).slice(0, 12));
  };
  useKeys(hear);
  const shown = figure === undefined ? '' : quantityText({ ...figure, ...(text === '' ? {} : { value: text }) });
  return {
    entries,
    now,
    pulling,
    text,
    notice,
    clearNotice: () => setNotice(''),
    wrenches,
    wrench,
    shown,
    adapter,
    setAdapter,
    setting,
    choose: setChosen,
    pull,
    hear,
  };
}
