import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { ShopFacts } from '#contracts/shop.ts';
import { useMay } from '../../app/session.tsx';
import { Failed, Forbidden } from '../../app/view-states.tsx';
import { Button } from '../../kit/button.tsx';
import { HeadOfPaper } from '../../kit/head-of-paper.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useWords } from '../../words/words.tsx';
import { BaysSection } from './bays-section.tsx';
import { FilesSection } from './files-section.tsx';
import { HoldRuleSection, OfferLimitSection } from './number-rule-section.tsx';
import { OpenLimitsSection } from './open-limits-section.tsx';
import { PeopleSection } from './people-section.tsx';
import { SelfDialog } from './self-dialog.tsx';
import { shopQuery } from './shop-queries.ts';
import { TerminalsSection } from './terminals-section.tsx';
import { VendorsSection } from './vendors-section.tsx';
import './shop.css';

function Facts({ facts }: { readonly facts: ShopFacts }) {
  const words = useWords().shop;
  const [changing, setChanging] = useState(false);
  return (
    <>
      <div className="shop-self">
        <TitleBlock
          columns={4}
          facts={[
            { name: words.name, value: <HeadOfPaper of={facts} />, wide: true },
            { name: words.self.zone, value: facts.zone },
            { name: words.self.locale, value: facts.locale },
            { name: words.self.currency, value: facts.currency },
          ]}
        />
        <Button onClick={() => setChanging(true)}>{words.change}</Button>
      </div>
      {facts.address === '' ? <p className="note">{words.self.noAddress}</p> : null}
      <PeopleSection />
      <BaysSection bays={facts.bays} />
      <TerminalsSection facts={facts} />
      <OpenLimitsSection />
      <OfferLimitSection />
      <HoldRuleSection />
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
