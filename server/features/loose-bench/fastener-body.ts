import type { AdapterOnWrench } from '#contracts/assembly.ts';
import type { Quantity } from '#contracts/wire.ts';
import type { Adapter } from '#domain/fasteners/adapter.ts';
import type { FastenerPosition } from '#domain/fasteners/fastener-set.ts';
import { lengthAt, quantityAt, refuse } from './body.ts';

/** Where the fasteners sit; a number that is there twice, or two in one place, is refused. */
export function positionsAt(
  given: readonly { readonly number: number; readonly x: Quantity; readonly y: Quantity }[],
  pointer: string,
): readonly FastenerPosition[] {
  const numbers = new Set<number>();
  const places = new Map<string, number>();
  return given.map(({ number, x, y }, index) => {
    const at = `${pointer}/${index}`;
    const position = { number, x: lengthAt(x, `${at}/x`), y: lengthAt(y, `${at}/y`) };
    if (numbers.has(number)) refuse(`${at}/number`, `Position ${number} is there twice.`);
    numbers.add(number);
    const place = `${position.x} ${position.y}`;
    const other = places.get(place);
    if (other !== undefined) refuse(at, `Position ${number} sits where position ${other} does.`);
    places.set(place, number);
    return position;
  });
}

/** A torque above nothing. */
export function torqueAt(given: Quantity, pointer: string) {
  const torque = quantityAt(given, 'torque', pointer);
  return torque > 0 ? torque : refuse(pointer, 'A torque is more than 0.');
}

/** An angle that a stage may turn by: above 0° and at most 360°. */
export function turnAt(given: Quantity, pointer: string) {
  const angle = quantityAt(given, 'angle', pointer);
  return angle > 0 && angle <= 360_000_000 ? angle : refuse(pointer, 'A stage turns by more than 0 and at most 360°.');
}

/** An adapter on a wrench: lengths above nothing, 0° (straight on) to 180° (turned right back). */
export function adapterAt(given: AdapterOnWrench, pointer: string): Adapter {
  const length = (of: 'wrenchLength' | 'adapterLength') => {
    const value = lengthAt(given[of], `${pointer}/${of}`);
    return value > 0 ? value : refuse(`${pointer}/${of}`, 'A length on the wrench is more than 0.');
  };
  const angle = quantityAt(given.angle, 'angle', `${pointer}/angle`);
  if (angle < 0 || angle > 180_000_000) {
    refuse(`${pointer}/angle`, 'An adapter stands at 0° (straight on) to 180° (turned right back).');
  }
  return { wrenchLength: length('wrenchLength'), adapterLength: length('adapterLength'), angle };
}
