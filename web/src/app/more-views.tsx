import { Link, useRouterState } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import { Button, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { useWords } from '../words/words.tsx';
import type { View } from './views.ts';

/** The views looked up now and then, behind one button, so that the head keeps to one line. */
export function MoreViews({
  views,
  isCurrent,
}: {
  readonly views: readonly View[];
  readonly isCurrent: (to: string) => boolean;
}) {
  const { app } = useWords();
  const [open, setOpen] = useState(false);
  const path = useRouterState({ select: (state) => state.location.pathname });
  // biome-ignore lint/correctness/useExhaustiveDependencies: whoever has gone somewhere has chosen
  useEffect(() => setOpen(false), [path]);
  const current = views.find(({ to }) => isCurrent(to));
  return (
    <DialogTrigger isOpen={open} onOpenChange={setOpen}>
      <Button className={current === undefined ? 'more-views' : 'more-views current'}>
        {current?.label ?? app.more}
        <span aria-hidden="true">▾</span>
      </Button>
      <Popover className="more-sheet" placement="bottom start" offset={0}>
        <Dialog aria-label={app.more}>
          <ul>
            {views.map(({ to, label, note }) => (
              <li key={to}>
                <Link to={to} aria-current={isCurrent(to) ? 'page' : undefined}>
                  <b>{label}</b>
                  {note === undefined ? null : <span className="note">{note}</span>}
                </Link>
              </li>
            ))}
          </ul>
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
