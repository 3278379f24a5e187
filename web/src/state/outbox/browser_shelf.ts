import type { Fresh, Shelf, Waiting } from './shelf';

const name = 'fettle';
const version = 1;

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => {
      resolve(request.result);
    };
    request.onerror = () => {
      reject(new Error(request.error?.message ?? 'the browser’s store failed'));
    };
  });
}

/** Resolves when everything of the transaction is written, not before. */
function written(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => {
      resolve();
    };
    transaction.onabort = () => {
      reject(new Error(transaction.error?.message ?? 'the browser’s store failed'));
    };
  });
}

function openDatabase(): Promise<IDBDatabase> {
  const request = indexedDB.open(name, version);
  request.onupgradeneeded = () => {
    request.result.createObjectStore('acts', { keyPath: 'act.id' });
    request.result.createObjectStore('counts');
    request.result.createObjectStore('pages');
  };
  return done(request);
}

/** The browser's own database. Throws where there is none (some private windows). */
export async function browserShelf(): Promise<Shelf> {
  const database = await openDatabase();
  // "strict": the tick shows when the disk has it, not when the browser means to write it.
  const change = (stores: string[]): IDBTransaction =>
    database.transaction(stores, 'readwrite', { durability: 'strict' });
  const put = async (waiting: Waiting): Promise<void> => {
    const transaction = change(['acts']);
    transaction.objectStore('acts').put(waiting);
    await written(transaction);
  };
  return {
    durable: true,
    async add(job, act: Fresh) {
      const transaction = change(['acts', 'counts']);
      const there = (await done(transaction.objectStore('acts').get(act.id))) as Waiting | undefined;
      if (there !== undefined) return there;
      const counts = transaction.objectStore('counts');
      const last = (await done(counts.get('sequence'))) as number | undefined;
      const sequence = (last ?? 0) + 1;
      const waiting: Waiting = { job, act: { ...act, sequence }, refused: null };
      counts.put(sequence, 'sequence');
      transaction.objectStore('acts').put(waiting);
      await written(transaction);
      return waiting;
    },
    async all() {
      const found = (await done(database.transaction(['acts']).objectStore('acts').getAll())) as Waiting[];
      return found.sort((a, b) => a.act.sequence - b.act.sequence);
    },
    put,
    async remove(id) {
      const transaction = change(['acts']);
      transaction.objectStore('acts').delete(id);
      await written(transaction);
    },
    async keepPage(key, page) {
      const transaction = database.transaction(['pages'], 'readwrite');
      transaction.objectStore('pages').put(page, key);
      await written(transaction);
    },
    async page(key) {
      return (await done(database.transaction(['pages']).objectStore('pages').get(key))) as unknown;
    },
  };
}
