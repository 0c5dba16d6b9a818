/* A file that another device handed over: what is new is taken, what differs is kept beside, nothing is overwritten. */

const LARGEST_IMPORT = 400e6;
const MOST_ROWS = 20000;
const plainText = (value, longest = LONGEST) => typeof value === 'string' ? value.slice(0, longest) : '';
const rowsOf = value => Array.isArray(value) ? value.filter(one => one && typeof one === 'object').slice(0, MOST_ROWS) : [];
const photoNames = value => Array.isArray(value) ? value.map(one => plainText(one, 100)).filter(name => /^[\w.-]+\.jpg$/.test(name)).slice(0, 500) : [];
const plainTyped = value => Array.isArray(value) ? value.slice(0, 200).map(one => one === null ? null : plainText(one)) : plainText(value);
const sameTyped = (one, other) => JSON.stringify(one ?? '') === JSON.stringify(other ?? '');
const signed = row => ({by: plainText(row.by, 100), at: plainText(row.at, 40)});

function withOther(entry, other) {
  const kept = entry.others || [];
  return kept.some(one => sameTyped(one.typed, other.typed)) || sameTyped(entry.typed, other.typed) ? kept : [...kept, other];
}

async function takeReading(row, counts) {
  const key = `${plainText(row.check, 300)}#${plainText(row.reading, 300)}`;
  const typed = plainTyped(row.typed), mine = KINDS.reading.get(key), other = {typed, ...signed(row)};
  if (!knows(key)) {
    if (!KINDS.stray.has(key)) { KINDS.stray.set(key, other); counts.unknown += 1; await keep(`reading|${key}`, other); }
    return;
  }
  let entry;
  if (!mine || isBlank(mine.typed)) { entry = {...mine, ...other}; counts.taken += isBlank(typed) ? 0 : 1; }
  else if (isBlank(typed) || sameTyped(mine.typed, typed)) { entry = {...mine}; counts.same += 1; }
  else { entry = {...mine, others: withOther(mine, other)}; counts.differing += 1; }
  for (const one of rowsOf(row.others).slice(0, 20)) entry.others = withOther(entry, {typed: plainTyped(one.typed), ...signed(one)});
  if (entry.others && !entry.others.length) delete entry.others;
  if (isBlank(entry.typed) && !entry.others) return;
  KINDS.reading.set(key, entry);
  await keep(`reading|${key}`, entry);
}

async function takeLine(row, counts) {
  const id = plainText(row.check, 300);
  if (!LINES.has(id)) { counts.unknown += 1; return; }
  const mine = KINDS.line.get(id) || {}, note = plainText(row.note), photos = [...new Set([...(mine.photos || []), ...photoNames(row.photos)])];
  const joined = !mine.note || mine.note === note ? note : !note || mine.note.includes(note) ? mine.note : `${mine.note}; ${plainText(row.by, 100)}: ${note}`;
  const entry = {...signed(row), ...mine, note: joined, photos, with: mine.with || plainText(row.with, 200)};
  KINDS.line.set(id, entry);
  await keep(`line|${id}`, entry);
}

const usedIn = used => Object.fromEntries(Object.entries(used && typeof used === 'object' ? used : {}).slice(0, 100).map(([id, text]) => [id, plainText(text, 200)]));

async function takeRound(row) {
  const id = plainText(row.round, 300);
  if (!ROUNDS.some(round => round.id === id)) return;
  const mine = KINDS.round.get(id) || {}, entry = {...signed(row), ...mine, from: mine.from || plainText(row.from, 10), to: mine.to || plainText(row.to, 10), with: {...usedIn(row.with), ...mine.with}};
  KINDS.round.set(id, entry);
  await keep(`round|${id}`, entry);
}

async function takeFound(row, counts) {
  const id = plainText(row.id, 40);
  if (!/^x[a-z0-9]+$/.test(id) || KINDS.found.has(id)) return;
  const entry = {id, what: plainText(row.what), place: plainText(row.place), grade: plainText(row.grade, 40), photos: photoNames(row.photos), ...signed(row)};
  KINDS.found.set(id, entry);
  counts.taken += 1;
  await keep(`found|${id}`, entry);
}

async function takeSeen(row, counts) {
  const id = plainText(row.id, 300);
  if (!(PLAN.alsoFound || []).some(one => one.id === id) || KINDS.seen.has(id)) return;
  const entry = {mended: row.mended === true, note: plainText(row.note), ...signed(row)};
  KINDS.seen.set(id, entry);
  counts.taken += 1;
  await keep(`seen|${id}`, entry);
}

async function takePicture(row, counts) {
  const name = photoNames([row.name])[0];
  if (!name || row.type !== 'image/jpeg' || KINDS.photo.has(name) || typeof row.data !== 'string') return;
  let bytes;
  try { bytes = Uint8Array.from(atob(row.data), one => one.charCodeAt(0)); } catch { return; }
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return;
  await store.putPhoto(name, bytes.buffer);
  const entry = {width: Number(row.width) || 0, height: Number(row.height) || 0, size: bytes.length, ...signed(row)};
  KINDS.photo.set(name, entry);
  await keep(`photo|${name}`, entry);
  counts.photos += 1;
}

/* Takes a file in, and says what it brought. */
async function takeIn(text) {
  let file;
  try { file = JSON.parse(text); } catch { return 'This is no file of a field page, or not all of one.'; }
  if (!file || file.format !== FORMAT || !Array.isArray(file.readings)) return 'This is no file of a field page.';
  if (file.plan !== PLAN.digest) return `This file belongs to plan ${plainText(file.plan, 8)}, this page to plan ${SHORT}. Nothing was taken. plangen collect takes both.`;
  if ((file.attempt || 1) !== ATTEMPT) return 'This file belongs to another attempt. Nothing was taken. plangen collect takes both.';
  const counts = {taken: 0, same: 0, differing: 0, unknown: 0, photos: 0};
  for (const row of rowsOf(file.readings)) await takeReading(row, counts);
  for (const row of rowsOf(file.lines)) await takeLine(row, counts);
  for (const row of rowsOf(file.rounds)) await takeRound(row);
  for (const row of rowsOf(file.also_found)) await takeFound(row, counts);
  for (const row of rowsOf(file.also_seen)) await takeSeen(row, counts);
  for (const row of rowsOf(file.photos)) await takePicture(row, counts);
  return [`${counts.taken} new`, `${counts.same} the same`, counts.differing && `${counts.differing} that differ: both are kept`,
    counts.photos && `${counts.photos} photos`, counts.unknown && `${counts.unknown} that this plan doesn’t know: kept apart`].filter(Boolean).join(', ') + '.';
}
