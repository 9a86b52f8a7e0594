import { useState } from 'react';
import type { Quantity } from '#contracts/wire.ts';

/** What the thermometer at the bench said, °C as keyed; empty: nobody said. */
export interface Temperature {
  readonly part: string;
  readonly gauge: string;
}

const KEY = 'crosshatch-temperature:';
const none: Temperature = { part: '', gauge: '' };

function stored(jobId: string): Temperature {
  try {
    const [part = '', gauge = ''] = (sessionStorage.getItem(KEY + jobId) ?? '').split('|');
    return { part, gauge };
  } catch {
    return none;
  }
}

/** Said once for a session of keying, and carried by every reading of it. */
export function useTemperature(jobId: string): readonly [Temperature, (next: Temperature) => void] {
  const [temperature, setTemperature] = useState(() => stored(jobId));
  const say = (next: Temperature) => {
    sessionStorage.setItem(KEY + jobId, `${next.part}|${next.gauge}`);
    setTemperature(next);
  };
  return [temperature, say];
}

const celsius = (value: string): Quantity => ({ value, unit: 'degC' });

export const temperatureFields = ({ part, gauge }: Temperature) => ({
  ...(part === '' ? {} : { partTemperature: celsius(part) }),
  ...(gauge === '' ? {} : { instrumentTemperature: celsius(gauge) }),
});
