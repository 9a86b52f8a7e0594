import { useNow } from '../../app/now.tsx';
import { useWords } from '../../words/words.tsx';

interface Offer {
  readonly answerDueAt: string;
  readonly outcome?: string | null;
}

/** Unanswered for longer than the shop allows: said to giver, receiver and lead wherever the offer stands. */
export function Overdue({ offer }: { readonly offer: Offer }) {
  const words = useWords().handover;
  const now = useNow();
  if ((offer.outcome ?? null) !== null || Date.parse(offer.answerDueAt) > now) return null;
  return <b className="hot overdue">{words.overdue}</b>;
}
