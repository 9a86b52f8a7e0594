import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { ShopFacts } from '#contracts/shop.ts';
import { useMay } from '../../app/session.tsx';
import { Failed, Forbidden } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useWords } from '../../words/words.tsx';
import { BaysSection } from './bays-section.tsx';
import { FilesSection } from './files-section.tsx';
import { OfferLimitSection } from './offer-limit-section.tsx';
import { OpenLimitsSection } from './open-limits-section.tsx';
import { PeopleSection } from './people-section.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';
import { shopQuery } from './shop-queries.ts';
import { TerminalsSection } from './terminals-section.tsx';
import { VendorsSection } from './vendors-section.tsx';
import './shop.css';

function SelfDialog({ facts, onClose }: { readonly facts: ShopFacts; readonly onClose: () => void }) {
  const { self: words, name: nameWord } = useWords().shop;
  const writing = useWrite();
  const [entry, setEntry] = useState({ name: facts.name, zone: facts.zone, locale: facts.locale });
  const field = (name: keyof typeof entry, label: string, hint?: string) => (
    <TextField
      label={label}
      value={entry[name]}
      onChange={(value) => setEntry({ ...entry, [name]: value })}
      pointer={`/${name}`}
      error={writing.error}
      {...(hint === undefined ? {} : { hint })}
    />
  );
  return (
    <SetUpDialog
      title={words.title}
      writing={writing}
      keep={() => writing.write({ path: '/shop', method: 'PATCH', body: entry }, onClose)}
      onClose={onClose}
      said={['/name', '/zone', '/locale']}
      ready={Object.values(entry).every((text) => text.trim() !== '')}
    >
      {field('name', nameWord)}
      {field('zone', words.zone, words.zoneHint)}
      {field('locale', words.locale, words.localeHint)}
      <p className="note">
        {words.currency} {facts.currency}. {words.currencyWhy}
      </p>
    </SetUpDialog>
  );
}

function Facts({ facts }: { readonly facts: ShopFacts }) {
  const words = useWords().shop;
  const [changing, setChanging] = useState(false);
  return (
    <>
      <div className="shop-self">
        <TitleBlock
          columns={4}
          facts={[
            { name: words.name, value: <b>{facts.name}</b> },
            { name: words.self.zone, value: facts.zone },
            { name: words.self.locale, value: facts.locale },
            { name: words.self.currency, value: facts.currency },
          ]}
        />
        <Button onClick={() => setChanging(true)}>{words.change}</Button>
      </div>
      <PeopleSection />
      <BaysSection bays={facts.bays} />
      <TerminalsSection facts={facts} />
      <OpenLimitsSection />
      <OfferLimitSection />
      <VendorsSection vendors={facts.vendors} />
      <FilesSection />
      {changing ? <SelfDialog facts={facts} onClose={() => setChanging(false)} /> : null}
    </>
  );
}

/** The shop as it is set up; the lead's alone. */
export function ShopView() {
  const words = useWords().shop;
  const { data, error, isError, isPending, refetch } = useQuery(shopQuery);
  const may = useMay('set up');
  return (
    <main className="shop-set-up">
      <div>
        <h1>{words.title}</h1>
        <p className="note">{words.lead}</p>
      </div>
      {may ? null : <Forbidden right="set up" />}
      {may && isPending ? <Skeleton label={words.reading} lines={8} /> : null}
      {may && isError && data === undefined ? <Failed error={error} again={() => void refetch()} /> : null}
      {may && data !== undefined ? <Facts facts={data} /> : null}
    </main>
  );
}
