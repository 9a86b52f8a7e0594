const pieces = (count: number): string => (count === 1 ? '1 piece' : `${count} pieces`);

/** Sets kept in order, place by place. */
export const rack = {
  title: 'Kept in order',
  why: 'Each piece goes back where it came from. Tap the places it is about.',
  facts: (places: number, from: string) => `${places} places${from === '' ? '' : `, ${from}`}`,
  standing: (filled: number, loose: number) =>
    filled === 0 && loose === 0 ? 'All empty: nothing of it is loose.' : `${filled} filled, ${loose} loose.`,
  rackOf: (piece: string) => `Rack of ${piece}`,
  job: (number: number) => `job ${number}`,
  inTray: (tray: string) => `in tray ${tray}`,
  itLies: 'Lies',
  beside: 'beside the engine',
  nowhere: 'Nothing of it is loose now.',
  closed: (time: string) => `Its engine was closed ${time}: so it lay then.`,
  /** Which places of a set that lies in two trays lie where. */
  split: (parts: readonly (readonly [where: string, places: string])[]) =>
    `In ${parts.length} places: ${parts.map(([where, places]) => `${places} ${where}`).join('; ')}.`,
  openRack: 'To its rack',
  offWhich: (piece: string) => `${piece}: which places are these from?`,
  offWhichWhy: (count: number) =>
    count === 1 ? 'One is off. Tap the place it came from.' : `${count} are off. Tap the places they came from.`,
  notKnown: 'Nobody can tell which',
  notKnownWhy: 'They are counted without their places; whoever finds out says so in the rack.',
  hidden: 'Which places are filled shows once its tray is counted.',
  unplaced: (count: number) =>
    count === 1
      ? 'One is loose and lies in no place yet: tap the place it lies in.'
      : `${count} are loose and lie in no place yet: tap the places they lie in.`,
  wrong: (place: string, from: string) => `${place} holds the piece of ${from}`,
  wrongWhy: (reason: string, name: string, time: string) => `${reason} (${name}, ${time})`,
  chosen: (places: string) => `Chosen: ${places}`,
  back: (count: number) => `Back on: ${pieces(count)}`,
  renewed: (count: number) => `New on: ${pieces(count)}`,
  fill: (count: number) => (count === 1 ? 'One lies here' : 'They lie here'),
  empty: (count: number) => (count === 1 ? 'It is empty' : 'They are empty'),
  mixed: 'Choose only filled places, or only empty ones.',
  tooMany: (loose: number) =>
    loose === 0 ? 'None of it is loose that lies in no place.' : `Only ${loose} are loose that lie in no place.`,
  move: 'Into another tray',
  swap: 'Swap these two',
  swapReason: 'Why they change places',
  swapGo: 'Swap them, and sign for it',
  cancel: 'Not now',
  atValve: 'From its rack into this valve',
  lies: (where: string) => `lies in its place, ${where}`,
  isOn: 'its place is empty: on the engine, or not off yet',
  holds: (from: string) => `wrong: the one of ${from} lies in this place`,
  putOn: (piece: string) => `${piece} back on`,
  where: (tray: string | null) => (tray === null ? 'beside the engine' : `in tray ${tray}`),
  whereShort: (tray: string | null) => tray ?? 'by the engine',
  choose: (piece: string) => `${piece}: which places`,
} as const;
