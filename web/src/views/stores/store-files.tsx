import { useState } from 'react';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { type Brought, FileDialog } from './file-dialog.tsx';

/** Where each file is fetched from, and whether it tells prices. */
const files = {
  bins: { path: '/bins.csv', money: false },
  kits: { path: '/kits.csv', money: false },
  walk: { path: '/stores/pick-walk.csv', money: false },
  expected: { path: '/stores/expected.csv', money: false },
  toBuy: { path: '/stores/to-buy.csv', money: false },
  vendors: { path: '/vendors.csv', money: false },
  schedule: { path: '/count-schedule.csv', money: false },
  short: { path: '/stores/short.csv', money: false },
  wanted: { path: '/stores/wanted.csv', money: false },
  cores: { path: '/cores.csv', money: true },
  movements: { path: '/stock-movements.csv', money: true },
  parts: { path: '/parts.csv', money: true },
  stock: { path: '/stock.csv', money: true },
  prices: { path: '/vendor-prices.csv', money: true },
  orders: { path: '/purchase-orders.csv', money: true },
} as const;
type FileName = keyof typeof files;

/** A link that fetches all there is of something as a file; left out for those who may not see it. */
export function FileLink({ name }: { readonly name: FileName }) {
  const { storeFiles: words } = useWords();
  const { path, money } = files[name];
  const seesMoney = useMay('money');
  if (money && !seesMoney) return null;
  return (
    <a className="btn" href={`/api${path}`} download={`${name}.csv`}>
      {words.out[name]}
    </a>
  );
}

/** A button that brings a file in, for those who may. */
export function BringButton({ what, at }: { readonly what: Brought; readonly at?: string }) {
  const { storeFiles: words } = useWords();
  const may = useMay(what === 'vendors' ? 'set up' : 'stores');
  const [open, setOpen] = useState(false);
  if (!may) return null;
  return (
    <>
      <Button onClick={() => setOpen(true)}>{words.bringOf[what]}</Button>
      {open ? <FileDialog what={what} at={at} onClose={() => setOpen(false)} /> : null}
    </>
  );
}
