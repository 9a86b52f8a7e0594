import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { torqueNotes } from '#domain/spec-sheet/torque-notes.ts';
import { BoltMap } from '../../drawings/bolt-map.tsx';
import { RingClock } from '../../drawings/ring-clock.tsx';
import { quantityText } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';

type Part = { readonly document: SpecSheetDocument };

/** What the sheet says of putting the engine together and proving it. */
export function SheetAssembly({ document }: Part) {
  return (
    <>
      <Fasteners document={document} />
      <div className="two">
        <Rings document={document} />
        <Valves document={document} />
      </div>
      <Proofs document={document} />
    </>
  );
}

function Fasteners({ document }: Part) {
  const { specs: words } = useWords();
  if (document.fasteners.length === 0) return null;
  return (
    <section>
      <h2>{words.fasteners}</h2>
      <div className="sets">
        {document.fasteners.map((set) => (
          <article key={set.code} className="set">
            <BoltMap
              width={260}
              backdrop="plain"
              stage={1}
              stages={set.stages.length}
              bolts={set.positions.map(({ x, y }, index) => ({
                id: String(index),
                number: String(index + 1),
                x: Number(x.value),
                y: Number(y.value),
                stagesDone: 0,
              }))}
            />
            <div>
              <h3>{set.name}</h3>
              <p className="num">
                <b>
                  {words.stages(
                    set.stages
                      .map(({ torque, angle }) => torque ?? angle)
                      .map((one) => (one === null ? '' : quantityText(one)))
                      .join(', '),
                  )}
                </b>
              </p>
              <p className="note">
                {[set.thread, set.propertyClass, set.condition, set.tool, set.reuse].filter(Boolean).join(' · ')}
              </p>
              <p className="note">{[set.source, set.page].filter(Boolean).join(', ')}</p>
              {torqueNotes({ fasteners: [set] }).map(({ stage, kind, shareOfProof, swap }) => (
                <p key={stage} className={kind === 'warn' ? 'hot' : 'caution'}>
                  {words.pastProof(stage, Math.round(shareOfProof * 100), kind)}
                  {swap === null ? '' : ` ${words.swapped(swap)}`}
                </p>
              ))}
            </div>
          </article>
        ))}
      </div>
    </section>
  );
}

function Rings({ document }: Part) {
  const { specs: words } = useWords();
  const { rings, ringZones, ringSeparation } = document;
  if (rings.length === 0) return null;
  return (
    <section className="rings">
      <h2>{words.rings}</h2>
      <RingClock
        size={300}
        gaps={rings.map(({ name, angle }, index) => ({ mark: String(index + 1), name, angle: Number(angle.value) }))}
        forbidden={ringZones.map(({ from, to }) => ({ from: Number(from.value), to: Number(to.value) }))}
      />
      <ul>
        {rings.map(({ code, name, angle }) => (
          <li key={code}>
            {name} <b className="num">{quantityText(angle)}</b>
          </li>
        ))}
        {ringZones.map(({ from, to, reason }) => (
          <li key={`${from.value} ${to.value}`} className="note">
            {words.fromTo(quantityText(from), quantityText(to))}: {reason}
          </li>
        ))}
        {ringSeparation === null ? null : <li className="note">{words.ringsApart(quantityText(ringSeparation))}</li>}
      </ul>
    </section>
  );
}

function Valves({ document }: Part) {
  const { specs: words } = useWords();
  if (document.valves.length === 0) return null;
  return (
    <section>
      <h2>{words.valves}</h2>
      <div className="scroll-x">
        <table>
          <thead>
            <tr>
              <th scope="col">{words.valves}</th>
              <th scope="col">{words.wanted}</th>
              <th scope="col">{words.adjuster}</th>
            </tr>
          </thead>
          <tbody>
            {document.valves.map(({ code, name, wanted, adjuster, shimDiameter, shimSizes, screwPitch }) => (
              <tr key={code}>
                <td>{name}</td>
                <td className="num">{quantityText(wanted)}</td>
                <td>
                  {adjuster}
                  <span className="note num line">
                    {[
                      ...(shimDiameter === null ? [] : [`⌀ ${quantityText(shimDiameter)}`]),
                      ...(shimSizes === null ? [] : [words.fromTo(shimSizes.low.value, quantityText(shimSizes.high))]),
                      ...(screwPitch === null ? [] : [quantityText(screwPitch)]),
                    ].join(', ')}
                  </span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Proofs({ document }: Part) {
  const { specs: words } = useWords();
  if (document.proofs.length === 0) return null;
  return (
    <section>
      <h2>{words.proofs}</h2>
      <ul className="proofs">
        {document.proofs.map(({ code, name, words: how, caution }) => (
          <li key={code}>
            <b>{name}</b> {how}
            {caution === '' ? null : <p className="caution">{caution}</p>}
          </li>
        ))}
      </ul>
    </section>
  );
}
