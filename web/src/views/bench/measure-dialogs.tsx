import { useState } from 'react';
import { DimensionList } from './dimension-list.tsx';
import { GaugeDialog } from './gauge-dialog.tsx';
import { ImportDialog } from './import-dialog.tsx';
import { TemperatureDialog } from './temperature-dialog.tsx';
import type { Measuring } from './use-measuring.ts';

export type SheetName = 'list' | 'gauge' | 'temperature';

interface MeasureDialogsProps {
  readonly sheet: SheetName | null;
  readonly measuring: Measuring;
  readonly onClose: () => void;
}

/** The sheets over the bench: what to measure, with what, how warm, and the file. */
export function MeasureDialogs({ sheet, measuring, onClose }: MeasureDialogsProps) {
  const [file, setFile] = useState(false);
  return (
    <>
      <DimensionList
        measuring={measuring}
        open={sheet === 'list' && !file}
        onClose={onClose}
        onFile={() => setFile(true)}
      />
      <GaugeDialog measuring={measuring} open={sheet === 'gauge'} onClose={onClose} />
      <TemperatureDialog measuring={measuring} open={sheet === 'temperature'} onClose={onClose} />
      <ImportDialog
        jobId={measuring.bench.jobId}
        open={sheet === 'list' && file}
        onClose={() => {
          setFile(false);
          onClose();
        }}
      />
    </>
  );
}
