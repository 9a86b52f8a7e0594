import { DEMO_MARK } from './badges.ts';
import { demoBays, demoTerminals, demoVendors } from './bays.ts';
import { type Clock, isoOf, shopZone } from './clock.ts';
import { emptyRows, type Row } from './insert.ts';
import { bladeTolerance, demoInstruments } from './instruments.ts';
import { demoPeople } from './people.ts';
import { idMaker } from './random.ts';
import { addFamilies } from './spec-rows.ts';
import { baseOf } from './spec-sheet.ts';
import type { InstrumentRow, World } from './world.ts';

export const shopRow = (name: string, figuresInvented: boolean, labelMark: string): Row => ({
  id: 1,
  name,
  zone: shopZone,
  locale: 'en-IE',
  currency: 'EUR',
  open_limit_minutes: 2880,
  figures_invented: figuresInvented,
  label_mark: labelMark,
  address: '',
  phone: '',
  email: '',
});

/** The shop with its people, bays, instruments, sheets and procedures. `pinHashes` by person's key. */
export function foundShop(clock: Clock, pinHashes: ReadonlyMap<string, string>): World {
  const rows = emptyRows();
  const id = idMaker();
  const origin = clock.at(-522, '08:00');
  const since = isoOf(origin);
  rows.add('shop', {
    ...shopRow('Quarry Lane Engines', true, DEMO_MARK),
    address: 'Quarry Lane 7\n4021 Saltmere',
    phone: '555 0100',
    email: 'stores@quarrylane.example',
  });
  const names = new Map<string, string>();
  const people = new Map(
    demoPeople.map(({ key, name, initials, roles }) => {
      const personId = id('person', origin);
      names.set(key, name);
      rows.add('person', {
        id: personId,
        name,
        initials,
        pin_hash: pinHashes.get(key) ?? '',
        joined_at: since,
        left_at: null,
      });
      for (const role of roles) rows.add('person_role', { person_id: personId, role });
      return [key, personId] as const;
    }),
  );
  const bays = new Map(
    demoBays.map((bay) => {
      const bayId = id('bay', origin);
      rows.add('bay', {
        id: bayId,
        name: bay.name,
        kind: bay.kind,
        capacity: bay.capacity,
        grid_column: bay.column,
        grid_row: bay.row,
        grid_width: bay.width,
        grid_height: 1,
        retired_at: null,
      });
      return [bay.key, bayId] as const;
    }),
  );
  const terminals = new Map(
    demoTerminals.map(({ key, name, bay, idleMinutes }) => {
      const terminalId = id('terminal', origin);
      rows.add('terminal', {
        id: terminalId,
        name,
        bay_id: bay === null ? null : (bays.get(bay) ?? null),
        added_at: since,
        idle_minutes: idleMinutes,
        retired_at: null,
      });
      return [key, terminalId] as const;
    }),
  );
  const vendors = new Map(
    demoVendors.map(({ key, name, trade, contact }) => {
      const vendorId = id('vendor', origin);
      rows.add('vendor', { id: vendorId, name, trade, contact, retired_at: null });
      return [key, vendorId] as const;
    }),
  );
  const base = { clock, rows, id, origin, people, names, bays, terminals, vendors, events: [] };
  const ruleId = id('opening_rule', origin);
  rows.add('opening_rule', {
    id: ruleId,
    uncovered_minutes: 120,
    covered_minutes: 2880,
    note: 'two hours at a bench with the doors shut; two days at most, then somebody says why',
    set_by_id: people.get('maren') ?? null,
    set_at: since,
  });
  for (const weekday of [1, 2, 3, 4, 5]) {
    rows.add('shift_end', { rule_id: ruleId, weekday, ends_at: weekday === 5 ? '16:00' : '17:30' });
  }
  const families = addFamilies(base);
  return { ...base, families, instruments: addInstruments(base) };
}

/** Instruments are checked every twentieth working day and on the anchor day; each reading names the check before it. */
function addInstruments(
  world: Pick<World, 'clock' | 'rows' | 'id' | 'origin' | 'people'>,
): ReadonlyMap<string, InstrumentRow> {
  const { clock, rows, id, origin } = world;
  return new Map(
    demoInstruments.map((data) => {
      const { code, unit } = data;
      const instrumentId = id('instrument', origin);
      const base = (figure: number): number => baseOf(figure, unit);
      rows.add('instrument', {
        id: instrumentId,
        code,
        name: data.name,
        instrument_kind: data.what,
        kind: data.kind,
        unit,
        decimals: data.decimals,
        range_low: base(data.range[0]),
        range_high: base(data.range[1]),
        resolution: base(data.resolution),
        mpe: base(data.mpe),
        repeatability: data.repeatability === null ? null : base(data.repeatability[0]),
        repeatability_dof: data.repeatability === null ? null : data.repeatability[1],
        local_u: null,
        alpha_ppb: 11_500,
        alpha_u_ppb: 1_000,
        calibrated_on: clock.day(data.calibrated),
        calibration_due_on: clock.day(data.due),
        retired_at: null,
      });
      for (const blade of data.blades ?? []) {
        rows.add('instrument_blade', {
          id: id('instrument_blade', origin),
          instrument_id: instrumentId,
          thickness_nm: base(blade),
          tolerance_nm: bladeTolerance(blade),
        });
      }
      const days = Array.from({ length: 27 }, (_, index) => -520 + index * 20);
      const checks = [...days, 0].map((day) => {
        const at = clock.at(day, day === 0 ? '07:40' : '07:35');
        const checkId = id('instrument_check', at);
        rows.add('instrument_check', {
          id: checkId,
          instrument_id: instrumentId,
          zero_error: base(data.zeroError),
          master: data.master,
          master_u: base(data.masterU),
          checked_by_id: world.people.get('nadia') ?? '',
          checked_at: isoOf(at),
        });
        return { id: checkId, at };
      });
      return [code, { id: instrumentId, data, checks }] as const;
    }),
  );
}
