function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** What this browser keeps over a reload, each by its key. */
export interface DiskStore<Kept extends { readonly key: string }> {
  /** undefined: this browser keeps nothing (private, full). */
  readonly all: () => Promise<readonly Kept[] | undefined>;
  /** True: it is on the disk. */
  readonly put: (kept: Kept) => Promise<boolean>;
  readonly drop: (key: string) => Promise<boolean>;
}

/** A database of this browser with one store in it; it is opened when it is first asked. */
export function diskStore<Kept extends { readonly key: string }>(name: string, store: string): DiskStore<Kept> {
  let opened: Promise<IDBDatabase> | undefined;
  const database = () => {
    opened ??= new Promise((resolve, reject) => {
      const request = indexedDB.open(name, 1);
      request.onupgradeneeded = () => request.result.createObjectStore(store, { keyPath: 'key' });
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    return opened;
  };
  const write = (work: (on: IDBObjectStore) => IDBRequest): Promise<boolean> =>
    database()
      .then((db) => asked(work(db.transaction(store, 'readwrite').objectStore(store))))
      .then(() => true)
      .catch(() => false);
  return {
    all: () =>
      database()
        .then((db) => asked(db.transaction(store).objectStore(store).getAll() as IDBRequest<Kept[]>))
        .catch(() => undefined),
    put: (kept) => write((on) => on.put(kept)),
    drop: (key) => write((on) => on.delete(key)),
  };
}
