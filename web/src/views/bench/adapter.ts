import type { AdapterOnWrench } from '#contracts/assembly.ts';
import type { Quantity } from '#contracts/wire.ts';
import { settingWithAdapter } from '#domain/fasteners/adapter.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import type { QuantityKind, QuantityOf } from '#domain/units/quantity.ts';
import { findUnitCode } from '#domain/units/unit-table.ts';

/** An adapter as it is keyed at the bench: lengths in mm, degrees from straight on. */
export interface AdapterKeyed {
  readonly on: boolean;
  readonly wrenchLength: string;
  readonly adapterLength: string;
  readonly angle: string;
}

export const noAdapter: AdapterKeyed = { on: false, wrenchLength: '', adapterLength: '', angle: '0' };

export type Setting =
  | { readonly ok: true; readonly setting: Quantity; readonly adapter: AdapterOnWrench }
  | { readonly ok: false; readonly reason: 'incomplete' | 'no-lever' };

const plain = (text: string): string => text.trim().replace(',', '.');

function base<K extends QuantityKind>(given: Quantity, kind: K): QuantityOf[K] | undefined {
  const parsed = parseQuantity(given.value, given.unit, kind);
  return parsed.ok ? parsed.value : undefined;
}

/** What to set at the wrench so that the bolt gets the stage's figure, in the figure's own unit. */
export function settingOf(figure: Quantity, keyed: AdapterKeyed): Setting {
  const adapter: AdapterOnWrench = {
    wrenchLength: { value: plain(keyed.wrenchLength), unit: 'mm' },
    adapterLength: { value: plain(keyed.adapterLength), unit: 'mm' },
    angle: { value: plain(keyed.angle), unit: 'deg' },
  };
  const torque = base(figure, 'torque');
  const wrenchLength = base(adapter.wrenchLength, 'length');
  const adapterLength = base(adapter.adapterLength, 'length');
  const angle = base(adapter.angle, 'angle');
  const unit = findUnitCode(figure.unit);
  const known =
    torque !== undefined && wrenchLength !== undefined && adapterLength !== undefined && angle !== undefined;
  if (!known || unit === undefined || wrenchLength <= 0 || adapterLength <= 0 || angle < 0 || angle > 180_000_000) {
    return { ok: false, reason: 'incomplete' };
  }
  const found = settingWithAdapter({ torque, wrenchLength, adapterLength, angle });
  if (!found.ok) return { ok: false, reason: 'no-lever' };
  return { ok: true, setting: { value: formatQuantity(found.setting, unit, 1), unit: figure.unit }, adapter };
}
