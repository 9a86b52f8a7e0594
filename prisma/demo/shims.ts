import { chooseShimFor } from './assembly.ts';
import type { Bench } from './bench.ts';
import type { Hand } from './clock.ts';
import { issue, type JobParts, reserve, want } from './job-parts.ts';
import { lashes } from './measuring.ts';
import { chance } from './random.ts';
import { baseOf } from './spec-sheet.ts';

/** Every valve whose lash came in below the standard gets a thinner shim out of the bins, where one lies there. */
export function shimValves(bench: Bench, parts: JobParts, hand: Hand): void {
  const { visit } = bench;
  for (const valve of visit.revision.sheet.valves) {
    const code = lashes.find((lash) => lash === `lash-${valve.code}`);
    const reading = bench.readings.find(
      ({ row, reading: { dimension } }) => dimension === code && row.round === 'as received',
    );
    const standard = visit.revision.sheet.dimensions.find((dimension) => dimension.code === code)?.limits.standard
      ?.standard[0];
    if (valve.shim === null || reading === undefined || standard === undefined || standard === null) continue;
    const low = Number(reading.row.value_low) / 1e6;
    const high = Number(reading.row.value_high) / 1e6;
    if (baseOf(low, 'mm') >= baseOf(standard, 'mm')) continue;
    // Worn and printed sizes differ by a few thousandths.
    const luck = chance(`${visit.engine.serial} ${valve.code} shim`);
    const printed = 2.1 + 0.05 * luck.whole(0, 8);
    const fitted = visit.engine.shims.get(valve.code) ?? Number((printed + luck.whole(-4, 4) / 1_000).toFixed(3));
    const chosen = Math.round((fitted + (low + high) / 2 - valve.wantedMm) / 0.05) * 0.05;
    const part = `S${valve.shim.diameterMm * 10}-${Math.round(chosen * 100)}`;
    const lot = parts.stock.lotsAt(part, hand.now())[0];
    if (lot === undefined || chosen >= fitted - 0.02) continue;
    want(parts, [{ part, quantity: 1, words: `lash, ${valve.name}` }], { at: hand.pass(2), by: 'bea' });
    reserve(parts, { at: hand.pass(1), by: 'bea' });
    issue(parts, { at: hand.pass(3), by: 'hetty' }, [part]);
    const thickness = Number(lot.row.shim_nm) / 1e6;
    visit.engine.shims.set(valve.code, thickness);
    chooseShimFor(
      visit,
      { at: hand.pass(2), by: 'bea' },
      { valve: valve.code, lash: [low, high], fitted, chosen: thickness, lot, fromWords: `${part} from the bins` },
    );
  }
}
