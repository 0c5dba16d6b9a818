/* All rounds of one person or of all, in the order of the timetable, with how far each is. */

function roundsView() {
  const who = settings.show, mine = round => !who || !(round.who || []).length || round.who.includes(who);
  const rounds = ROUNDS.filter(mine), total = progress(rounds.flatMap(round => round.lines));
  const people = ROUNDS.some(round => (round.who || []).length) ? PLAN.people || [] : [];
  const choice = people.length > 1 ? h('div', {class: 'row', role: 'group', 'aria-label': 'Whose rounds'}, [['', 'Everybody'], ...people.map(one => [one, one])].map(([id, text]) => {
    const own = progress(ROUNDS.filter(round => !id || (round.who || []).includes(id)).flatMap(round => round.lines));
    const node = button(`${text} ${own.done}/${own.all}`, () => { settings.show = id; keepSettings(); draw(); });
    pressed(node, settings.show === id);
    return node;
  })) : null;
  setBar(button('Set up', () => go('set-up')), button('Also found', () => go('found')), button('Hand over', () => go('hand-over'), {class: 'main'}));
  const open = changedSince(settings.handedOver);
  return [
    h('h1', {tabindex: -1, text: ATTEMPT > 1 ? `Retest, attempt ${ATTEMPT}` : 'Rounds'}),
    h('p', {class: 'where', text: [PLAN.model, PLAN.day].filter(Boolean).join(' · ')}),
    h('p', {class: 'state', text: `${progressWords(total)}${open ? ` · ${open} not handed over yet` : ''}`}), choice, finder(),
    h('ol', {class: 'rounds'}, rounds.map(roundRow)),
    PLAN.alsoFound ? button(`Found beside the lines: ${PLAN.alsoFound.length}`, () => go('seen'), {class: 'wide'}) : null,
  ];
}

function roundRow(round) {
  const p = progress(round.lines);
  return h('li', {}, h('a', {href: `#round=${round.number}`, 'data-done': String(p.done === p.all)},
    h('span', {class: 'number', text: String(round.number)}),
    h('span', {class: 'what'}, h('b', {text: placed(round)}), h('span', {class: 'where', text: where(round)}),
      h('progress', {max: p.all, value: p.done, 'aria-label': `Round ${round.number}`}), h('span', {class: 'state', text: progressWords(p)}))));
}

/* Finds lines by their code or by a word. */
function finder() {
  const id = 'find', results = h('ol', {class: 'results'}), input = h('input', {type: 'search', id, autocomplete: 'off', enterkeyhint: 'search'});
  input.addEventListener('input', () => {
    const word = squeeze(fold(input.value));
    const hits = word.length < 2 ? [] : PLAN.lines.filter(line => (line.code || '').startsWith(word) || fold(`${line.do} ${line.item || ''} ${line.readings.map(r => r.words).join(' ')}`).includes(word)).slice(0, 30);
    results.replaceChildren(...hits.map(line => h('li', {}, button(`${line.code || ''} ${line.do}${line.item ? `, ${line.item}` : ''}`, () => { wanted = line; go(`round=${ROUND_OF.get(line.id).number}`); }))));
  });
  return h('div', {class: 'find'}, h('label', {for: id, text: 'Find a code or a word'}), input, results);
}

/* Who holds this device, and how the page looks. */
function setUpView() {
  const names = [...new Set([...(PLAN.people || []), settings.person].filter(Boolean))];
  const other = h('input', {type: 'text', id: 'person', autocomplete: 'off', maxlength: 60, value: settings.person});
  other.addEventListener('input', () => { settings.person = squeeze(other.value); keepSettings(); marks(); });
  const people = names.map(name => button(name, () => { settings.person = name; other.value = name; keepSettings(); marks(); }));
  const marks = () => { people.forEach((node, at) => pressed(node, names[at] === settings.person)); };
  marks();
  const looks = [['light', 'Day'], ['sun', 'Bright sun'], ['dark', 'Night']].map(([id, text]) => button(text, () => { settings.theme = id; keepSettings(); dress(); looks.forEach(one => pressed(one, one.dataset.id === id)); }, {'data-id': id}));
  looks.forEach(one => pressed(one, one.dataset.id === document.documentElement.dataset.theme));
  const hands = [['right', 'Right'], ['left', 'Left']].map(([id, text]) => button(text, () => { settings.hand = id; keepSettings(); hands.forEach(one => pressed(one, one.dataset.id === id)); }, {'data-id': id}));
  hands.forEach(one => pressed(one, one.dataset.id === settings.hand));
  setBar(button('Rounds', () => { if (settings.person && !settings.show && (PLAN.people || []).includes(settings.person)) { settings.show = settings.person; keepSettings(); } go('rounds'); }, {class: 'main'}));
  return [
    h('h1', {tabindex: -1, text: 'Set up'}),
    h('section', {}, h('h2', {text: 'Who reads with this device?'}), h('p', {text: 'The name goes with everything that is typed here.'}),
      people.length ? h('div', {class: 'row'}, people) : null, h('div', {class: 'labelled'}, h('label', {for: 'person', text: 'Name or initials'}), other)),
    h('section', {}, h('h2', {text: 'Hand that holds it'}), h('div', {class: 'row', role: 'group', 'aria-label': 'Hand that holds it'}, hands)),
    h('section', {}, h('h2', {text: 'Light'}), h('div', {class: 'row', role: 'group', 'aria-label': 'Light'}, looks)),
  ];
}
