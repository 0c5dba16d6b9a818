/* The page: the plan that it holds, small tools, and what is said to who uses it. */

const PLAN = JSON.parse(document.getElementById('plan').textContent);
const FORMAT = 'plangen-field/1';
const SHORT = PLAN.digest.slice(0, 8);
const ATTEMPT = PLAN.before ? 1 + Math.max(1, ...Object.values(PLAN.before).map(one => one.attempts)) : 1;
const LONGEST = 4000;
const LINES = new Map(PLAN.lines.map(line => [line.id, line]));
const ROUNDS = PLAN.rounds.map(round => ({...round, lines: round.lines.map(id => LINES.get(id))}));
const ROUND_OF = new Map(ROUNDS.flatMap(round => round.lines.map(line => [line.id, round])));
const JUDGE = judgeOf(PLAN);

const WORDS = {
  'pass': '✓ good', 'fail': '✗ not good', 'leaning-pass': '≈ too close to call, leaning good',
  'leaning-fail': '≈ too close to call, leaning not good', 'limited': '◇ limited by conditions',
  'unclear': '? undecided', 'recorded': '• noted', 'does-not-apply': '– does not apply',
  'met': '✓ condition met', 'not-met': '◇ condition not met', 'not-recorded': '? condition not recorded', 'not-done': '',
};

const byId = id => document.getElementById(id);

/* An element with its attributes, what it does, and what is in it. */
function h(tag, given, ...inside) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(given || {})) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else if (name === 'text') node.textContent = value;
    else if (name === 'value') node.value = value;
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...inside.flat(3).filter(one => one !== null && one !== undefined && one !== false && one !== ''));
  return node;
}

const button = (text, onclick, given = {}) => h('button', {type: 'button', text, onclick, ...given});
const pressed = (node, on) => node.setAttribute('aria-pressed', String(on));

const two = n => String(n).padStart(2, '0');
function now() {
  const d = new Date(), east = -d.getTimezoneOffset(), far = Math.abs(east);
  return `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}T${two(d.getHours())}:${two(d.getMinutes())}:${two(d.getSeconds())}`
    + `${east < 0 ? '-' : '+'}${two(Math.floor(far / 60))}:${two(far % 60)}`;
}
const clock = at => at.slice(11, 16);

const LETTERS = 'abcdefghjkmnpqrstuvwxyz23456789';
const randomName = length => Array.from(crypto.getRandomValues(new Uint8Array(length)), byte => LETTERS[byte % LETTERS.length]).join('');

/* Said aloud by a screen reader, and shown for a moment. */
function say(text, shown = true) {
  byId('say').textContent = text;
  if (!shown) return;
  byId('note').textContent = text;
  byId('note').hidden = !text;
  clearTimeout(say.timer);
  say.timer = setTimeout(() => { byId('note').hidden = true; }, 7000);
}

/* Stands until it's over: something is wrong that costs values. */
function trouble(text) {
  byId('trouble').textContent = text;
  byId('trouble').hidden = !text;
}
