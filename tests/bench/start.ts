import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { projectFolder } from '#platform/project-folder.ts';
import type { Figure } from './figures.ts';

/** Seconds from `npm start`'s script to the printed address, with everything installed, built and loaded. */
async function secondsToServe(dataFolder: string): Promise<number> {
  const begun = performance.now();
  const child = spawn(process.execPath, ['start.mjs'], {
    cwd: projectFolder,
    env: { ...process.env, PORT: '0', CROSSHATCH_DATA: dataFolder },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const seconds = await new Promise<number>((resolve, reject) => {
    let heard = '';
    child.stdout.on('data', (chunk: Buffer) => {
      heard += chunk.toString();
      if (heard.includes('Crosshatch is at')) resolve((performance.now() - begun) / 1000);
    });
    child.once('exit', (code) => reject(new Error(`start.mjs ended with ${code} before it served:\n${heard}`)));
  });
  child.kill('SIGINT');
  await ended;
  return seconds;
}

/** The first start makes the data folder and loads the demo; the second is what a shop sees every morning. */
export async function start(): Promise<readonly Figure[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'crosshatch-start-'));
  try {
    const first = await secondsToServe(folder);
    const second = await secondsToServe(folder);
    return [
      { name: 'start.first', value: first, unit: 's' },
      { name: 'start.second', value: second, unit: 's' },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
