import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { BuyingRules } from '#contracts/buying-rules.ts';
import { useMay, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { moneyEntry, readMoney } from '../../words/money-entry.ts';
import { useWords } from '../../words/words.tsx';
import { SetUpDialog, TextField } from '../shop/set-up-dialog.tsx';
import { buyingRulesQuery } from './stores-queries.ts';

type Figures = BuyingRules['inForce'];

/** What suggestions of when and how many to buy assume: now, and how it was set. */
export function BuyingRulesSection() {
  const { rules: words } = useWords().storesDesks;
  const format = useFormat();
  const may = useMay('set up');
  const rules = useQuery(buyingRulesQuery).data;
  const [changing, setChanging] = useState(false);
  if (rules === undefined) return null;
  const told = ({ servicePercent, orderCost, holdingPercent, leadDays, historyDays }: Figures) =>
    words.now(
      format.number(servicePercent, 1),
      format.money(orderCost),
      format.number(holdingPercent, 1),
      leadDays,
      historyDays,
    );
  return (
    <section>
      <h2>{words.title}</h2>
      <p>{told(rules.inForce)}.</p>
      {rules.history.length === 0 ? (
        <p className="note">{words.usual}</p>
      ) : (
        <details>
          <summary>{words.before}</summary>
          <ul className="plain">
            {rules.history.map((rule) => (
              <li key={rule.setAt}>
                {told(rule)}
                <p className="note">{words.by(rule.setBy, format.date(rule.setAt), rule.reason)}</p>
              </li>
            ))}
          </ul>
        </details>
      )}
      {may ? <Button onClick={() => setChanging(true)}>{words.change}</Button> : null}
      {changing ? <RulesDialog rule={rules.inForce} onClose={() => setChanging(false)} /> : null}
    </section>
  );
}

const numberOf = (text: string): number => Number(text.trim().replace(',', '.'));

function RulesDialog({ rule, onClose }: { readonly rule: Figures; readonly onClose: () => void }) {
  const { rules: words } = useWords().storesDesks;
  const { currency } = useSession().shop;
  const writing = useWrite<BuyingRules>();
  const [typed, setTyped] = useState({
    service: String(rule.servicePercent),
    orderCost: moneyEntry(rule.orderCost),
    holding: String(rule.holdingPercent),
    lead: String(rule.leadDays),
    history: String(rule.historyDays),
    reason: '',
  });
  const orderCost = readMoney(typed.orderCost, currency);
  const fields = [
    ['service', words.service, '/servicePercent', 6],
    ['orderCost', words.orderCost(currency), '/orderCost', 12],
    ['holding', words.holding, '/holdingPercent', 6],
    ['lead', words.lead, '/leadDays', 4],
    ['history', words.history, '/historyDays', 5],
  ] as const;
  const keep = () =>
    writing.write(
      {
        path: '/stores/buying-rules',
        body: {
          servicePercent: numberOf(typed.service),
          orderCost,
          holdingPercent: numberOf(typed.holding),
          leadDays: numberOf(typed.lead),
          historyDays: numberOf(typed.history),
          reason: typed.reason,
        },
      },
      onClose,
    );
  return (
    <SetUpDialog
      title={words.title}
      writing={writing}
      keep={keep}
      onClose={onClose}
      said={[...fields.map(([, , pointer]) => pointer), '/reason']}
      ready={orderCost !== undefined && typed.reason.trim() !== ''}
    >
      <div className="pair">
        {fields.map(([field, label, pointer, most]) => (
          <TextField
            key={field}
            label={label}
            value={typed[field]}
            onChange={(value) => setTyped({ ...typed, [field]: value })}
            pointer={pointer}
            error={writing.error}
            numeric
            most={most}
          />
        ))}
      </div>
      {orderCost === undefined ? <p className="field-error">{words.wrong}</p> : null}
      <TextField
        label={words.reason}
        value={typed.reason}
        onChange={(reason) => setTyped({ ...typed, reason })}
        pointer="/reason"
        error={writing.error}
        most={300}
      />
    </SetUpDialog>
  );
}
