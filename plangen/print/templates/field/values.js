/* All that was typed, by what it belongs to, and its way into the store. */

const KINDS = {reading: new Map(), line: new Map(), round: new Map(), found: new Map(), seen: new Map(), photo: new Map(), stray: new Map()};
const settings = {person: '', show: '', theme: '', hand: 'right', device: '', photos: 0, handedOver: ''};
const WHOSE = {boat: PLAN.boat, plan: PLAN.digest, units: PLAN.units, attempt: ATTEMPT};
let store = noStore();
let lastKept = '';
let failing = false;
let lastChange = null;

const readingKey = (line, reading) => `${line.id}#${reading.id}`;
const typedFor = (line, reading) => KINDS.reading.get(readingKey(line, reading))?.typed;
const isBlank = typed => !isSet(typed) || typed === '' || (Array.isArray(typed) && !typed.some(Boolean));

/* The instrument that was used: as the line says, else as the round says. */
function usedFor(line, reading) {
  const own = KINDS.line.get(line.id)?.with;
  return own || KINDS.round.get(ROUND_OF.get(line.id).id)?.with?.[reading.instrument] || '';
}

const judged = line => JUDGE.line(line.readings, r => typedFor(line, r), r => usedFor(line, r));

async function keep(key, value, strict = false) {
  try {
    await store.put(key, value, strict);
    if (store.where === 'nowhere') return;
    if (store.where === 'database') atOnce.done(key, value);
    lastKept = now();
    if (failing) { failing = false; trouble(''); }
  } catch (fault) {
    failing = true;
    trouble(`Not kept${fault && fault.name === 'QuotaExceededError' ? ': the store is full' : ''}. What is on this page can still be handed over: do that now.`);
  }
  showKept();
}

/* Changes some of what is known of a reading, line, round or thing found, and keeps it with who and when. */
function change(kind, id, more, strict = false) {
  const value = {...KINDS[kind].get(id), ...more, by: settings.person, at: now()};
  KINDS[kind].set(id, value);
  lastChange = strict ? null : [`${kind}|${id}`, value];
  atOnce.put(`${kind}|${id}`, value);
  return keep(`${kind}|${id}`, value, strict);
}

/* What was typed last is seen onto the disk when the page goes out of sight: perhaps it never comes back. */
function keepLast() {
  if (lastChange) keep(...lastChange, true);
  lastChange = null;
}

const keepSettings = () => keep('settings|', {...settings});

/* The last change alone is kept at once as well, for a page that is gone before the database has it. */
const atOnce = {
  under: `last ${KEEPS_UNDER}`,
  put(key, value) { try { localStorage.setItem(this.under, JSON.stringify([key, value])); } catch { /* there is no small store, or it is full */ } },
  done(key, value) { try { if (localStorage.getItem(this.under) === JSON.stringify([key, value])) localStorage.removeItem(this.under); } catch { /* nothing was kept there */ } },
  newer(pairs) {
    try {
      const last = JSON.parse(localStorage.getItem(this.under)), kept = new Map(pairs);
      if (last && !(kept.get(last[0])?.at > last[1].at)) { kept.set(...last); keep(...last, true); }
      return [...kept];
    } catch { return pairs; }
  },
};

async function loadValues() {
  for (const [key, value] of atOnce.newer(await store.all())) {
    const [kind, ...rest] = key.split('|'), id = rest.join('|');
    if (kind === 'settings') Object.assign(settings, value);
    else if (kind === 'reading' && !knows(id)) KINDS.stray.set(id, value);
    else if (KINDS[kind]) KINDS[kind].set(id, value);
  }
  if (!settings.device) { settings.device = randomName(4); keepSettings(); }
  keep('about|', WHOSE);
}

function knows(key) {
  const [check, reading] = key.split('#');
  return LINES.get(check)?.readings.some(one => one.id === reading) || false;
}

/* Whether a reading is filled in, every point of a series. */
function isRead(line, reading) {
  const typed = typedFor(line, reading);
  return !isBlank(typed) && (!reading.series || !Array.isArray(typed) || reading.series.every((_, at) => typed[at]));
}

/* How far lines are: all, done (every reading of them), not good, undecided. */
function progress(lines) {
  const count = {all: lines.length, done: 0, bad: 0, open: 0};
  for (const line of lines) {
    const v = JUDGE.worst(judged(line));
    if (line.readings.every(r => isRead(line, r))) count.done += 1;
    if (v === 'fail' || v === 'leaning-fail') count.bad += 1;
    else if (['unclear', 'leaning-pass', 'limited'].includes(v)) count.open += 1;
  }
  return count;
}

const isDone = line => progress([line]).done === 1;
const progressWords = ({all, done, bad, open}) => [`${done} of ${all} done`, bad && `${bad} not good`, open && `${open} undecided`].filter(Boolean).join(' · ');

function changedSince(at) {
  return ['reading', 'line', 'round', 'found', 'seen'].flatMap(kind => [...KINDS[kind].values()]).filter(one => !at || one.at > at).length;
}

function showKept() {
  const words = failing ? 'NOT KEPT' : store.where === 'nowhere' ? 'NOT KEPT' : lastKept ? `kept ${clock(lastKept)}` : '';
  if (byId('kept')) byId('kept').textContent = words;
}
