import { Link, Outlet, useRouterState } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import { BrandMark } from '../drawings/brand-mark.tsx';
import { ScanButton } from '../scan/scan-button.tsx';
import { useFormat } from '../words/format.ts';
import { useWords } from '../words/words.tsx';
import { useLine } from './live.ts';
import { MoreViews } from './more-views.tsx';
import { OwnName } from './own-pin.tsx';
import { signOut } from './session.tsx';
import { ThemeToggle } from './theme.tsx';
import { useViews, type View } from './views.ts';

function LiveLine() {
  const { app } = useWords();
  const { live, since } = useLine();
  const format = useFormat();
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  return (
    <div className={live ? 'live' : 'live hot'}>
      <i />
      <span>
        {live ? app.live : <b>{app.notLive}</b>}{' '}
        <span className="note num">{format.time(new Date(live ? now : since).toISOString())}</span>
      </span>
    </div>
  );
}

/** Said only once the line has been down for a while: a reload or a short drop is no news. */
function NotLiveBanner() {
  const { app } = useWords();
  const { live, since } = useLine();
  const format = useFormat();
  const [late, setLate] = useState(false);
  useEffect(() => {
    if (live) {
      setLate(false);
      return;
    }
    const timer = setTimeout(() => setLate(true), 4000);
    return () => clearTimeout(timer);
  }, [live]);
  if (live || !late) return null;
  return (
    <div className="banner notlive" role="status">
      <b className="hot">{app.notLiveSince(format.time(new Date(since).toISOString()))}</b>
      <span>{app.asItWasThen}</span>
    </div>
  );
}

/** The frame of every view but the bench and the printed sheet: index at the head, the line, who is here. */
export function Shell() {
  const { app } = useWords();
  const { daily, more } = useViews();
  const path = useRouterState({ select: (state) => state.location.pathname });
  const isCurrent = (to: string) => (to === '/' ? path === '/' : path.startsWith(to));
  const link = ({ to, label }: View) => (
    <Link key={to} to={to} aria-current={isCurrent(to) ? 'page' : undefined}>
      {label}
    </Link>
  );
  return (
    <>
      <a className="skip" href="#content">
        {app.skip}
      </a>
      <header className="top">
        <Link className="brand" to="/">
          <BrandMark />
          {app.name}
        </Link>
        <nav className="idx" aria-label={app.views}>
          {daily.map(link)}
          <MoreViews views={more} isCurrent={isCurrent} />
        </nav>
        <LiveLine />
        <ScanButton />
        <ThemeToggle />
        <div className="me">
          <OwnName />
          <button type="button" className="btn small" onClick={() => void signOut()}>
            {app.tapOut}
          </button>
        </div>
      </header>
      <NotLiveBanner />
      <div id="content">
        <Outlet />
      </div>
      <nav className="botnav" aria-label={app.views}>
        {daily.map(link)}
        <MoreViews views={more} isCurrent={isCurrent} />
      </nav>
    </>
  );
}
