import { Outlet, useNavigate } from '@tanstack/react-router';
import { useCallback, useEffect, useState } from 'react';
import type { Scanned } from '#contracts/labels.ts';
import { RefusedError, send } from '../app/api.ts';
import { signOut } from '../app/session.tsx';
import { useWords } from '../words/words.tsx';
import { isBadge, leaveBadge } from './badge.ts';
import { handled, leaveFor, type ScanDone } from './registry.ts';
import { ScanNote, type Told } from './scan-note.tsx';
import { listenToReader } from './wedge.ts';

/** What was scanned, as people call it. */
function useNameOf() {
  const words = useWords().scan;
  return (scanned: Scanned): string => {
    switch (scanned.kind) {
      case 'engine':
        return words.engine(scanned.family, scanned.serial);
      case 'tray':
        return words.tray(scanned.label, scanned.job.number);
      case 'rack':
        return words.rack(scanned.name, scanned.job.number);
      case 'part':
        return words.part(scanned.part.number, scanned.part.name);
      case 'bin':
        return words.bin(scanned.code);
    }
  };
}

/** Opens what was scanned on its own page, and how to come back. */
function useOpen() {
  const words = useWords().scan;
  const navigate = useNavigate();
  return (scanned: Scanned): ScanDone => {
    const undo = () => history.back();
    switch (scanned.kind) {
      case 'engine':
        void navigate({ to: '/engines/$engineId', params: { engineId: scanned.id } });
        return { did: words.opened, undo };
      case 'tray':
        if (scanned.emptiedAt !== null) {
          void navigate({ to: '/engines/$engineId', params: { engineId: scanned.job.engineId }, hash: 'trays' });
          return { did: words.oldTray, undo };
        }
        void navigate({ to: '/trays/$trayId', params: { trayId: scanned.id } });
        return { did: words.opened, undo };
      case 'rack':
        void navigate({ to: '/racks/$rackId', params: { rackId: scanned.id } });
        return { did: scanned.closedAt === null ? words.opened : words.oldRack, undo };
      case 'part':
      case 'bin':
        leaveFor(scanned);
        void navigate({ to: '/stores' });
        return { did: words.openedStores, undo };
    }
  };
}

/** Every view, and what is scanned in any of them: looked up, given to the view, else opened, and told. */
export function Scanning() {
  const words = useWords().scan;
  const nameOf = useNameOf();
  const open = useOpen();
  const [told, setTold] = useState<Told | null>(null);
  const hear = async (text: string) => {
    if (isBadge(text)) {
      leaveBadge(text);
      await signOut();
      return;
    }
    setTold({ kind: 'looking' });
    try {
      const scanned = await send<Scanned>('/scans', { text });
      const done = handled(scanned) ?? open(scanned);
      setTold({ kind: 'done', name: nameOf(scanned), done });
    } catch (error) {
      const offline = error instanceof RefusedError && error.offline;
      setTold({
        kind: 'refused',
        why: offline ? words.offline : error instanceof Error ? error.message : String(error),
      });
    }
  };
  const now = useLatest(hear);
  useEffect(() => listenToReader((text) => void now(text)), [now]);
  const close = useCallback(() => setTold(null), []);
  return (
    <>
      <Outlet />
      <ScanNote told={told} onClose={close} />
    </>
  );
}

/** One function for good that does what the newest one does. */
function useLatest<Given>(act: (given: Given) => Promise<void>): (given: Given) => Promise<void> {
  const [box] = useState(() => ({ act }));
  box.act = act;
  return useCallback((given) => box.act(given), [box]);
}
