import type { RoomName, Shop, StaffName } from '../../support/shop.ts';

/** The drill's keys and the service's ids, both ways. */
export interface Names {
  readonly engines: readonly [EngineIds, EngineIds];
  readonly vendorId: string;
  /** A procedure that may run on either engine. */
  readonly versionId: string;
  /** An id of nothing. */
  readonly nothing: string;
  readonly id: (key: string) => string;
  /** The key of an id; the id itself when the drill never heard of it. */
  readonly key: (id: string | null) => string | null;
  readonly bind: (key: string, id: string) => void;
  readonly bay: (room: RoomName) => string;
  readonly person: (name: StaffName) => string;
}

interface EngineIds {
  readonly jobId: string;
  readonly engineId: string;
}

export function namesOf(shop: Shop, { engines, versionId }: Pick<Names, 'engines' | 'versionId'>): Names {
  const ids = new Map<string, string>();
  const keys = new Map<string, string>();
  for (const [name, id] of Object.entries({ ...shop.people, ...shop.bays })) keys.set(id, name);
  keys.set(shop.vendorId, 'vendor');
  const nothing = '019a0000-0000-7000-8000-000000000000';
  return {
    engines,
    vendorId: shop.vendorId,
    versionId,
    nothing,
    id: (key) => ids.get(key) ?? nothing,
    key: (id) => (id === null ? null : (keys.get(id) ?? id)),
    bind: (key, id) => {
      ids.set(key, id);
      keys.set(id, key);
    },
    bay: (room) => shop.bays[room],
    person: (name) => shop.people[name],
  };
}
