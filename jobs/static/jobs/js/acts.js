// What was done in the bay and is not with the server yet: kept on the device, in its order.
const NAME = "undertrim-bay", STORE = "acts";

function opened() {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE, { keyPath: "order", autoIncrement: true });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
}

// Resolves when the browser has it on the disk, not before: only then it is said to be kept.
async function within(mode, work) {
  const base = await opened();
  return new Promise((resolve, reject) => {
    const change = base.transaction(STORE, mode, mode === "readwrite" ? { durability: "strict" } : undefined);
    const asked = work(change.objectStore(STORE));
    change.oncomplete = () => { base.close(); resolve(asked.result); };
    change.onerror = change.onabort = () => { base.close(); reject(change.error); };
  });
}

export const keep = (act) => within("readwrite", (store) => store.put(act));
export const drop = (order) => within("readwrite", (store) => store.delete(order));
export const every = () => within("readonly", (store) => store.getAll());

// Made without crypto.randomUUID, which a connection without TLS does not have.
export function newKey() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 15) | 64;
  bytes[8] = (bytes[8] & 63) | 128;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}
