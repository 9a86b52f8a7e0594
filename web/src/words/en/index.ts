import { app } from './app.ts';
import { assemble } from './assemble.ts';
import { boltSheet } from './bolt-sheet.ts';
import { boxes } from './boxes.ts';
import { counter } from './counter.ts';
import { counts } from './counts.ts';
import { custody } from './custody.ts';
import { drawnFinding } from './drawn-finding.ts';
import { engine } from './engine.ts';
import { filesCheck } from './files-check.ts';
import { floor } from './floor.ts';
import { gauges } from './gauges.ts';
import { handover } from './handover.ts';
import { labels } from './labels.ts';
import { looseBench } from './loose-bench.ts';
import { loosePanes } from './loose-panes.ts';
import { measure } from './measure.ts';
import { myBench } from './my-bench.ts';
import { packs } from './packs.ts';
import { coreChanges, lineChanges, partChanges, ruleChanges } from './part-changes.ts';
import { partForms } from './part-forms.ts';
import { partsInstead } from './parts-instead.ts';
import { photos } from './photos.ts';
import { priceList } from './price-list.ts';
import { procedure } from './procedure.ts';
import { procedures } from './procedures.ts';
import { scan } from './scan.ts';
import { sheet } from './sheet.ts';
import { shop } from './shop.ts';
import { specForms } from './spec-forms.ts';
import { specs } from './specs.ts';
import { storeFiles } from './store-files.ts';
import { stores } from './stores.ts';
import { storesDesks } from './stores-desks.ts';
import { tally } from './tally.ts';

/** English. One module a view, so that a view and its words are found together by name. */
export const en = {
  app,
  assemble,
  boltSheet,
  boxes,
  counter,
  counts,
  custody,
  drawnFinding,
  engine,
  filesCheck,
  floor,
  gauges,
  handover,
  labels,
  looseBench,
  loosePanes,
  measure,
  myBench,
  packs,
  partForms,
  partsInstead,
  partChanges,
  coreChanges,
  lineChanges,
  ruleChanges,
  photos,
  priceList,
  procedure,
  scan,
  procedures,
  sheet,
  shop,
  specForms,
  specs,
  storeFiles,
  stores,
  storesDesks,
  tally,
} as const;
