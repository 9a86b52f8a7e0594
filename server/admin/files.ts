import { checkFiles, photosWith } from '#features/photos/check-service.ts';
import { openFileStore } from '../platform/files/store.ts';
import type { Command } from './command.ts';

const faultWords = {
  'other bytes': 'has other bytes than were stored',
  unreadable: 'can’t be read',
  missing: 'is not there',
} as const;

/** Holds the photos and documents that rows name against the files in the folder, and each file against its hash. */
export const files: Command = {
  summary:
    'reads every photo and document: which have no file, which files changed, which nothing names (exit code 1 when one is missing or changed)',
  run: async ({ sql, config, say }) => {
    const checked = await checkFiles({ sql, store: openFileStore(config.filesFolder) });
    const { missing, changed, smaller, spare } = checked;
    const rows = await photosWith(sql, checked);
    const shownBy = (hash: string): string => {
      const photos = rows.filter((row) => row.hash === hash);
      if (photos.length === 0) return 'Only removed photos';
      return photos.map(({ id, serial, jobNumber }) => `Photo ${id} (engine ${serial}, job ${jobNumber})`).join(', ');
    };
    say(
      `Read ${checked.files} ${checked.files === 1 ? 'file' : 'files'}, ${checked.bytes} bytes, in ${config.filesFolder}.`,
    );
    for (const hash of missing) say(`${shownBy(hash)}: the file ${hash} is not there.`);
    for (const [hash, fault] of changed) say(`${shownBy(hash)}: the file ${hash} ${faultWords[fault]}.`);
    for (const { hash, part, fault } of smaller)
      say(`${shownBy(hash)}: the file ${hash}.${part} ${faultWords[fault]}.`);
    for (const hash of spare) say(`File ${hash}: no photo names it.`);
    if (missing.length + changed.size + smaller.length > 0) {
      say('Bring each of them back from a backup of the files (docs/operate.md). This command mends nothing.');
      return 1;
    }
    say(
      spare.length === 0
        ? 'Every photo has its file as it was stored, and every file its photo.'
        : 'Every photo has its file as it was stored.',
    );
    return 0;
  },
};
