import { useState } from 'react';
import type { ShopFacts } from '#contracts/shop.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';

type Vendor = ShopFacts['vendors'][number];

function VendorDialog({ vendor, onClose }: { readonly vendor: Vendor | null; readonly onClose: () => void }) {
  const { vendors: words, name: nameWord, changeOf } = useWords().shop;
  const writing = useWrite();
  const [entry, setEntry] = useState({
    name: vendor?.name ?? '',
    trade: vendor?.trade ?? '',
    contact: vendor?.contact ?? '',
  });
  const keep = () =>
    writing.write(
      vendor === null
        ? { path: '/vendors', body: entry }
        : { path: `/vendors/${vendor.id}`, method: 'PATCH', body: entry },
      onClose,
    );
  const field = (name: keyof typeof entry, label: string, most: number) => (
    <TextField
      label={label}
      value={entry[name]}
      onChange={(value) => setEntry({ ...entry, [name]: value })}
      pointer={`/${name}`}
      error={writing.error}
      most={most}
    />
  );
  return (
    <SetUpDialog
      title={vendor === null ? words.add : changeOf(vendor.name)}
      writing={writing}
      keep={keep}
      onClose={onClose}
      said={['/name', '/trade', '/contact']}
      ready={entry.name.trim() !== '' && entry.trade.trim() !== ''}
      adding={vendor === null}
      more={
        vendor === null ? undefined : (
          <Button
            disabled={writing.busy}
            onClick={() => writing.write({ path: `/vendors/${vendor.id}/give-up`, body: {} }, onClose)}
          >
            {words.giveUp}
          </Button>
        )
      }
    >
      {field('name', nameWord, 120)}
      {field('trade', words.trade, 120)}
      {field('contact', words.contact, 300)}
    </SetUpDialog>
  );
}

/** To whom work goes and from whom parts come. */
export function VendorsSection({ vendors }: { readonly vendors: readonly Vendor[] }) {
  const { vendors: words, change, changeOf } = useWords().shop;
  const [changing, setChanging] = useState<Vendor | 'new' | null>(null);
  return (
    <section aria-labelledby="shop-vendors">
      <div className="set-up-head">
        <h2 id="shop-vendors">{words.title}</h2>
        <Button onClick={() => setChanging('new')}>{words.add}</Button>
      </div>
      {vendors.length === 0 ? <p className="note">{words.none}</p> : null}
      <ul className="set-up-lines">
        {vendors.map((vendor) => (
          <li key={vendor.id} className="set-up-line">
            <div>
              <b>{vendor.name}</b>
              <span className="note line">{vendor.trade}</span>
            </div>
            <span className="note">{vendor.contact}</span>
            <div className="set-up-acts">
              <Button aria-label={changeOf(vendor.name)} onClick={() => setChanging(vendor)}>
                {change}
              </Button>
            </div>
          </li>
        ))}
      </ul>
      {changing === null ? null : (
        <VendorDialog vendor={changing === 'new' ? null : changing} onClose={() => setChanging(null)} />
      )}
    </section>
  );
}
