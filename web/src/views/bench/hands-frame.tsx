import { type ReactNode, useEffect, useState } from 'react';
import { useLine } from '../../app/live.ts';
import { Banner } from '../../kit/banner.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { TerminalBar } from './terminal-bar.tsx';
import './hands.css';

const SHORT_DROP_MS = 4000;

/** Said once the line has been down for a while: what is entered is not lost, and has to be sent again. */
function LineDown() {
  const { line: words } = useWords().myBench;
  const { live, since } = useLine();
  const format = useFormat();
  const [late, setLate] = useState(false);
  useEffect(() => {
    setLate(false);
    if (live) return;
    const timer = setTimeout(() => setLate(true), SHORT_DROP_MS);
    return () => clearTimeout(timer);
  }, [live]);
  if (live || !late) return null;
  return (
    <Banner kind="offline">
      <b>{words.down(format.time(new Date(since).toISOString()))}</b> {words.kept}
    </Banner>
  );
}

interface HandsFrameProps {
  /** Of the page, for the tab and whoever can't see it. */
  readonly title: string;
  /** Which engine, and what is done with it. */
  readonly head: ReactNode;
  readonly children: ReactNode;
}

/** A view that fills the terminal: who is here, which engine, tap out; then one thing at a time. */
export function HandsFrame({ title, head, children }: HandsFrameProps) {
  return (
    <div className="hands">
      <title>{title}</title>
      <TerminalBar>{head}</TerminalBar>
      <LineDown />
      {children}
    </div>
  );
}
