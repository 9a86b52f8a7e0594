import { useState } from 'react';
import { Banner } from '../../kit/banner.tsx';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { NumberPad } from '../../kit/number-pad.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty, ErrorState, Forbidden } from '../../kit/state-panels.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { Waits } from '../../kit/waits.tsx';
import { BrandMark } from '../brand-mark.tsx';

function Shell() {
  return (
    <>
      <header className="top">
        <a className="brand" href="#floor">
          <BrandMark />
          Crosshatch
        </a>
        <nav className="idx" aria-label="Views">
          <a href="#floor" aria-current="page">
            Floor
          </a>
          <a href="#bench">My bench</a>
          <a href="#engines">Engines</a>
          <a href="#stores">Stores</a>
        </nav>
        <div className="live">
          <i />
          <span>
            Live <span className="note num">10:42:07</span>
          </span>
        </div>
        <div className="me">Idris Fenwick</div>
      </header>
      <Banner kind="notlive">
        <b className="hot">Not live since 10:31.</b> You see the floor as it was then. Trying again in 8 s.
      </Banner>
      <Banner kind="offline">
        <b>No network since 10:31.</b> <b className="num">3</b> entries are kept here and will be sent once. Keep
        measuring.
      </Banner>
    </>
  );
}

function Entry() {
  const [value, setValue] = useState('88.04');
  return (
    <div>
      <Field label="Bore, at A, across" hint="mm" big>
        {(input) => <input {...input} value={value} onChange={(event) => setValue(event.target.value)} />}
      </Field>
      <NumberPad
        label="number pad"
        onKey={(key) => setValue((before) => (key === 'Backspace' ? before.slice(0, -1) : before + key))}
        acts={[
          { id: 'again', label: 'Take twice more', onPress: () => setValue('') },
          { id: 'cannot', label: 'Can’t measure', onPress: () => setValue('') },
          { id: 'gauge', label: 'Other gauge', onPress: () => setValue(''), disabled: true },
          { id: 'keep', label: `Keep ${value}`, onPress: () => setValue(''), main: true },
        ]}
      />
    </div>
  );
}

export function ControlsPage() {
  const [count, setCount] = useState(5);
  const [gauge, setGauge] = useState<'bore' | 'inside' | null>('bore');
  const [open, setOpen] = useState(false);
  return (
    <section>
      <h2>Controls</h2>
      <Shell />
      <TitleBlock
        columns={4}
        facts={[
          { name: 'Engine', value: 'Halden 355 H355-0417', wide: true },
          { name: 'Hours', value: '243' },
          { name: 'Promise', value: 'Fri 4 Dec' },
          { name: 'Where, held by', value: 'Bay 2 measuring, Nadia Quill since 09:15', wide: true },
          { name: 'Open', value: '2 d 3 h, covered' },
          { name: 'Job', value: '2418, fourth visit' },
        ]}
      />
      <div className="controls">
        <Entry />
        <div className="state">
          <div className="row">
            <Button>Chase</Button>
            <Button kind="main">Decide</Button>
            <Button kind="held">Release</Button>
            <Button big disabled>
              Accept with a difference: 1 dowel
            </Button>
            <Button onClick={() => setOpen(true)}>Open the dialog</Button>
          </div>
          <Stepper label="dowels" value={count} onChange={setCount} max={14} />
          <Choice
            label="Gauge"
            value={gauge}
            onChange={setGauge}
            options={[
              { value: 'bore', label: 'Bore gauge BG-2', note: 'in date' },
              { value: 'inside', label: 'Inside micrometer' },
            ]}
          />
          <Field label="Hours" error="243h isn’t a number of hours: type 243.">
            {(input) => <input {...input} defaultValue="243h" />}
          </Field>
          <Waits
            none="nothing to wait for"
            waits={[
              { id: '1', kind: 'now', text: 'decision: bore undecided' },
              { id: '2', kind: 'dated', text: 'parts: valve-stem seals, due Thu' },
              { id: '3', kind: 'somebody', text: 'person: leak-down sign-off' },
              { id: '4', kind: 'offered', text: 'offered to Tomasz Rudd' },
            ]}
          />
        </div>
        <div className="controls">
          <Skeleton label="reading the bay" lines={4} />
          <Empty title="No engine in this bay" act={<Button>Assign an engine</Button>}>
            Next: T615-2205 when its seals come, Thu.
          </Empty>
          <ErrorState
            title="The reading wasn’t sent"
            safe="It is kept here and will be sent once."
            act={<Button>Send again</Button>}
          >
            The server didn’t answer within 10 s.
          </ErrorState>
          <Forbidden title="Only a lead may override">Ask Maren Tolk, or leave it as an obligation.</Forbidden>
        </div>
      </div>
      <Dialog
        title="Count again?"
        open={open}
        onClose={() => setOpen(false)}
        acts={
          <>
            <Button big kind="main" onClick={() => setOpen(false)}>
              Count again
            </Button>
            <Button big onClick={() => setOpen(false)}>
              Leave it
            </Button>
          </>
        }
      >
        One dowel fewer: 1 of 2. The engine is open, so it may be inside.
      </Dialog>
    </section>
  );
}
