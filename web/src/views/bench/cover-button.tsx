import type { OpeningNow } from '#contracts/floor.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

/** One tap: covered, or the cover off. */
export function CoverButton({ opening }: { readonly opening: Pick<OpeningNow, 'id' | 'covered'> }) {
  const words = useWords().myBench;
  const writing = useWrite();
  const { id, covered } = opening;
  return (
    <>
      <Button
        big
        kind={covered ? 'plain' : 'main'}
        disabled={writing.busy}
        onClick={() => writing.write({ path: `/openings/${id}/cover`, body: { covered: !covered } })}
      >
        {covered ? words.uncover : words.cover}
      </Button>
      <Refusal error={writing.error} />
    </>
  );
}
