import type { CountSheet } from '#contracts/counts.ts';
import { Refusal } from '../../../app/refusal.tsx';
import { useSession } from '../../../app/session.tsx';
import { useWrite } from '../../../app/write.ts';
import { Button } from '../../../kit/button.tsx';
import { useWords } from '../../../words/words.tsx';

/** Takes what was off for another blind round. */
export function RecountPanel({ sheet }: { readonly sheet: CountSheet }) {
  const { recount: words } = useWords().counts;
  const me = useSession().person.id;
  const writing = useWrite();
  const lines = sheet.lines.filter(({ state }) => state === 'to count again').length;
  return (
    <div className="count-note">
      {sheet.round.counter.id === me ? <p>{words.same}</p> : null}
      <Button
        kind="main"
        big
        disabled={writing.busy}
        onClick={() => writing.write({ path: `/count-sheets/${sheet.id}/recount`, body: {} })}
      >
        {words.begin(lines)}
      </Button>
      <Refusal error={writing.error} />
    </div>
  );
}
