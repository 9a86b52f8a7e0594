import { useWords } from '../words/words.tsx';
import { useMay } from './session.tsx';

type ViewPath =
  | '/'
  | '/bench'
  | '/engines'
  | '/stores'
  | '/counter'
  | '/custody'
  | '/shift-end'
  | '/loose-bench'
  | '/gauges'
  | '/labels'
  | '/specs'
  | '/shop';

export interface View {
  readonly to: ViewPath;
  readonly label: string;
  /** What is found there, where the name alone doesn't tell. */
  readonly note?: string;
}

/** The views one may see: those gone to all day, and those looked up now and then. */
export function useViews(): { readonly daily: readonly View[]; readonly more: readonly View[] } {
  const { app } = useWords();
  const counter = useMay('counter');
  const bench = useMay('bench');
  const setUp = useMay('set up');
  const only = (may: boolean, view: View): readonly View[] => (may ? [view] : []);
  return {
    daily: [
      { to: '/', label: app.floor },
      ...only(bench, { to: '/bench', label: app.bench }),
      { to: '/engines', label: app.engines },
      { to: '/stores', label: app.stores },
      ...only(counter, { to: '/counter', label: app.counter }),
    ],
    more: [
      { to: '/custody', label: app.custody, note: app.custodyNote },
      { to: '/shift-end', label: app.shiftEnd, note: app.shiftEndNote },
      { to: '/loose-bench', label: app.looseBench, note: app.looseBenchNote },
      ...only(bench, { to: '/gauges', label: app.gauges, note: app.gaugesNote }),
      { to: '/labels', label: app.labels, note: app.labelsNote },
      { to: '/specs', label: app.specs, note: app.specsNote },
      ...only(setUp, { to: '/shop', label: app.shop, note: app.shopNote }),
    ],
  };
}
