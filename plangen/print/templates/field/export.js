/* One file with all that this device holds, as it was typed. */

function toBase64(bytes) {
  const view = new Uint8Array(bytes), pieces = [];
  for (let at = 0; at < view.length; at += 32768) pieces.push(String.fromCharCode(...view.subarray(at, at + 32768)));
  return btoa(pieces.join(''));
}

async function fingerprint(bytes) {
  if (!globalThis.crypto?.subtle) return undefined;
  return Array.from(new Uint8Array(await crypto.subtle.digest('SHA-256', bytes)), byte => byte.toString(16).padStart(2, '0')).join('');
}

/* What the plan of this page adds to a value that was typed for it. */
function described(key) {
  if (!knows(key)) return {};
  const [check, id] = key.split('#'), line = LINES.get(check), reading = line.readings.find(one => one.id === id);
  return {code: reading.code, unit: reading.printed || reading.unit, with: usedFor(line, reading) || undefined, shown: judged(line).get(id).v};
}

function exportedReading([key, {typed, others, by, at}]) {
  if (isBlank(typed) && !(others || []).length) return null;
  const [check, reading] = key.split('#'), told = described(key);
  return {check, reading, code: told.code, typed: isBlank(typed) ? undefined : typed, unit: told.unit, with: told.with, shown: told.shown, others, by, at};
}

function exportedLine([check, {note, photos, with: used, by, at}]) {
  return {check, code: LINES.get(check)?.code, note: note || undefined, photos: photos?.length ? photos : undefined, with: used || undefined, by, at};
}

function exportedRound([id, {from, to, with: used, by, at}]) {
  const round = ROUNDS.find(one => one.id === id);
  return {round: id, number: round?.number, title: round?.title, from: from || undefined, to: to || undefined, with: used, by, at};
}

/* The pieces of the file, photos one at a time, so that no more than one is held twice. */
async function exportedPieces(about = WHOSE, kinds = KINDS, under = KEEPS_UNDER) {
  const order = new Map(PLAN.lines.flatMap(line => line.readings.map(r => readingKey(line, r))).map((key, at) => [key, at]));
  const readings = [...kinds.reading].sort(([a], [b]) => (order.get(a) ?? 1e9) - (order.get(b) ?? 1e9)).map(exportedReading).filter(Boolean);
  const lines = [...kinds.line].map(exportedLine).filter(one => one.note || one.photos || one.with);
  const rounds = [...kinds.round].map(exportedRound).filter(one => one.from || one.to || one.with);
  const found = [...kinds.found.values()].filter(one => one.what || one.photos?.length);
  const head = {
    format: FORMAT, ...about, earlier: about === WHOSE && PLAN.before ? Object.fromEntries(Object.entries(PLAN.before).map(([id, one]) => [id, one.attempts])) : undefined,
    device: settings.device, saved: now(), readings, lines, rounds, also_found: found, also_seen: [...kinds.seen].map(([id, one]) => ({id, ...one})),
    stray: [...kinds.stray].map(([key, entry]) => ({key, ...entry})),
  };
  const pieces = [JSON.stringify(head, null, 1).replace(/\n\}$/, ',\n "photos": [')];
  const names = new Set([...lines, ...found].flatMap(one => one.photos || []));
  let kept = 0;
  for (const name of names) {
    const bytes = await store.photo(name, under);
    if (!bytes) continue;
    const {width, height, by, at} = kinds.photo.get(name) || {};
    pieces.push(`${kept ? ',' : ''}\n  ${JSON.stringify({name, type: 'image/jpeg', width, height, sha256: await fingerprint(bytes), by, at, data: toBase64(bytes)})}`);
    kept += 1;
  }
  pieces.push('\n ]\n}\n');
  return {pieces, counts: {readings: readings.length, found: found.length, photos: kept, gone: names.size - kept}};
}

/* What pages of other plans of this boat keep on this device, each as a file of its own. */
async function otherPlans() {
  const files = [];
  for (const [under, pairs] of await store.others()) {
    const about = pairs.find(([key]) => key === 'about|')?.[1], kinds = Object.fromEntries(Object.keys(KINDS).map(kind => [kind, new Map()]));
    if (!about || (about.boat.hull_id || slug(about.boat.name)) !== (PLAN.boat.hull_id || slug(PLAN.boat.name))) continue;
    for (const [key, value] of pairs) {
      const [kind, ...rest] = key.split('|');
      if (kinds[kind]) kinds[kind].set(rest.join('|'), value);
    }
    if (kinds.reading.size || kinds.line.size || kinds.found.size) files.push({about, make: () => exportedPieces(about, kinds, under), count: kinds.reading.size + kinds.found.size});
  }
  return files;
}

const fileName = (about = WHOSE) => `${slug(PLAN.boat.name)}-${about.plan.slice(0, 8)}-${about.attempt > 1 ? 'retest-' : ''}${slug(settings.person || 'nobody')}-${settings.device}-${now().slice(0, 16).replace(/[^0-9T]/g, '')}`;

/* The file as the device lets it be sent: .json, else the same as .txt, else not at all. */
function shareable(pieces, name) {
  if (!navigator.canShare || !navigator.share) return null;
  for (const [ending, type] of [['json', 'application/json'], ['txt', 'text/plain']]) {
    const file = new File(pieces, `${name}.${ending}`, {type});
    try { if (navigator.canShare({files: [file]})) return file; } catch { /* this kind isn't sent */ }
  }
  return null;
}

function download(pieces, name) {
  const url = URL.createObjectURL(new Blob(pieces, {type: 'application/json'}));
  const link = h('a', {href: url, download: `${name}.json`});
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}
