import type { SectionDepth } from '#domain/section/depth.ts';
import { BrandMark } from '../brand-mark.tsx';
import { depthInWords, Section, type SectionProps } from '../section/section.tsx';

const states: readonly (readonly [SectionDepth, boolean])[] = [
  ['closed', true],
  ['cover', false],
  ['cover', true],
  ['head', false],
  ['head', true],
  ['cylinder', false],
  ['cylinder', true],
  ['case', false],
  ['case', true],
];

function Row(props: SectionProps) {
  return (
    <div className="row">
      {states.map(([depth, covered]) => (
        <figure key={`${depth}${covered}`}>
          <Section {...props} depth={depth} covered={covered} />
          {(props.size ?? 0) >= 64 ? <figcaption>{depthInWords(depth, covered)}</figcaption> : null}
        </figure>
      ))}
    </div>
  );
}

const callouts = [
  { part: 'cover', text: 'valve cover', note: 'off, tray 1', off: true },
  { part: 'cams', text: 'cams, caps, 8 bolts', note: 'off, tray 2', off: true },
  { part: 'head', text: 'head, 4 valves', note: 'off, head bench', off: true },
  { part: 'cylinder', text: 'cylinder', note: 'on' },
  { part: 'piston', text: 'piston, 3 rings, pin', note: 'on the rod' },
  { part: 'case', text: 'crankcase', note: 'closed, gears in' },
] as const;

export function SectionsPage() {
  return (
    <>
      <section>
        <h2>
          <BrandMark /> Section, 480
        </h2>
        <div className="row">
          <Section size={480} />
          <Section size={480} depth="head" covered={false} callouts={callouts} />
          <Section size={480} depth="cover" covered={false} cooling="air" bore={98} strokeLength={81.5} />
          <Section size={480} depth="cylinder" />
          <Section size={480} depth="case" covered={false} />
          <Section size={480} stroke="two-stroke" />
          <Section size={480} stroke="two-stroke" depth="cylinder" covered callouts={callouts.slice(2)} />
        </div>
      </section>
      <section>
        <h2>Section, 160</h2>
        <Row size={160} />
        <Row size={160} stroke="two-stroke" />
        <Row size={160} cooling="air" bore={98} strokeLength={81.5} />
        <div className="row">
          <Section size={160} depth="cover" covered={false} cams={false} />
          <Section size={130} depth="head" />
          <Section size={100} depth="head" />
        </div>
      </section>
      <section>
        <h2>Section, 64, 48, 32, 24</h2>
        {[64, 48, 32, 24].map((size) => (
          <div key={size}>
            <Row size={size} />
            <Row size={size} stroke="two-stroke" />
          </div>
        ))}
        <div className="grey">
          <Row size={64} />
          <Row size={32} cooling="air" />
        </div>
      </section>
    </>
  );
}
