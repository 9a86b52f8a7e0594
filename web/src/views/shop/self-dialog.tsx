import { useState } from 'react';
import type { ShopFacts } from '#contracts/shop.ts';
import { faultAt, useWrite } from '../../app/write.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';

/** The shop's name, address and language, to be changed. */
export function SelfDialog({ facts, onClose }: { readonly facts: ShopFacts; readonly onClose: () => void }) {
  const { self: words, name: nameWord } = useWords().shop;
  const writing = useWrite();
  const { name, address, phone, email, zone, locale } = facts;
  const [entry, setEntry] = useState({ name, address, phone, email, zone, locale });
  const field = (
    of: keyof typeof entry,
    label: string,
    more: { readonly hint?: string; readonly most?: number } = {},
  ) => (
    <TextField
      label={label}
      value={entry[of]}
      onChange={(value) => setEntry({ ...entry, [of]: value })}
      pointer={`/${of}`}
      error={writing.error}
      {...more}
    />
  );
  return (
    <SetUpDialog
      title={words.title}
      writing={writing}
      keep={() => writing.write({ path: '/shop', method: 'PATCH', body: entry }, onClose)}
      onClose={onClose}
      said={['/name', '/address', '/phone', '/email', '/zone', '/locale']}
      ready={[entry.name, entry.zone, entry.locale].every((text) => text.trim() !== '')}
    >
      {field('name', nameWord)}
      <Field label={words.address} hint={words.addressHint} error={faultAt(writing.error, '/address')}>
        {(input) => (
          <textarea
            {...input}
            rows={3}
            maxLength={300}
            value={entry.address}
            onChange={({ target }) => setEntry({ ...entry, address: target.value })}
          />
        )}
      </Field>
      {field('phone', words.phone, { most: 60 })}
      {field('email', words.email)}
      {field('zone', words.zone, { hint: words.zoneHint })}
      {field('locale', words.locale, { hint: words.localeHint })}
      <p className="note">
        {words.currency} {facts.currency}. {words.currencyWhy}
      </p>
    </SetUpDialog>
  );
}
