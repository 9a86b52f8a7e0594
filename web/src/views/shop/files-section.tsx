import type { FilesCheck } from '#contracts/files-check.ts';
import { Refusal } from '../../app/refusal.tsx';
import { Button } from '../../kit/button.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { DamagedFiles } from './damaged-files.tsx';
import { type Found, useFilesCheck } from './use-files-check.ts';
import './files-check.css';

const MEGABYTE = 1_048_576;

const faultsIn = ({ missing, changed, smaller }: FilesCheck): number =>
  missing.length + changed.length + smaller.length;

function Facts({ check }: { readonly check: FilesCheck }) {
  const words = useWords().filesCheck;
  const format = useFormat();
  const faults = faultsIn(check);
  return (
    <TitleBlock
      columns={4}
      facts={[
        { name: words.facts.at, value: format.dateTime(check.at) },
        { name: words.facts.files, value: format.number(check.files) },
        { name: words.facts.bytes, value: words.megabytes(format.number(check.bytes / MEGABYTE, 1)) },
        { name: words.facts.faults, value: faults === 0 ? words.none : <b className="hot">{format.number(faults)}</b> },
      ]}
    />
  );
}

function Result({ found: { check, done, of, running, error } }: { readonly found: Found }) {
  const words = useWords().filesCheck;
  const whole = done === of;
  const sound = faultsIn(check) === 0;
  return (
    <div className="files-found">
      {done === 0 ? null : <Facts check={check} />}
      <div role="status">
        {!running && !whole && error === null ? <p>{words.stopped(done, of)}</p> : null}
        {whole && sound ? <p>{words.well}</p> : null}
      </div>
      <Refusal error={error} />
      <DamagedFiles title={words.missing(check.missing.length)} what={words.missingDo} files={check.missing} />
      <DamagedFiles
        title={words.changed(check.changed.length)}
        what={words.changedDo}
        files={check.changed.map((file) => ({ ...file, fault: words.fault[file.fault] }))}
      />
      <DamagedFiles
        title={words.smaller(check.smaller.length)}
        what={words.smallerDo}
        files={check.smaller.map((file) => ({ ...file, fault: words.fault[file.fault] }))}
      />
      <DamagedFiles
        title={words.spare(check.spare.length)}
        what={words.spareDo}
        harmless
        files={check.spare.map((hash) => ({ hash, photos: null }))}
      />
      {sound ? null : <p className="note">{words.how}</p>}
    </div>
  );
}

/** Whether every photo and document is still there, and still what was stored. */
export function FilesSection() {
  const words = useWords().filesCheck;
  const { found, run, stop } = useFilesCheck();
  const running = found?.running === true;
  return (
    <section aria-labelledby="shop-files">
      <div className="set-up-head">
        <h2 id="shop-files">{words.title}</h2>
        <Button onClick={running ? stop : run}>
          {running ? words.stop : found === null ? words.run : words.again}
        </Button>
      </div>
      <p className="note">{words.why}</p>
      {running ? (
        <div className="files-progress">
          <progress value={found.done} max={found.of} aria-label={words.running} />
          <span className="num">{words.progress(found.done, found.of)}</span>
        </div>
      ) : null}
      {found === null ? null : <Result found={found} />}
    </section>
  );
}
