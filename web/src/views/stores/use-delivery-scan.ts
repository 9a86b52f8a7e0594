import { useEffect, useRef, useState } from 'react';
import type { z } from 'zod';
import type { ExpectedLine } from '#contracts/deliveries.ts';
import type { PartName } from '#contracts/parts.ts';
import type { PurchasePage } from '#contracts/stock.ts';
import { read } from '../../app/api.ts';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { type Entry, entryOf } from './delivery-entry.ts';

interface Delivering {
  readonly lines: readonly ExpectedLine[];
  readonly entries: ReadonlyMap<string, Entry>;
  readonly put: (id: string, entry: Entry | null) => void;
  readonly vendorId: string;
  readonly onVendor: (vendorId: string) => void;
}

/** The row of a line gets the focus, on its count. */
const focusOn = (lineId: string) =>
  setTimeout(() => {
    const row = document.getElementById(`expected-${lineId}`);
    row?.scrollIntoView({ block: 'center' });
    row?.querySelector('input')?.focus({ preventScroll: true });
  });

/** A part that came was scanned before its vendor was chosen: kept until that vendor's lines are read. */
let scannedBefore: string | undefined;

/**
 * While goods are taken in a part says that it came, and a bin where the part scanned last goes. Tells the number of a
 * part that was scanned and is not on order.
 */
export function useDeliveryScan({ lines, entries, put, vendorId, onVendor }: Delivering): string | null {
  const { scanned: words } = useWords().storesDesks.receive;
  const { binChosen } = useWords().scan.done;
  const [notOrdered, setNotOrdered] = useState<string | null>(null);
  const last = useRef<string | null>(null);
  const begin = (line: ExpectedLine) => {
    last.current = line.id;
    put(line.id, entryOf(line));
    focusOn(line.id);
  };
  const now = useRef(begin);
  now.current = begin;
  useEffect(() => {
    const line = lines.find(({ part }) => part.id === scannedBefore);
    if (line === undefined) return;
    scannedBefore = undefined;
    now.current(line);
  }, [lines]);
  const chooseVendorOf = async ({ id, number }: PartName) => {
    const { items } = await read<z.infer<typeof PurchasePage>>(`/purchase-lines?partId=${id}&coming=true`);
    const [first] = items;
    setNotOrdered(first === undefined ? number : null);
    if (first === undefined) return;
    scannedBefore = id;
    onVendor(first.vendor.id);
  };
  useScan((scanned) => {
    if (scanned.kind === 'bin' && !scanned.closed) {
      const entry = last.current === null ? undefined : entries.get(last.current);
      if (last.current === null || entry === undefined) return { did: words.noLine, amiss: true };
      const id = last.current;
      put(id, { ...entry, binId: scanned.id });
      return { did: binChosen, undo: () => put(id, entry) };
    }
    if (scanned.kind !== 'part') return undefined;
    const own = lines.filter(({ part }) => part.id === scanned.part.id);
    const line = own.find(({ id }) => !entries.has(id));
    if (line !== undefined) {
      begin(line);
      return { did: words.came, undo: () => put(line.id, null) };
    }
    if (own[0] !== undefined) {
      last.current = own[0].id;
      focusOn(own[0].id);
      return { did: words.before };
    }
    if (vendorId !== '') return { did: words.elsewhere, amiss: true };
    void chooseVendorOf(scanned.part);
    return { did: words.vendor };
  });
  return notOrdered;
}
