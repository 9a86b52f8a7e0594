import { rack } from './rack.ts';

const pieces = (count: number): string => (count === 1 ? '1 piece' : `${count} pieces`);

/** The closing check, the search for what may be inside, a tray's page, and open engines that raise their voice. */
export const tally = {
  reading: 'Reading the tally',
  notOpen: 'This engine is not open',
  notOpenWhy: 'There is nothing to check or to look for: it was never opened, or it is closed.',
  toBench: 'To my bench',
  check: {
    title: (engine: string) => `${engine}, closing check`,
    doing: 'Closing check',
    why: 'In reverse order of removal: look at each line on the engine, then tick it. Whoever put a line back, or changed places of its rack, does not tick it.',
    left: (left: number, lines: number) =>
      left === 0 ? `All ${lines} lines ticked` : `${left} of ${lines} lines to tick`,
    none: 'Nothing has come off yet.',
    tick: 'Seen, as it says',
    own: 'You worked on it: another person ticks it.',
    notReady: 'Not settled yet: it is ticked once it is back, renewed or accounted for.',
    blind: 'Shows once its tray is counted',
    /** Where those of a line lie that are still loose. */
    lies: (where: string, count: number | null, places: string) =>
      [count === null ? '' : `${count} `, where, places === '' ? '' : ` (${places})`].join(''),
    by: (name: string) => `worked on by ${name}`,
    ticked: (name: string, time: string) => `ticked by ${name}, ${time}`,
    next: 'Next',
    close: 'To the closing',
    fixed: 'To the tally',
    more: (count: number) => `${count} lines ticked before it`,
  },
  search: {
    title: (engine: string) => `${engine}, search`,
    doing: 'Search for what may be inside',
    locked: 'Do not turn this engine over',
    lockedWhy:
      'Proofs, lash and compression readings, and steps that turn it are refused until the search has ended. Tag the crank and say it aloud.',
    none: 'Nothing is being looked for in this engine.',
    missing: (count: number, what: string) => `${count} × ${what}`,
    hidden: (what: string) => what,
    since: (name: string, time: string) => `declared by ${name}, ${time}`,
    steps: 'Step by step, the least disturbing first',
    tick: 'Looked, not found',
    said: 'What you saw (optional)',
    ticked: (name: string, time: string) => `${name}, ${time}`,
    lastResort: 'last resort: the lead decides',
    caution: 'Caution',
    found: 'It is found',
    foundWhere: 'Where it was',
    sayFound: 'Found: end the search',
    cancel: 'Not now',
    decide: 'A lead decides that it is not inside',
    decideWhy:
      'Every step but the last resort is ticked first. The decision is printed on the build sheet with your name.',
    decideReason: 'Why it can’t be inside',
    sayDecide: 'Not inside, I answer for it',
    ended: (outcome: 'found' | 'not inside', name: string, time: string) =>
      `${outcome === 'found' ? 'Found' : 'Not inside'}, says ${name}, ${time}`,
    manual: 'The maker’s manual, local codes and qualified people decide; this list only helps to leave nothing out.',
    open: 'To the search',
  },
  tray: {
    title: (label: string) => `Tray ${label}`,
    heldBy: (name: string, place: string | null) => (place === null ? `${name} has it` : `${name} has it, ${place}`),
    nobody: 'nobody holds it',
    notHere: 'There is no such tray in use',
    notHereWhy: 'It was emptied when its engine was handed back, or the label is another shop’s.',
    empty: 'Nothing loose lies in it.',
    move: 'Move pieces',
    reason: 'Why (optional)',
    go: (count: number) => `Move ${pieces(count)}`,
  },
  rack,
  voices: {
    grave: (count: number) =>
      count === 1 ? 'One open engine needs a look now' : `${count} open engines need a look now`,
    long: (count: number) =>
      count === 1
        ? 'One engine is open for longer than the shop allows'
        : `${count} engines are open for longer than the shop allows`,
    alsoLong: (count: number) =>
      count === 1
        ? 'One more is open for longer than the shop allows'
        : `${count} more are open for longer than the shop allows`,
    which: 'Which?',
    seen: (name: string, time: string) => `last seen by ${name}, ${time}`,
    look: 'Looked: covered',
    mine: 'Why this engine raises its voice',
    since: (time: string) => `since ${time}`,
  },
  rule: {
    title: 'Open engines',
    why: 'When an open engine raises its voice on the floor, at the bench of who holds it, and to you.',
    uncovered: 'Uncovered at most, minutes',
    covered: 'Open at most, hours',
    shiftEnds: 'End of the shift, by day; an empty day has none',
    zone: (zone: string) => `in the shop’s zone, ${zone}`,
    days: ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'],
    note: 'Why (optional)',
    save: 'Set the limits',
    saved: 'Set. They hold from now on.',
    first: 'Nobody has set them yet: the shop starts with these.',
    history: 'What they were before',
    line: (uncovered: number, covered: number) => `uncovered ${uncovered} min, open ${covered} h`,
    by: (name: string, time: string) => `${name}, ${time}`,
  },
} as const;
