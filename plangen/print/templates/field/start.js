/* The page begins: what was kept is read, the address says what is shown. */

const VIEWS = {rounds: roundsView, round: roundView, found: foundView, seen: PLAN.alsoFound ? seenView : roundsView, 'hand-over': handOverView, 'set-up': setUpView};
let wanted = null;
let drawn = null;

const go = where => { if (location.hash === `#${where}`) draw(); else location.hash = where; };
const setBar = (...nodes) => byId('bar').replaceChildren(...(settings.hand === 'left' ? nodes.reverse() : nodes));

function dress() {
  const dark = globalThis.matchMedia?.('(prefers-color-scheme: dark)').matches;
  document.documentElement.dataset.theme = settings.theme || (dark ? 'dark' : 'light');
}

function topOfPage() {
  const looks = {light: ['sun', 'Sun'], sun: ['dark', 'Night'], dark: ['light', 'Day']};
  const next = () => looks[document.documentElement.dataset.theme];
  const look = button(next()[1], () => { settings.theme = next()[0]; keepSettings(); dress(); look.textContent = next()[1]; }, {title: 'change the light'});
  byId('top').replaceChildren(h('b', {text: PLAN.boat.name}), h('span', {class: 'plan', text: `plan ${SHORT}`}), h('span', {id: 'kept'}), look);
  showKept();
}

function draw() {
  const [name, id = ''] = location.hash.slice(1).split('=').map(decodeURIComponent);
  const view = own(VIEWS, name) || (settings.person || KINDS.reading.size ? roundsView : setUpView);
  fieldCount = 0;
  byId('main').replaceChildren(...[view(id)].flat(2).filter(Boolean));
  document.title = `${byId('main').querySelector('h1').textContent} · ${PLAN.boat.name}`;
  if (drawn !== null && drawn !== location.hash) {
    byId('main').scrollTop = 0;
    byId('main').querySelector('h1').focus({preventScroll: true});
  }
  drawn = location.hash;
  const line = wanted && shownRound?.lines.find(one => one.line === wanted);
  wanted = null;
  if (line) { line.node.scrollIntoView({block: 'start'}); line.first()?.focus({preventScroll: true}); }
}

/* Enter goes to the next field, as on paper. */
function onEnter(event) {
  if (event.key !== 'Enter' || event.target.tagName !== 'INPUT' || !event.target.closest('.reading')) return;
  event.preventDefault();
  const fields = [...document.querySelectorAll('.reading input, .reading .answers button:first-child')];
  const next = fields[fields.indexOf(event.target) + 1];
  if (!next) { event.target.blur(); return; }
  next.focus({preventScroll: true});
  next.scrollIntoView({block: 'center'});
}

/* Values that the same page kept elsewhere in the meantime. */
async function onReturn() {
  if (document.visibilityState !== 'visible') { keepLast(); return; }
  if (store.where === 'nowhere') return;
  let newer = false;
  try {
    for (const [key, value] of await store.all()) {
      const [kind, ...rest] = key.split('|'), id = rest.join('|');
      if (!KINDS[kind] || (kind === 'reading' && !knows(id))) continue;
      const mine = KINDS[kind].get(id);
      if (!mine || mine.at < value.at) { KINDS[kind].set(id, value); newer = true; }
    }
  } catch { trouble('The device closed the store. Load the page again: what was kept is still there.'); }
  if (newer) draw();
}

async function start() {
  dress();
  byId('main').replaceChildren(h('p', {text: 'Reading what was kept …'}));
  store = await openStore();
  try { await loadValues(); } catch { trouble('What was kept can’t be read. Load the page again before you type.'); }
  if (store.where === 'nowhere') trouble(NOT_KEPT);
  dress();
  topOfPage();
  document.body.append(h('datalist', {id: 'instruments'}, Object.values(PLAN.instruments || {}).map(one => h('option', {value: one.title}))),
    h('datalist', {id: 'places'}, (PLAN.places || []).map(place => h('option', {value: place}))));
  addEventListener('hashchange', draw);
  addEventListener('beforeunload', event => { if (store.where === 'nowhere' && KINDS.reading.size) event.preventDefault(); });
  document.addEventListener('keydown', onEnter);
  document.addEventListener('visibilitychange', onReturn);
  addEventListener('pagehide', keepLast);
  navigator.storage?.persist?.().catch(() => {});
  draw();
  document.documentElement.dataset.ready = 'yes';
}

start();
