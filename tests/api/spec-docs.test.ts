import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { checkSheet } from '#domain/spec-sheet/check.ts';
import { readSheetCsv } from '#features/specs/sheet-csv-reading.ts';
import { projectFolder } from '#platform/project-folder.ts';

const page = readFileSync(path.join(projectFolder, 'docs/spec-sheets.md'), 'utf8');
const block = (language: string): string => new RegExp(`\`\`\`${language}\n([^]*?)\`\`\``).exec(page)?.[1] ?? '';

test('the examples of the page about spec sheets are without fault, and say the same of the spring', () => {
  const document = SpecSheetDocument.parse(JSON.parse(block('json')));
  expect(checkSheet(document)).toMatchObject({ ok: true });
  const read = readSheetCsv(block('csv'), { before: document, keep: true });
  if (!read.ok || read.faults.length > 0) throw new Error(JSON.stringify(read.faults));
  expect(checkSheet(read.document)).toMatchObject({ ok: true });
  const service = (of: typeof read.document) =>
    of.dimensions.find(({ code }) => code === 'clutch-spring')?.limits[0]?.service;
  expect(service(read.document)).toEqual(service(document));
  expect(read.document.dimensions.map(({ code }) => code)).toEqual(['clutch-spring', 'pump-tip']);
  const typed = page.split('A set of cover bolts')[1] ?? '';
  const bolts = readSheetCsv(/```csv\n([\s\S]*?)```/.exec(typed)?.[1] ?? '', { before: document, keep: true });
  if (!bolts.ok || bolts.faults.length > 0) throw new Error(JSON.stringify(bolts.faults));
  expect(checkSheet(bolts.document)).toMatchObject({ ok: true });
  expect(bolts.document.fasteners.map(({ code, positions }) => [code, positions.length])).toEqual([
    ['head', 1],
    ['cover', 2],
  ]);
});
