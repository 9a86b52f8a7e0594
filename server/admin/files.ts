import { checkFiles } from '#features/photos/file-service.ts';
import { openFileStore } from '../platform/files/store.ts';
import type { Command } from './command.ts';

/** Holds the photos and documents that rows name against the files in the folder. */
export const files: Command = {
  summary:
    'says which photos and documents have no file, and which files nothing names (exit code 1 when one has none)',
  run: async ({ sql, config, say }) => {
    const { missing, spare, files: stored } = await checkFiles(sql, openFileStore(config.filesFolder));
    say(`Looked at ${stored} ${stored === 1 ? 'file' : 'files'} in ${config.filesFolder}.`);
    for (const { photoId, hash } of missing) say(`Photo ${photoId}: its file ${hash} is not there.`);
    for (const hash of spare) say(`File ${hash}: no photo names it.`);
    if (missing.length > 0) say('Bring back from a backup of the files what is missing. Nothing was changed.');
    else say(spare.length === 0 ? 'Every photo has its file, and every file its photo.' : 'Every photo has its file.');
    return missing.length === 0 ? 0 : 1;
  },
};
