const several = (count: number, one: string, more: string): string => `${count} ${count === 1 ? one : more}`;

/** Words of the check that every photo and document is still there, and still what was stored. */
export const filesCheck = {
  title: 'Photos and documents',
  why: 'A disk can lose a file, or change it, without a word. The check reads every photo and document to its end, its smaller pictures too, and holds each against its hash from when it was stored. It changes nothing.',
  run: 'Check all files',
  again: 'Check again',
  stop: 'Stop the check',
  running: 'Reading the files…',
  progress: (done: number, of: number) => `${done} of ${of} parts of the folder`,
  stopped: (done: number, of: number) => `Stopped after ${done} of ${of} parts. Of the others nothing is known.`,
  facts: { at: 'Checked', files: 'Files', bytes: 'Read', faults: 'Missing or changed' },
  megabytes: (text: string) => `${text} MB`,
  well: 'Every photo and document is there, as it was stored.',
  none: 'none',
  missing: (count: number) => `${several(count, 'file is', 'files are')} not there`,
  changed: (count: number) => `${several(count, 'file is', 'files are')} no longer what was stored`,
  smaller: (count: number) => `${several(count, 'smaller picture is', 'smaller pictures are')} missing or changed`,
  spare: (count: number) => `${several(count, 'file belongs', 'files belong')} to no photo`,
  missingDo:
    'Bring each file back from the newest backup of the folder of files, its two smaller pictures with it: same folder, same name.',
  changedDo:
    'What is shown of them can’t be trusted. Replace each file by the one from the last backup that was made before it changed, then check again. More than one changed file speaks for a failing disk.',
  smallerDo:
    'The picture itself is not meant, only what lists (small) or screens (large) show in its place. Replace each file by the one from the last backup.',
  spareDo:
    'They do no harm: a backup or a power cut left them. They may be deleted once a check finds nothing missing.',
  how: 'Whoever runs the server finds the steps in docs/operate.md, under “Are all files there?”.',
  fault: {
    'other bytes': 'Other bytes than were stored',
    unreadable: 'Can’t be read to its end',
    missing: 'Not there',
  },
  ofEngine: 'the engine as a whole',
  uncounted: 'pieces that you are yet to count',
  job: (number: number) => `job ${number}`,
  taken: (when: string, by: string) => `taken ${when} by ${by}`,
  removedOnly: 'Shown by removed photos only',
  more: (count: number) => `And ${count} more: npm run admin -- files lists every one.`,
} as const;
