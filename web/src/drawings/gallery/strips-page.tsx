import { LimitStrip, type LimitStripProps } from '../limit-strip.tsx';
import { StateSign } from '../state-sign.tsx';
import { Verdict } from '../verdict.tsx';

const bore = { standard: [88, 88.012], upper: 88.05 } as const;
const gap = { standard: [0.3, 0.4], lower: 0.3, upper: 0.6, decimals: 2 } as const;
const value = (of: number, guard = 0.0031) => ({ kind: 'value', value: of, guard }) as const;
const blade = (goes: number | null, doesNot: number | null) => ({ kind: 'interval', goes, doesNot }) as const;

const strips: readonly LimitStripProps[] = [
  { ...bore, label: 'Bore, size', reading: value(88.008), verdict: 'within standard', earlier: [88.004] },
  {
    ...bore,
    label: 'Bore, size',
    reading: value(88.036),
    verdict: 'within service limit',
    earlier: [88.006, 88.014, 88.021, 88.03],
  },
  {
    ...bore,
    label: 'Bore, size',
    reading: value(88.048),
    verdict: 'undecided',
    earlier: [88.006, 88.017, 88.027, 88.038],
  },
  { ...bore, label: 'Bore, size', reading: value(88.061), verdict: 'past the limit', earlier: [88.012, 88.04] },
  { ...bore, label: 'Bore, on the limit', reading: value(88.05, 0), verdict: 'within service limit' },
  { ...bore, label: 'Bore, wild', reading: value(88.11), verdict: 'past the limit', earlier: [88.012] },
  { ...bore, label: 'Bore, a unit slip', reading: value(3.4665), verdict: 'undecided' },
  { ...bore, label: 'Bore, size', verdict: 'not measured', earlier: [88.012] },
  {
    label: 'Piston, size',
    standard: [87.955, 87.965],
    lower: 87.92,
    reading: value(87.944, 0.0024),
    verdict: 'within service limit',
  },
  { ...gap, label: 'Ring end gap, top', reading: blade(0.38, 0.42), verdict: 'within service limit' },
  { ...gap, label: 'Ring end gap, butting', reading: blade(null, 0.05), verdict: 'past the limit' },
  { ...gap, label: 'Ring end gap, wide', reading: blade(0.58, null), verdict: 'undecided' },
  {
    label: 'Valve lash, intake left',
    standard: [0.1, 0.15],
    lower: 0.08,
    upper: 0.17,
    decimals: 2,
    reading: blade(0.06, 0.07),
    verdict: 'past the limit',
    earlier: [0.12, 0.1],
  },
  {
    label: 'Crank runout',
    standard: [null, 0.03],
    upper: 0.05,
    reading: value(0.034, 0.004),
    verdict: 'within service limit',
  },
  {
    label: 'Big-end side clearance',
    upper: 0.8,
    reading: value(0.42, 0.02),
    decimals: 2,
    verdict: 'within service limit',
  },
];

export function StripsPage() {
  return (
    <>
      <section>
        <h2>Limit strip</h2>
        <div className="row">
          {strips.map((strip, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a fixed list
            <figure key={index} className="strip-figure">
              <figcaption>
                <b>{strip.label}</b>
                <Verdict verdict={strip.verdict} />
              </figcaption>
              <LimitStrip {...strip} width={330} />
            </figure>
          ))}
          {strips.slice(0, 4).map((strip, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a fixed list
            <LimitStrip key={index} {...strip} compact width={220} />
          ))}
        </div>
      </section>
      <section>
        <h2>Stock lines</h2>
        <div className="row">
          {(['pick-now', 'reserved', 'short', 'issued', 'cancelled'] as const).map((state) => (
            <StateSign key={state} state={state} />
          ))}
          <Verdict verdict="undecided" note="14 % likely past" />
        </div>
      </section>
    </>
  );
}
