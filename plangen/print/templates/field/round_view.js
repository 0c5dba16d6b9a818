/* One round: where and how, what can hurt, when it was done and with what, and its lines. */

let shownRound = null;

function roundView(number) {
  const round = ROUNDS.find(one => String(one.number) === number);
  if (!round) return roundsView();
  const state = h('p', {class: 'state'});
  const bar = h('progress', {max: 1, value: 0, 'aria-label': `Round ${round.number}`});
  const progressed = () => { const p = progress(round.lines); state.textContent = progressWords(p); bar.max = p.all; bar.value = p.done; };
  progressed();
  const lines = round.lines.map(line => lineView(line, round, progressed));
  shownRound = {round, lines};
  const after = ROUNDS[ROUNDS.indexOf(round) + 1];
  setBar(button('Rounds', () => go('rounds')), button('Also found', () => go(`found=${round.number}`)), button('Next open', nextOpen, {class: 'main'}));
  return [
    h('header', {class: 'round'}, h('h1', {tabindex: -1}, h('span', {class: 'number', text: String(round.number)}), ' ', h('span', {text: placed(round)})),
      h('p', {class: 'where', text: where(round)}), h('div', {class: 'progress'}, bar, state)),
    cautionsView(round), roundHead(round, lines),
    h('div', {class: 'lines'}, lines.map(line => line.node)),
    after ? button(`Round ${after.number}: ${placed(after)}`, () => go(`round=${after.number}`), {class: 'wide'}) : button('All rounds', () => go('rounds'), {class: 'wide'}),
  ];
}

const placed = round => round.place && !fold(round.title).includes(fold(round.place)) ? `${round.title}, ${round.place}` : round.title;

function where(round) {
  return [round.day && `day ${round.day}`, round.start, round.setting, ...(round.states || []), round.minutes && `${round.minutes} min`,
    round.wait && `then ${round.wait} min by itself`, round.people && `${round.people} people`, (round.who || []).join(' and ')].filter(Boolean).join(' · ');
}

function cautionsView(round) {
  if (!round.cautions?.length) return null;
  return h('section', {class: 'cautions', 'aria-label': 'Cautions'}, h('h2', {text: 'Caution'}), h('ul', {}, round.cautions.map(id => h('li', {text: PLAN.cautions[id]}))));
}

function roundHead(round, lines) {
  const about = () => KINDS.round.get(round.id) || {};
  const fields = {};
  const time = (name, label) => {
    const id = `f${fieldCount += 1}`, input = h('input', {type: 'time', id, value: about()[name] || ''});
    const set = strict => { change('round', round.id, {[name]: input.value}, strict); show(); };
    input.addEventListener('input', () => set(false));
    input.addEventListener('change', () => set(true));
    fields[name] = input;
    return h('div', {class: 'labelled'}, h('label', {for: id, text: label}), input);
  };
  const stamp = name => { if (!about()[name]) { change('round', round.id, {[name]: clock(now())}, true); fields[name].value = about()[name]; show(); } else times.open(true); };
  const begun = button('', () => stamp('from')), ended = button('', () => stamp('to'));
  const show = () => {
    begun.textContent = about().from ? `Begun ${about().from}` : 'Begin';
    ended.textContent = about().to ? `Ended ${about().to}` : 'End';
  };
  const needed = [...new Set(round.lines.flatMap(line => line.readings.map(r => r.instrument)).filter(id => id && PLAN.instruments?.[id]))];
  const rejudge = () => lines.forEach(one => { const verdicts = judged(one.line); one.parts.forEach(part => part.show(verdicts)); });
  const times = folded('Instruments', `Instruments and times of round ${round.number}`, () => [
    h('div', {class: 'row'}, time('from', 'From'), time('to', 'To')),
    needed.length ? h('p', {class: 'hint', text: 'What you read with instead, with its accuracy: ± 0.5 % or ± 0.1 V. It holds for this round.'}) : null,
    needed.map(id => instrumentField(instrumentWords(id), about().with?.[id], (text, strict) => { change('round', round.id, {with: {...about().with, [id]: text}}, strict); rejudge(); })),
  ].flat());
  times.open(false, true);
  show();
  const tools = (round.instruments || []).map(id => PLAN.instruments?.[id]?.title).filter(Boolean);
  return h('section', {class: 'head', 'aria-label': 'Round'}, tools.length ? h('p', {text: `Bring: ${tools.join(', ')}.`}) : null,
    h('div', {class: 'row three'}, begun, ended, times.node), times.holder);
}

function instrumentWords(id) {
  const one = PLAN.instruments[id];
  return one.accuracy ? `${one.title}, ${one.accuracy}` : one.title;
}

/* Goes to the next line that isn't done, below what is looked at first; to the next round where there is none. */
function nextOpen() {
  const {round, lines} = shownRound, active = document.activeElement.closest?.('.line');
  const start = lines.findIndex(one => one.node === active) + 1, order = [...lines.slice(start), ...lines.slice(0, start)];
  const next = order.find(one => !isDone(one.line));
  if (next) {
    next.node.scrollIntoView({block: 'start'});
    next.first()?.focus({preventScroll: true});
    return;
  }
  const later = [...ROUNDS.slice(ROUNDS.indexOf(round) + 1), ...ROUNDS].find(one => one !== round && progress(one.lines).done < one.lines.length);
  if (later) go(`round=${later.number}`);
  else { say('Every line of every round is done.'); go('rounds'); }
}
