const purchaseLines = (count: number) => `${count} ${count === 1 ? 'line' : 'lines'}`;
const classes = (count: number) => `${count} ${count === 1 ? 'class' : 'classes'}`;
const cores = (count: number) => `${count} ${count === 1 ? 'core' : 'cores'}`;
const already = (unchanged: number) => (unchanged === 0 ? '' : `, ${unchanged} stand so already`);

/** Changing several parts at once. */
export const partChanges = {
  tick: (part: string) => `Choose ${part}`,
  all: 'Choose all shown',
  none: 'Choose none',
  hint: 'Shift chooses all from the last one chosen.',
  open: (count: number) => (count === 0 ? 'Change the chosen' : `Change ${count} ${count === 1 ? 'part' : 'parts'}`),
  title: (count: number) => `Change ${count} ${count === 1 ? 'part' : 'parts'}`,
  stays: 'What is left empty stays as it is, part by part.',
  reorderPoint: 'Reorder at',
  vendor: 'Bought from',
  sizeClass: 'Size class',
  grade: 'Grade',
  placeCode: 'Place of the engine',
  oneTime: 'One-time use',
  asItIs: 'As it is',
  lastOne: 'Whoever priced or sold it last',
  yes: 'Yes',
  no: 'No',
  whole: 'Whole pieces, 0 to 100 000.',
  check: 'Show what would change',
  write: (count: number) => `Change ${count}`,
  close: 'Close',
  would: (count: number, unchanged: number) =>
    `${count} ${count === 1 ? 'part' : 'parts'} would change${already(unchanged)}. Nothing is kept yet.`,
  done: (count: number) => `${count} ${count === 1 ? 'part was' : 'parts were'} changed.`,
  part: 'Part',
  fact: 'What',
  from: 'From',
  to: 'To',
  nothing: '–',
} as const;

/** Telling one day of several lines that are to come. */
export const lineChanges = {
  open: (count: number) => (count === 0 ? 'Move the day of the chosen' : `Move the day of ${purchaseLines(count)}`),
  title: (count: number) => `The day of ${purchaseLines(count)}`,
  stays: 'All of them get the day that their vendor gave. Each keeps what was told of it before.',
  line: 'Line',
  order: (number: number) => `order ${number}`,
  promisedOn: 'Promised for',
  would: (count: number, unchanged: number) =>
    `${purchaseLines(count)} would get another day${unchanged === 0 ? '' : `, ${unchanged} have it already`}. Nothing is kept yet.`,
  done: (count: number) => `${purchaseLines(count)} ${count === 1 ? 'has' : 'have'} another day.`,
  waits: 'Who gets the pieces on another day',
  nobodyWaits: 'Nobody who waits gets pieces on another day by it.',
  job: 'Job',
  jobName: (number: number, family: string, serial: string) => `${number}, ${family} ${serial}`,
  owner: 'Told the owner',
  tooLate: 'too late for it',
} as const;

/** Setting the rules of several classes of counts. */
export const ruleChanges = {
  open: (count: number) => (count === 0 ? 'Set the chosen together' : `Set ${classes(count)} together`),
  title: (count: number) => `Set ${classes(count)}`,
  stays: 'What is left empty stays as it is, class by class.',
  one: 'Class',
  whole: 'A whole number.',
  would: (count: number, unchanged: number) =>
    `${classes(count)} would change${already(unchanged)}. Nothing is kept yet.`,
  done: (count: number) => `${classes(count)} ${count === 1 ? 'was' : 'were'} set.`,
  due: (from: number, to: number) =>
    from === to
      ? `${from} bins are due to be counted, as before.`
      : `${to} bins are due to be counted then, ${from} are now.`,
} as const;

/** Marking several worn pieces that vendors charge for. */
export const coreChanges = {
  open: (count: number) => (count === 0 ? 'Mark the chosen' : `Mark ${cores(count)}`),
  title: (count: number) => `Mark ${cores(count)}`,
  stays: 'All of them went back in one box, or stand on one credit note.',
  what: 'What became of them',
  words: 'Box or credit note',
  wordsHint: 'Its number, where there is one.',
  of: (quantity: number, vendor: string) => `${quantity} of ${vendor}`,
  states: { owed: 'owed', sent: 'sent', credited: 'credited' },
  would: (count: number, unchanged: number) =>
    `${cores(count)} would be marked${unchanged === 0 ? '' : `, ${unchanged} are so already`}. Nothing is kept yet.`,
  done: (count: number) => `${cores(count)} ${count === 1 ? 'was' : 'were'} marked.`,
} as const;
