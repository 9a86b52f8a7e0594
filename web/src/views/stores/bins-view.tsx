import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { BinKept } from '#contracts/stock-books.ts';
import type { BinsKept } from '#contracts/stores-desks.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { LabelButton } from '../labels/label-button.tsx';
import { Desks } from './desks.tsx';
import { NotYetRead } from './not-yet-read.tsx';
import { Scrolled } from './scrolled.tsx';
import { BringButton, FileLink } from './store-files.tsx';
import { binsKeptQuery } from './stores-queries.ts';
import './stores.css';
import './desks.css';

type Bin = BinsKept['items'][number];

/** The bins, in the order they are walked past: put up, renamed, moved in the walk, closed. */
export function BinsView() {
  const { bins: words } = useWords().storesDesks;
  const may = useMay('stores');
  const bins = useQuery(binsKeptQuery);
  const [doing, setDoing] = useState<Bin | 'new' | null>(null);
  useScan((scanned) => {
    if (scanned.kind !== 'bin') return undefined;
    document.getElementById(`bin-${scanned.id}`)?.querySelector('button')?.focus();
    return { did: words.scanned };
  });
  return (
    <main className="stores one-sheet">
      <title>{words.title}</title>
      <div className="p">
        <Desks />
        <div className="hd">
          <h1>{words.title}</h1>
          <div className="kit-acts">
            <FileLink name="bins" />
            <BringButton what="bins" />
            {may ? (
              <Button kind="main" onClick={() => setDoing('new')}>
                {words.add}
              </Button>
            ) : null}
          </div>
        </div>
        <NotYetRead query={bins} label={words.reading} lines={8} />
        {bins.data?.items.length === 0 ? <Empty title={words.nothing}>{words.nothingWhat}</Empty> : null}
        {bins.data === undefined || bins.data.items.length === 0 ? null : (
          <Scrolled label={words.title}>
            <BinTable bins={bins.data.items} onChange={may ? setDoing : undefined} />
          </Scrolled>
        )}
        {doing === null ? null : <BinDialog bin={doing === 'new' ? null : doing} onClose={() => setDoing(null)} />}
      </div>
    </main>
  );
}

interface TableProps {
  readonly bins: readonly Bin[];
  readonly onChange: ((bin: Bin) => void) | undefined;
}

function BinTable({ bins, onChange }: TableProps) {
  const { bins: words } = useWords().storesDesks;
  return (
    <table className="bins">
      <thead>
        <tr>
          <th>{words.bin}</th>
          <th>{words.lies}</th>
          <th className="n">{words.walk}</th>
          {onChange === undefined ? null : <th aria-label={words.change} />}
        </tr>
      </thead>
      <tbody>
        {bins.map((bin) => (
          <tr key={bin.id} id={`bin-${bin.id}`}>
            <td className="num">
              <b>{bin.code}</b>
            </td>
            <td>
              {bin.pieces === 0 ? words.empty : words.holds(bin.parts, bin.pieces, bin.reserved)}
              {bin.closed ? <b> {words.closed}</b> : null}
            </td>
            <td className="n">{bin.walkOrder}</td>
            {onChange === undefined ? null : (
              <td>
                <div className="kit-acts">
                  <Button aria-label={words.changeOf(bin.code)} onClick={() => onChange(bin)}>
                    {words.change}
                  </Button>
                  <LabelButton labels={[{ kind: 'bin', id: bin.id }]} />
                </div>
              </td>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function BinDialog({ bin, onClose }: { readonly bin: Bin | null; readonly onClose: () => void }) {
  const { bins: words } = useWords().storesDesks;
  const [code, setCode] = useState(bin?.code ?? '');
  const [walk, setWalk] = useState(bin === null ? '' : String(bin.walkOrder));
  const writing = useWrite<BinKept>();
  const path = bin === null ? '/bins' : `/bins/${bin.id}/change`;
  const write = (more: { readonly closed?: boolean } = {}) =>
    writing.write({ path, body: { code, ...(walk === '' ? {} : { walkOrder: Number(walk) }), ...more } }, onClose);
  const walkWrong = walk !== '' && !/^\d{1,7}$/.test(walk);
  return (
    <Dialog title={bin === null ? words.add : words.changeOf(bin.code)} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (!walkWrong && code.trim() !== '') write();
        }}
      >
        <div className="pair">
          <Field label={words.code} hint={words.codeHint} error={faultAt(writing.error, '/code')}>
            {(input) => (
              <input
                {...input}
                required
                maxLength={20}
                autoCapitalize="characters"
                value={code}
                onChange={({ target }) => setCode(target.value)}
              />
            )}
          </Field>
          <Field
            label={words.walk}
            hint={words.walkHint}
            error={walkWrong ? words.walkHint : faultAt(writing.error, '/walkOrder')}
          >
            {(input) => (
              <input
                {...input}
                inputMode="numeric"
                maxLength={7}
                value={walk}
                onChange={({ target }) => setWalk(target.value.trim())}
              />
            )}
          </Field>
        </div>
        {isSaidAt(writing.error, ['/code', '/walkOrder']) ? null : <Refusal error={writing.error} />}
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={writing.busy || walkWrong || code.trim() === ''}>
            {words.write}
          </Button>
          {bin === null ? null : (
            <Button disabled={writing.busy} onClick={() => write({ closed: !bin.closed })}>
              {bin.closed ? words.open : words.close}
            </Button>
          )}
          <Button onClick={onClose}>{words.leave}</Button>
        </div>
      </form>
    </Dialog>
  );
}
