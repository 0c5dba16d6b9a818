/* What is typed, kept in the browser under the plan's digest: in its database, else in its small store, else nowhere. */

const KEEPS_UNDER = `${PLAN.digest}/${ATTEMPT}|`;
const LAST_KEY = '\uffff';

const answered = request => new Promise((done, failed) => {
  request.onsuccess = () => done(request.result);
  request.onerror = () => failed(request.error);
});

function openDatabase() {
  return new Promise((done, failed) => {
    const request = indexedDB.open('plangen-field', 1);
    request.onupgradeneeded = () => ['values', 'photos'].forEach(name => request.result.createObjectStore(name));
    request.onsuccess = () => done(request.result);
    request.onerror = request.onblocked = () => failed(request.error);
    setTimeout(failed, 4000, new Error('the database doesn’t answer'));
  });
}

function databaseStore(db) {
  db.onversionchange = () => db.close();
  const run = (name, mode, work, strict) => new Promise((done, failed) => {
    const change = db.transaction(name, mode, strict ? {durability: 'strict'} : {});
    const request = work(change.objectStore(name));
    change.oncomplete = () => done(request.result);
    change.onerror = change.onabort = () => failed(change.error || new Error('not kept'));
  });
  const all = () => IDBKeyRange.bound(KEEPS_UNDER, KEEPS_UNDER + LAST_KEY);
  return {
    where: 'database',
    put: (key, value, strict) => run('values', 'readwrite', s => s.put(value, KEEPS_UNDER + key), strict),
    async all() {
      const reading = db.transaction('values').objectStore('values');
      const [keys, values] = await Promise.all([answered(reading.getAllKeys(all())), answered(reading.getAll(all()))]);
      return keys.map((key, at) => [key.slice(KEEPS_UNDER.length), values[at]]);
    },
    putPhoto: (name, bytes) => run('photos', 'readwrite', s => s.put(bytes, KEEPS_UNDER + name), true),
    photo: (name, under = KEEPS_UNDER) => run('photos', 'readonly', s => s.get(under + name)),
    /* What pages of other plans keep here, by what they keep it under. */
    async others() {
      const reading = db.transaction('values').objectStore('values');
      const [keys, values] = await Promise.all([answered(reading.getAllKeys()), answered(reading.getAll())]);
      return grouped(keys.map((key, at) => [key, values[at]]));
    },
  };
}

function grouped(pairs) {
  const found = new Map();
  for (const [key, value] of pairs) {
    const at = key.indexOf('|') + 1, under = key.slice(0, at);
    if (!at || under === KEEPS_UNDER) continue;
    if (!found.has(under)) found.set(under, []);
    found.get(under).push([key.slice(at), value]);
  }
  return found;
}

/* The browser's small store takes text only: photos stay on the page until they are handed over. */
function smallStore(store) {
  const photos = new Map();
  return {
    where: 'small',
    put: async (key, value) => store.setItem(KEEPS_UNDER + key, JSON.stringify(value)),
    all: async () => Object.keys(store).filter(key => key.startsWith(KEEPS_UNDER)).map(key => [key.slice(KEEPS_UNDER.length), JSON.parse(store.getItem(key))]),
    putPhoto: async (name, bytes) => { photos.set(name, bytes); },
    photo: async name => photos.get(name),
    others: async () => new Map(),
  };
}

function noStore() {
  const photos = new Map();
  return {where: 'nowhere', put: async () => {}, all: async () => [], putPhoto: async (name, bytes) => { photos.set(name, bytes); }, photo: async name => photos.get(name), others: async () => new Map()};
}

async function openStore() {
  try {
    const store = databaseStore(await openDatabase());
    await store.all();
    return store;
  } catch { /* refused in some private windows, and in a preview */ }
  try {
    localStorage.setItem('plangen-field', '1');
    return smallStore(localStorage);
  } catch { /* no store at all */ }
  return noStore();
}

const NOT_KEPT = 'This browser keeps nothing: what you type is gone when the page closes. Hand over before you leave it, or open the page in another browser.';
