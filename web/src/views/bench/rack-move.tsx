import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { jobTraysQuery } from './hands-queries.ts';
import { TrayChoice, WITH_ENGINE } from './tray-choice.tsx';

interface RackMoveProps {
  readonly jobId: string;
  readonly openingId: string;
  readonly pieceId: string;
  readonly places: readonly string[];
  readonly onDone: () => void;
  readonly onCancel: () => void;
}

/** The pieces of some places into another tray: they keep their places, and their order. */
export function RackMove({ jobId, openingId, pieceId, places, onDone, onCancel }: RackMoveProps) {
  const { rack: words, tray } = useWords().tally;
  const trays = useQuery(jobTraysQuery(jobId)).data?.items ?? [];
  const [to, setTo] = useState<string | null>(null);
  const writing = useWrite();
  const body = { pieces: [{ pieceId, count: places.length, places }], trayId: to === WITH_ENGINE ? null : to };
  return (
    <>
      <TrayChoice jobId={jobId} trays={trays} chosen={to} onChoose={setTo} />
      <Refusal error={writing.error} />
      <div className="hands-acts">
        <Button
          big
          kind="main"
          disabled={to === null || writing.busy}
          onClick={() => writing.write({ path: `/openings/${openingId}/pieces/moved`, body }, onDone)}
        >
          {tray.go(places.length)}
        </Button>
        <Button big onClick={onCancel}>
          {words.cancel}
        </Button>
      </div>
    </>
  );
}
