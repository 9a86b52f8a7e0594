import { auditStock } from '#features/stores/audit/service.ts';
import type { Command } from './command.ts';

/** Proves that every balance of the stores is what its ledger adds up to, or says where it is not. */
export const audit: Command = {
  summary: 'adds up the stock ledger anew and says where a kept balance differs (exit code 1 when one does)',
  run: async ({ sql, say }) => {
    const { differences, ...books } = await auditStock(sql);
    say(
      `Added up: ${books.movements} movements of ${books.lots} lots and ${books.parts} parts, ${books.lines} lines of demand.`,
    );
    for (const { part, where, what, kept, counted } of differences) {
      say(`Part ${part}, ${where}: ${what}: ${kept} kept, ${counted} added up.`);
    }
    say(
      differences.length === 0
        ? 'Every balance is what its ledger adds up to.'
        : `${differences.length} ${differences.length === 1 ? 'balance differs' : 'balances differ'}. Nothing was changed.`,
    );
    return differences.length === 0 ? 0 : 1;
  },
};
