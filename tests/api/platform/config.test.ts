import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, test } from 'vitest';
import { type Config, readConfig } from '#platform/config.ts';

function configOf(environment: Record<string, string>): Config {
  const result = readConfig(environment, '/srv/crosshatch');
  if (!result.ok) throw new Error(result.faults.join('; '));
  return result.config;
}

function faultsOf(environment: Record<string, string>): readonly string[] {
  const result = readConfig(environment, '/srv/crosshatch');
  return result.ok ? [] : result.faults;
}

test('without settings it listens on this machine only, with the demo, in the data folder of the project', () => {
  expect(configOf({})).toEqual({
    port: 8080,
    host: '127.0.0.1',
    loopback: true,
    databaseUrl: undefined,
    dataFolder: '/srv/crosshatch/data',
    filesFolder: '/srv/crosshatch/data/files',
    demo: true,
    anchor: undefined,
    logLevel: 'warn',
    publicOrigin: undefined,
    projectFolder: '/srv/crosshatch',
  });
});

test('nobody can change it afterwards', () => {
  expect(Object.isFrozen(configOf({}))).toBe(true);
});

test('an empty setting counts as not given', () => {
  expect(configOf({ PORT: '', DATABASE_URL: '', PUBLIC_ORIGIN: '' }).port).toBe(8080);
});

test('a relative data folder lies in the project, an absolute one where it says', () => {
  expect(configOf({ CROSSHATCH_DATA: 'shop' }).dataFolder).toBe('/srv/crosshatch/shop');
  expect(configOf({ CROSSHATCH_DATA: '/mnt/shop' }).dataFolder).toBe('/mnt/shop');
  expect(configOf({ CROSSHATCH_DATA: '/mnt/shop' }).filesFolder).toBe('/mnt/shop/files');
  expect(configOf({ CROSSHATCH_FILES: '/mnt/photos' }).filesFolder).toBe('/mnt/photos');
});

test.each([
  ['127.0.0.1', true],
  ['127.8.9.1', true],
  ['localhost', true],
  ['::1', true],
  ['0.0.0.0', false],
  ['::', false],
  ['192.168.1.20', false],
  ['127.example', false],
])('listening on %s: only this machine reaches it: %s', (host, loopback) => {
  expect(configOf({ HOST: host }).loopback).toBe(loopback);
});

test.each([
  [{ PORT: '65536' }, 'PORT'],
  [{ PORT: '-1' }, 'PORT'],
  [{ PORT: '80.5' }, 'PORT'],
  [{ HOST: 'two words' }, 'HOST'],
  [{ DATABASE_URL: 'mysql://shop@db/shop' }, 'DATABASE_URL'],
  [{ DATABASE_URL: 'postgresql://shop@db' }, 'DATABASE_URL'],
  [{ CROSSHATCH_DEMO: 'yes' }, 'CROSSHATCH_DEMO'],
  [{ CROSSHATCH_ANCHOR: '2026-02-30' }, 'CROSSHATCH_ANCHOR'],
  [{ LOG_LEVEL: 'loud' }, 'LOG_LEVEL'],
  [{ PUBLIC_ORIGIN: 'https://shop.example/floor' }, 'PUBLIC_ORIGIN'],
])('%o is refused by the name of the setting', (environment, name) => {
  expect(faultsOf(environment)).toEqual([expect.stringMatching(new RegExp(`^${name} must be `))]);
});

test('a secret may lie in a file; given twice, it is refused', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'crosshatch-secret-'));
  const file = path.join(folder, 'url');
  writeFileSync(file, 'postgresql://shop:secret@db/shop\n');
  expect(configOf({ DATABASE_URL_FILE: file }).databaseUrl).toBe('postgresql://shop:secret@db/shop');
  expect(faultsOf({ DATABASE_URL_FILE: file, DATABASE_URL: 'postgresql://db/shop' })).toEqual([
    'DATABASE_URL and DATABASE_URL_FILE are both set; keep one',
  ]);
  rmSync(folder, { recursive: true });
});
