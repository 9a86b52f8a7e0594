import type { Round } from '#contracts/findings.ts';

const rounds: Readonly<Record<Round, string>> = {
  'as received': 'as received',
  'after work': 'after work',
  'as built': 'as built',
};

const entries = (count: number) => (count === 1 ? 'entry' : 'entries');

/** Words of the measuring bench. */
export const measure = {
  title: (engine: string) => `Measuring, ${engine}`,
  doing: 'measuring',
  reading: (name: string, nth: number, of: number) => `${name}, reading ${nth} of ${of}`,
  at: (label: string) => `At ${label}`,
  repeat: (nth: number) => `taken again, ${nth}`,
  now: 'now',
  nothing: '–',
  list: 'Choose another',
  rounds,
  round: 'Round',
  positions: 'Places',
  waiting: 'not sent yet',
  refused: 'to be mended',
  passedOver: 'left out',
  photos: (count: number) => (count === 1 ? '1 photo' : `${count} photos`),

  gauge: {
    none: 'No instrument here measures this. Ask the lead.',
    typesHere: 'What it types arrives here by itself.',
    wipeBlades: 'Wipe the blades; one that is kinked or worn reads wrong.',
    checkedToday: (name: string, code: string, master: string, time: string) =>
      `${name} ${code}, checked on the ${master} at ${time}.`,
    checkedTodayPlain: (name: string, code: string, time: string) => `${name} ${code}, checked at ${time}.`,
    checkedBefore: (name: string, code: string, when: string) =>
      `${name} ${code}, last checked ${when}: check it first.`,
    neverChecked: (name: string, code: string) => `${name} ${code} was never checked: its zero error is not known.`,
    overdue: (day: string) => `Its calibration ran out on ${day}.`,
    title: 'Which gauge?',
    outOfReach: 'does not cover this size',
    range: (low: string, high: string, unit: string) => `${low} to ${high} ${unit}`,
    due: (day: string) => `calibrated until ${day}`,
    today: 'checked today',
    notToday: 'not checked today',
    held: 'This place has readings with another gauge. Take the repeats with the same, or undo those first.',
  },

  temperature: {
    shown: (part: string) => `${part} °C`,
    shownBoth: (part: string, gauge: string) => `part ${part} °C, gauge ${gauge} °C`,
    notSaid: 'no temperature',
    set: 'Say how warm part and gauge are',
    title: 'How warm are they?',
    why: 'Sizes are judged at 20 °C. Said once, it goes with every reading until you change it. Let part and gauge lie together first.',
    part: 'Part, °C',
    gauge: 'Gauge, °C (empty: as the part)',
    say: 'Use these',
    forget: 'Not known',
    wrong: 'Type degrees Celsius, such as 22.5.',
  },

  verdict: {
    asking: 'Working it out …',
    later: 'The verdict comes when the network is back. Keep measuring.',
    notYet: 'One reading says nothing here yet.',
    alone: 'this reading alone',
    whole: 'all readings together',
    uncertainty: (u: string, unit: string) => `± ${u} ${unit}`,
    why: 'Where that comes from',
    twice: 'Take it again, or keep it and somebody decides.',
    past: (low: string, high: string) =>
      low === high ? `${low} likely to be past it.` : `${low} to ${high} likely to be past it.`,
  },

  budget: {
    title: 'How sure the figure is',
    line: 'from',
    share: 'brings',
    freedom: 'degrees of freedom',
    certain: 'known',
    standard: 'standard uncertainty u',
    expanded: (factor: string) => `expanded, U = ${factor} u`,
    guard: 'kept off the limit',
    statedRule: (factor: number) => `Judged with ${factor} u kept off the limit, as the sheet states`,
    rule: {
      'iso-14253-1-2017': 'Judged by ISO 14253-1:2017, 1.65 u (95 %)',
      'iso-14253-1-1998': 'Judged by ISO 14253-1:1998, 2 u',
      simple: 'Simple acceptance: nothing is kept off the limit',
    },
    close: 'Close',
  },

  mend: {
    title: 'Asked about',
    titleRefused: 'Can’t be kept',
    of: (name: string, place: string, text: string) => `${name}, ${place}: ${text}`,
    sendAs: (text: string, unit: string) => `Send as ${text} ${unit}`,
    right: 'It is right: because …',
    because: 'Why it is right',
    keepIt: 'Keep it, it is right',
    anew: 'Throw it away, key it anew',
    again: 'Send it again',
    stock: ['Measured twice, the same both times', 'Worn as far as that', 'Oversize part fitted'],
  },

  keep: (text: string) => `Keep ${text}`,
  keepMany: (count: number) => `Keep ${count} readings`,
  keepNothing: 'Key the reading',
  again: 'Take it again',
  cannot: 'Can’t measure',
  otherGauge: 'Other gauge',
  pad: 'Number pad',
  erase: 'Erase',
  over: (texts: string) => `Not taken, there is no place left for it: ${texts}.`,
  notTaken: (text: string, name: string) =>
    `Not taken: ${text}. ${name} has all its readings. Go on, or choose the place to take again.`,

  blades: {
    go: 'Goes in, light drag',
    noGo: 'Does not go in',
    open: '?',
    noneGoes: 'None goes in',
    allGo: 'The thickest goes in',
    none: 'none',
    together: 'Lay blades together',
    blade: (text: string) => `blade ${text}`,
    keep: (go: string, noGo: string) => `Keep ${go} goes, ${noGo} does not`,
    keepNone: (noGo: string) => `Keep: ${noGo} does not go in`,
    keepAll: (go: string) => `Keep: ${go} goes in, the thickest`,
    sayBoth: 'Tap the blade that goes, then the one that does not',
    twoToAPlace: 'Two to a place: the blade that goes, then the one that does not; a dash for none.',
    upsideDown: 'The blade that does not go in must be thicker.',
    set: 'Blades',
  },
  felt: {
    title: 'By hand',
    ask: 'Feel for it, then say what you felt.',
    none: 'No play felt',
    play: 'Play felt',
  },

  keys: {
    title: 'By keyboard',
    all: [
      [['Enter'], 'keep, go on'],
      [['Shift', 'Enter'], 'take it again'],
      [['Ctrl', 'Z'], 'undo'],
      [['↑', '↓'], 'place'],
      [['PgUp', 'PgDn'], 'dimension'],
      [['F2'], 'list'],
      [['F4'], 'gauge'],
      [['F8'], 'temperature'],
      [['F9'], 'where u comes from'],
    ],
  },

  last: (place: string) => `last: ${place},`,
  undo: 'Undo last',
  nothingYet: 'Nothing keyed yet.',

  done: {
    title: (name: string) => `${name}: done`,
    leftOut: (places: string) => `Left out: ${places}. Without it this can’t be worked out.`,
    next: (name: string) => `Go on: ${name}`,
    all: 'Everything on the sheet is measured',
    toBench: 'To my bench',
    obliged: (count: number) =>
      count === 1
        ? 'Somebody has to decide on it: 1 open question.'
        : `Somebody has to decide: ${count} open questions.`,
    notWorkedOut: 'Being worked out …',
  },

  choose: {
    title: 'What is measured',
    done: (done: number, of: number) => `${done} of ${of}`,
    derived: 'worked out',
    stated: 'stated by the sheet',
    unjudged: 'only worked with',
    none: 'not measured',
    find: 'Find',
    notFound: 'Nothing on the sheet is called so.',
    close: 'Back to the reading',
    import: 'Bring in a file',
  },

  file: {
    title: 'Bring in readings from a file',
    how: 'Pick a CSV file, or paste its rows. All of it is kept, or nothing: then every bad row is named.',
    template: 'Get a file to fill in',
    pick: 'File',
    paste: 'Or paste the rows here, with their head',
    send: 'Bring in',
    kept: (count: number) => (count === 1 ? '1 reading kept.' : `${count} readings kept.`),
    wrong: 'Nothing was kept. These rows are wrong:',
    empty: 'Pick a file or paste rows first.',
    where: 'where',
    what: 'what is wrong',
    close: 'Close',
  },

  offline: {
    since: (time: string) => `No network since ${time}.`,
    kept: (count: number) => `${count === 1 ? 'is' : 'are'} kept here and will be sent once. Keep measuring.`,
    entries,
    none: 'What you key is kept here and will be sent once.',
    others: (count: number, names: string) =>
      `${count} ${entries(count)} of ${names} ${count === 1 ? 'waits' : 'wait'} here until they tap in.`,
  },
  handedBack: 'This job is handed back: nothing more can be measured on it.',
  noSheet: 'The spec sheet names nothing to measure.',
} as const;
