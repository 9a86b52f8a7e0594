/** One step of the search for a piece that may be inside an engine. */
export interface SearchStep {
  readonly code: string;
  readonly title: string;
  readonly words: string;
  /** What can go wrong in this step; empty: nothing of its own. */
  readonly caution: string;
  /** Whether the case has to be open for it to make sense; then it is a last resort. */
  readonly lastResort: boolean;
}

/**
 * The search, in the order in which it costs least and disturbs least. From common practice in the trade, no source;
 * the maker's manual and the lead decide what applies to this engine.
 */
export const searchSteps: readonly SearchStep[] = [
  {
    code: 'stop',
    title: 'Stop, and leave the crank where it is',
    words:
      'Say it aloud at the bench. Plug lead earthed, a tag on the crank: nobody turns the engine, not by hand either.',
    caution: 'A piece under a valve, a piston or in the cam drive breaks what it meets with the first turn.',
    lastResort: false,
  },
  {
    code: 'count-again',
    title: 'Count again, with another person',
    words:
      'Every tray and bag of this job, piece by piece; look into the part it came from and the one it may have stuck to: dowels stay in either.',
    caution: '',
    lastResort: false,
  },
  {
    code: 'bench',
    title: 'Bench, floor, wash and pockets',
    words:
      'Under the trays, the stand, in the rags, the wash basin and its strainer, the waste bin, the parts washer, the soles of the boots.',
    caution: 'Used rags and strainers hold sharp swarf and solvent: gloves.',
    lastResort: false,
  },
  {
    code: 'light',
    title: 'Light and mirror',
    words:
      'Down every opening: plug hole, ports, cam chain tunnel, dowel and stud holes, oil ways, the case mouth under the piston.',
    caution: 'No naked flame or hot lamp near fuel and solvent vapour.',
    lastResort: false,
  },
  {
    code: 'magnet',
    title: 'Magnet',
    words:
      'A magnet on a wand into the tunnel, the case mouth and the sump. Aluminium, brass and stainless pieces do not come to it.',
    caution: 'Keep the magnet off bearings and pick-ups, and wipe it: it brings filings with it.',
    lastResort: false,
  },
  {
    code: 'tilt',
    title: 'Tilt',
    words:
      'Openings plugged but one; tilt the engine so that the piece can roll out of it over a clean white cloth, and listen.',
    caution: 'Two people lift. Drain fuel and oil first, or they come out with it. The crank stays still.',
    lastResort: false,
  },
  {
    code: 'borescope',
    title: 'Borescope',
    words: 'Through plug hole, ports, tunnel and drain hole, slowly, with a picture of each place kept on the job.',
    caution: 'Do not force the probe past valves or the chain.',
    lastResort: false,
  },
  {
    code: 'drain',
    title: 'Drain and strain the oil',
    words:
      'Through a fine strainer into a clean pan; then flush with a little clean oil and strain again. Cut the filter open.',
    caution: 'Hot oil burns. Collect used oil by local rules.',
    lastResort: false,
  },
  {
    code: 'split',
    title: 'Split the case',
    words:
      'When nothing else has found it and it can’t be shown to be elsewhere. The lead decides; it is work of its own, to be quoted.',
    caution: 'By the maker’s manual, with its tools. Never lever the halves apart at their faces.',
    lastResort: true,
  },
];

/** The steps that are done at trays and benches, wherever the engine is; all others are done at the engine itself. */
export const stepsApartFromEngine: ReadonlySet<string> = new Set(['count-again', 'bench']);

/** The steps a lead's decision expects to be ticked: all but the last resort. */
export const expectedSteps: readonly SearchStep[] = searchSteps.filter(({ lastResort }) => !lastResort);
