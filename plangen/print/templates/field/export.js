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

function exportedReading(line, reading, verdicts) {
  const entry = KINDS.reading.get(readingKey(line, reading));
  if (!entry || (isBlank(entry.typed) && !(entry.others || []).length)) return null;
  return {
    check: line.id, reading: reading.id, code: reading.code, typed: isBlank(entry.typed) ? undefined : entry.typed,
    unit: reading.printed || reading.unit, with: usedFor(line, reading) || undefined, shown: verdicts.get(reading.id).v,
    others: entry.others, by: entry.by, at: entry.at,
  };
}

const whole = ({by, at, ...rest}) => ({...rest, by, at});

/* The pieces of the file, photos one at a time, so that no more than one is held twice. */
async function exportedPieces() {
  const lines = PLAN.lines;
  const readings = lines.flatMap(line => { const verdicts = judged(line); return line.readings.map(r => exportedReading(line, r, verdicts)); }).filter(Boolean);
  const remarks = lines.filter(line => KINDS.line.has(line.id)).map(line => {
    const {note, photos, by, at} = KINDS.line.get(line.id);
    return {check: line.id, code: line.code, note: note || undefined, photos: photos?.length ? photos : undefined, by, at};
  }).filter(one => one.note || one.photos);
  const rounds = ROUNDS.filter(round => KINDS.round.has(round.id)).map(round => {
    const {from, to, by, at} = KINDS.round.get(round.id);
    return {round: round.id, number: round.number, title: round.title, from: from || undefined, to: to || undefined, by, at};
  }).filter(one => one.from || one.to);
  const found = [...KINDS.found.values()].filter(one => one.what || one.photos?.length).map(whole);
  const head = {
    format: FORMAT, boat: PLAN.boat, plan: PLAN.digest, units: PLAN.units, attempt: ATTEMPT,
    earlier: PLAN.before ? Object.fromEntries(Object.entries(PLAN.before).map(([id, one]) => [id, one.attempts])) : undefined,
    device: settings.device, saved: now(), readings, lines: remarks, rounds, also_found: found,
    stray: [...KINDS.stray].map(([key, entry]) => ({key, ...entry})),
  };
  const pieces = [JSON.stringify(head, null, 1).replace(/\n\}$/, ',\n "photos": [')];
  const names = new Set([...remarks, ...found].flatMap(one => one.photos || []));
  let first = true;
  for (const name of names) {
    const bytes = await store.photo(name);
    if (!bytes) continue;
    const {width, height, by, at} = KINDS.photo.get(name) || {};
    pieces.push(`${first ? '' : ','}\n  ${JSON.stringify({name, type: 'image/jpeg', width, height, sha256: await fingerprint(bytes), by, at, data: toBase64(bytes)})}`);
    first = false;
  }
  pieces.push('\n ]\n}\n');
  return {pieces, counts: {readings: readings.length, found: found.length, photos: names.size}};
}

const fileName = () => `${slug(PLAN.boat.name)}-${SHORT}-${ATTEMPT > 1 ? 'retest-' : ''}${slug(settings.person || 'nobody')}-${settings.device}-${now().slice(0, 16).replace(/[^0-9T]/g, '')}`;

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
