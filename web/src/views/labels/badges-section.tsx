import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { BadgeIssued, Badges } from '#contracts/labels.ts';
import { read } from '../../app/api.ts';
import { ReasonDialog } from '../../app/reason-dialog.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { Failed } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { PrintForm } from './print-form.tsx';

type BadgePerson = Badges['people'][number];

/** Who has a badge: issued, printed once, taken back; and whether a badge opens alone. */
export function BadgesSection() {
  const { badges: words, reading } = useWords().labels;
  const format = useFormat();
  const badges = useQuery({ queryKey: ['badges'], queryFn: ({ signal }) => read<Badges>('/badges', signal) });
  const rule = useWrite();
  const issuing = useWrite<BadgeIssued>();
  const [issued, setIssued] = useState<BadgeIssued | null>(null);
  const [revoking, setRevoking] = useState<BadgePerson | null>(null);
  if (badges.isPending) return <Skeleton label={reading} lines={6} />;
  if (badges.isError) return <Failed error={badges.error} again={() => void badges.refetch()} />;
  const { alone, people } = badges.data;
  return (
    <section className="badges" aria-label={words.title}>
      <Choice
        label={words.rule}
        value={alone ? 'alone' : 'pin'}
        disabled={rule.busy}
        onChange={(chosen: 'alone' | 'pin') =>
          rule.write({ path: '/badge-rule', method: 'PUT', body: { alone: chosen === 'alone' } })
        }
        options={[
          { value: 'pin', label: words.withPin, note: words.withPinWhy },
          { value: 'alone', label: words.alone, note: words.aloneWhy },
        ]}
      />
      <Refusal error={rule.error ?? issuing.error} />
      <ul className="badge-people">
        {people.map((person) => (
          <li key={person.id}>
            <span>
              <b>{person.name}</b>
              <span className="note">
                {person.badge === null
                  ? words.none
                  : words.has(person.badge.number, format.date(person.badge.issuedAt), person.badge.issuedBy)}
              </span>
            </span>
            <Button
              disabled={issuing.busy}
              aria-label={words.actFor(person.badge === null ? words.issue : words.again, person.name)}
              onClick={() => issuing.write({ path: '/badges', body: { personId: person.id } }, setIssued)}
            >
              {person.badge === null ? words.issue : words.again}
            </Button>
            {person.badge === null ? null : (
              <Button aria-label={words.actFor(words.revoke, person.name)} onClick={() => setRevoking(person)}>
                {words.revoke}
              </Button>
            )}
          </li>
        ))}
      </ul>
      {issued === null ? null : (
        <Dialog title={words.printTitle(issued.number, issued.person.name)} open onClose={() => setIssued(null)}>
          <p>{issued.code === null ? words.codeGone : words.printNow}</p>
          {issued.code === null ? null : (
            <PrintForm labels={[{ kind: 'badge', code: issued.code }]} onClose={() => setIssued(null)} />
          )}
        </Dialog>
      )}
      {revoking === null || revoking.badge === null ? null : (
        <RevokeDialog person={revoking.name} badge={revoking.badge} onClose={() => setRevoking(null)} />
      )}
    </section>
  );
}

interface RevokeProps {
  readonly person: string;
  readonly badge: NonNullable<BadgePerson['badge']>;
  readonly onClose: () => void;
}

function RevokeDialog({ person, badge, onClose }: RevokeProps) {
  const { badges: words, close } = useWords().labels;
  return (
    <ReasonDialog
      title={words.revokeTitle(badge.number, person)}
      label={words.reason}
      big
      go={words.revoke}
      cancel={close}
      path={`/badges/${badge.id}/revoke`}
      bodyOf={(reason) => ({ reason })}
      onClose={onClose}
    >
      <p>{words.revokeWhat(person)}</p>
    </ReasonDialog>
  );
}
