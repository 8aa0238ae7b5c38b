/**
 * What the browser keeps: trips, and nothing else, in IndexedDB. Every call may fail; the page then says that nothing is kept.
 * A record is written whole in one transaction, so a page that is closed half-way leaves the old one.
 */

const NAME = "fardel";
const TRIPS = "trips";
/** @type {Promise<IDBDatabase> | null} */
let opened = null;

/** @returns {Promise<IDBDatabase>} */
function database() {
  opened ??= new Promise((done, failed) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(TRIPS, { keyPath: "id" });
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
    request.onblocked = () => failed(new Error("another page holds the store"));
  });
  opened.catch(() => (opened = null));
  return opened;
}

/**
 * @template T
 * @param {IDBTransactionMode} mode
 * @param {(store: IDBObjectStore) => IDBRequest<T>} work
 * @returns {Promise<T>}
 */
async function within(mode, work) {
  const base = await database();
  return new Promise((done, failed) => {
    const transaction = base.transaction(TRIPS, mode);
    const request = work(transaction.objectStore(TRIPS));
    transaction.oncomplete = () => done(request.result);
    transaction.onerror = () => failed(transaction.error);
    transaction.onabort = () => failed(transaction.error ?? new Error("the store is full"));
  });
}

/**
 * Keeps a trip that was last seen as revision `base`. Nothing is written where the store holds a newer one, which is the answer.
 * Both happen in one transaction: no other tab comes between.
 * @param {import("./types.js").State} trip @param {number} base @returns {Promise<import("./types.js").State | undefined>}
 */
export async function keepUnlessNewer(trip, base) {
  /** @type {import("./types.js").State | undefined} */
  let newer;
  await within("readwrite", (store) => {
    const found = store.get(trip.id);
    found.onsuccess = () => {
      if (found.result?.rev > base) newer = found.result;
      else store.put(trip);
    };
    return found;
  });
  return newer;
}

/** Keeps a trip whatever is there. @param {import("./types.js").State} trip */
export const keep = (trip) => within("readwrite", (store) => store.put(trip));

/** @param {string} id @returns {Promise<import("./types.js").State | undefined>} */
export const fetchTrip = (id) => within("readonly", (store) => store.get(id));

/** @param {string} id */
export const forget = (id) => within("readwrite", (store) => store.delete(id));

/** Trips, the last changed first. @returns {Promise<import("./types.js").State[]>} */
export async function trips() {
  const all = await within("readonly", (store) => store.getAll());
  return all.sort((a, b) => b.changed - a.changed);
}
