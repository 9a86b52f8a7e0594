import { BinsChanged, ChangeBins } from '#contracts/bin-changes.ts';
import { ChangeCores, CoresChanged } from '#contracts/core-changes.ts';
import { ChangeCountRules, CountRulesChanged } from '#contracts/count-rule-changes.ts';
import { ChangeLines, LinesChanged } from '#contracts/line-changes.ts';
import { ChangeParts, PartsChanged } from '#contracts/part-changes.ts';
import type { Feature } from '#platform/http/feature.ts';
import { actorOf } from '#platform/http/guard.ts';
import { write } from '#platform/http/write.ts';
import { tried } from '../files/trying.ts';
import { changeBins } from './bins-service.ts';
import { changing } from './changing.ts';
import { changeCores } from './cores-service.ts';
import { changeCountRules } from './count-rules-service.ts';
import { changeLines } from './lines-service.ts';
import { changeParts } from './service.ts';

const right = 'stores';
const parts = changing({ what: 'parts', right, body: ChangeParts, reply: PartsChanged });
const bins = changing({ what: 'bins', right, body: ChangeBins, reply: BinsChanged });
const lines = changing({ what: 'purchase lines’ days', right, body: ChangeLines, reply: LinesChanged });
const cores = changing({ what: 'cores', right, body: ChangeCores, reply: CoresChanged });
const rules = changing({
  what: 'classes’ rules of counts',
  right: 'set up',
  body: ChangeCountRules,
  reply: CountRulesChanged,
});

export const bulkRoutes: Feature = async (app, { db }) => {
  app.post('/parts/changes/check', parts.check, async (request) =>
    tried(db.sql, actorOf(request), (act) => changeParts(act, request.body)),
  );
  app.post('/parts/changes', parts.change, async (request, reply) =>
    write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await changeParts(act, request.body) })),
  );
  app.post('/bins/changes/check', bins.check, async (request) =>
    tried(db.sql, actorOf(request), (act) => changeBins(act, request.body)),
  );
  app.post('/bins/changes', bins.change, async (request, reply) =>
    write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await changeBins(act, request.body) })),
  );
  app.post('/purchase-lines/changes/check', lines.check, async (request) =>
    tried(db.sql, actorOf(request), (act) => changeLines(act, request.body)),
  );
  app.post('/purchase-lines/changes', lines.change, async (request, reply) =>
    write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await changeLines(act, request.body) })),
  );
  app.post('/cores/changes/check', cores.check, async (request) =>
    tried(db.sql, actorOf(request), (act) => changeCores(act, request.body)),
  );
  app.post('/cores/changes', cores.change, async (request, reply) =>
    write(db.sql, { request, reply }, async (act) => ({ status: 201, body: await changeCores(act, request.body) })),
  );
  app.post('/count-rules/changes/check', rules.check, async (request) =>
    tried(db.sql, actorOf(request), (act) => changeCountRules(act, request.body)),
  );
  app.post('/count-rules/changes', rules.change, async (request, reply) =>
    write(db.sql, { request, reply }, async (act) => ({
      status: 201,
      body: await changeCountRules(act, request.body),
    })),
  );
};
