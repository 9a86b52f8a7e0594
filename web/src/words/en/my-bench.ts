import { countedPlace } from '#domain/custody/counting.ts';

const sentence = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
const several = (count: number, one: string, many: string) => `${count} ${count === 1 ? one : many}`;
const engines = (count: number) => several(count, 'engine', 'engines');
const trays = (count: number) => several(count, 'tray', 'trays');

/** Words of a technician's own bench, and of counting with gloves on. */
export const myBench = {
  title: 'My bench',
  reading: 'Reading your bench',
  holdNothing: 'You hold nothing. You can tap out.',
  hold: (held: number, heldTrays: number) =>
    `You hold ${[...(held === 0 ? [] : [engines(held)]), ...(heldTrays === 0 ? [] : [trays(heldTrays)])].join(' and ')}.`,
  endOfShift: 'At the end of your shift nothing stays with you: hand it over, or leave it in a bay, counted.',
  uncovered: (count: number) =>
    count === 1
      ? 'One engine of yours is uncovered: cover it.'
      : `${count} engines of yours are uncovered: cover them.`,

  mine: 'What I hold',
  nothingHeld: 'Nothing on your bench',
  nothingHeldWhy: 'Take an engine that rests in a bay, or have one handed over to you.',
  since: (since: string) => `since ${since}`,
  inBay: (bay: string) => `in ${bay}`,
  atNoBay: 'in no bay',
  trays: 'Trays with you',
  noTrays: 'No tray of it is with you.',
  traysElsewhere: 'Its other trays',
  heldAt: (holder: string, place: string | null) =>
    place === null || place === holder ? holder : `${holder}, ${place}`,
  offeredOut: (receiver: string) => `Offered to ${receiver}. You hold it until they accept.`,
  traysOnly: (serial: string) => `Trays of ${serial}`,
  engineWith: (holder: string) => `The engine itself: ${holder}`,
  next: 'Next',
  nextStep: (procedure: string, ordinal: number, title: string) => `${procedure}, step ${ordinal}: ${title}`,
  begin: 'Choose a procedure',
  stepsDone: 'The procedure is through: measure',
  allDone: 'Every procedure is through',
  procedure: 'Procedure',
  measure: 'Measure',
  assemble: 'Assemble',
  handOver: 'Hand over',
  leave: 'Leave in a bay',
  sendOut: 'Send out',
  cover: 'Cover it',
  uncover: 'Uncover it',

  toMe: 'Offered to me',
  offers: (giver: string) => `${giver} hands over`,
  offeredAt: (time: string) => `offered ${time}`,
  engineAnd: (count: number) => (count === 0 ? 'the engine' : `the engine and ${trays(count)}`),
  onlyTrays: (count: number) => trays(count),
  countNow: 'Count it now',
  goOnCounting: 'Go on counting',
  byMe: 'Offered by me',
  waitsFor: (receiver: string) => `waits for ${receiver}`,
  countedSoFar: (done: number, all: number) => `${done} of ${all} counted`,
  lookAt: 'Look at it',
  withdraw: 'Withdraw',

  stops: 'Waiting for a second person',
  stopOf: (doneBy: string, time: string) => `${doneBy} did it ${time}. Somebody else looks and signs.`,
  stopStep: (procedure: string, ordinal: number) => `${procedure}, step ${ordinal}`,
  look: 'Look and sign',

  resting: 'Resting in a bay',
  restingHere: (bay: string) => `${bay}, where this terminal stands`,
  nothingRests: 'No engine or tray rests in a bay.',
  take: 'Take it',
  withTrays: (count: number) => (count === 0 ? 'no tray beside it' : `${trays(count)} beside it`),
  onlyTraysRest: (labels: string) => `only trays: ${labels}`,

  move: {
    take: (what: string) => `Take ${what}`,
    leave: (what: string) => `Leave ${what} in a bay`,
    engine: 'The engine itself',
    what: 'What',
    toBay: 'Where you work on it',
    leaveIn: 'Which bay',
    full: (taken: number, capacity: number) => `${taken} of ${capacity} taken`,
    reading: 'Reading its trays',
    count: 'Count everything that moves. What should be there shows after your count.',
    withEngine: 'In no tray, with the engine',
    emptyTray: 'nothing loose in it',
    chooseBay: 'Choose the bay first.',
    chooseSomething: 'Choose what goes.',
    doTake: (pieces: number) => (pieces === 0 ? 'Take it' : `Take it: ${several(pieces, 'piece', 'pieces')} counted`),
    doLeave: (pieces: number) =>
      pieces === 0 ? 'Leave it' : `Leave it: ${several(pieces, 'piece', 'pieces')} counted`,
    differs: 'Your count differs',
    difference: (tray: string, piece: string, counted: number, given: number) =>
      `${sentence(countedPlace(tray))}: ${counted} × ${piece} counted, ${given} on the tally.`,
    countAgain:
      'This count is kept, and a lead settles the difference, whatever is counted next. Count again, above; if it stays so, go on with it.',
    withDifference: 'Go on with the difference',
    close: 'Not now',
  },
  send: {
    title: (what: string) => `Send out of ${what}`,
    reading: 'Reading the vendors',
    vendor: 'To which vendor',
    work: 'What they do to it',
    workHint: 'As it goes on their slip, with the size asked for.',
    due: 'Due back',
    dueHint: 'The day they said, or the day you will ask again.',
    go: (pieces: number) =>
      pieces === 0 ? 'Send it out' : `Send it out: ${several(pieces, 'piece', 'pieces')} counted`,
  },
  back: {
    list: 'At a vendor',
    at: (vendor: string, due: string | null) => (due === null ? `${vendor}, no date` : `${vendor}, due ${due}`),
    slip: 'Packing slip',
    late: 'late',
    take: 'It is back',
    takeOf: (engine: string, vendor: string) => `It is back: ${engine}, from ${vendor}`,
    title: (vendor: string) => `Back from ${vendor}`,
    bay: 'Where it is put down',
    go: (pieces: number) => (pieces === 0 ? 'Take it in' : `Take it in: ${several(pieces, 'piece', 'pieces')} counted`),
  },
  counting: {
    all: (count: number) => `All ${count}`,
    allOf: (count: number, name: string) => `All ${count}: ${name}`,
    howMany: (name: string) => `How many: ${name}`,
    expected: (count: number) => `${count} expected`,
    left: (count: number) =>
      `${several(count, 'kind of piece is', 'kinds of pieces are')} not counted yet. Key 0 where none is there.`,
  },
  line: {
    down: (time: string) => `No network since ${time}.`,
    kept: 'What you enter stays on this screen. Send it again when the network is back.',
  },
} as const;
