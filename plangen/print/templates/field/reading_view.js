/* One reading: what is asked, what is good, where it is typed, and its verdict as soon as it is. */

let fieldCount = 0;

function verdictLine() {
  return h('p', {class: 'verdict', hidden: true}, h('b', {}), h('span', {}));
}

function showVerdict(node, verdict) {
  node.dataset.v = verdict.v;
  node.hidden = verdict.v === 'not-done' && !verdict.why;
  node.firstChild.textContent = WORDS[verdict.v];
  node.lastChild.textContent = verdict.why || '';
}

/* The head of a reading: code, words, and what is good. */
function asked(reading, alone) {
  const plainYes = isTick(reading) && wantsYes(reading) && !reading.condition;
  const noted = reading.record && !isSet(reading.low) && !isSet(reading.high);
  const good = plainYes || reading.series ? '' : noted ? reading.good : reading.condition ? `counts if ${reading.good}` : `good if ${reading.good}`;
  return [
    h('span', {class: 'words'}, !alone && reading.code ? h('b', {text: `${reading.code} `}) : null, reading.words),
    plainYes ? null : h('span', {class: 'good'}, good ? h('b', {text: good}) : null, reading.basis ? ` ${reading.basis}` : ''),
  ];
}

function readingView(line, reading, changed) {
  const alone = line.readings.length === 1;
  const own = {line, reading, id: `f${fieldCount += 1}`, verdict: verdictLine(), series: []};
  own.set = (typed, strict) => {
    change('reading', readingKey(line, reading), {typed}, strict);
    changed(own, strict);
  };
  own.typed = () => typedFor(line, reading);
  const field = reading.series ? seriesField(own) : isTick(reading) ? tickField(own) : textField(own);
  own.show = verdicts => {
    const verdict = verdicts.get(reading.id);
    showVerdict(own.verdict, verdict);
    own.series.forEach((mark, at) => { const v = verdict.points?.[at]?.v; mark.textContent = v && v !== 'not-done' ? WORDS[v].split(' ')[0] : ''; mark.setAttribute('aria-label', v && v !== 'not-done' ? WORDS[v].slice(2) : ''); });
  };
  own.fill = () => { own.refill?.(); };
  own.node = h('section', {class: 'reading', 'aria-label': `${reading.code || ''} ${reading.words}`.trim()},
    h('div', {class: 'asked'}, asked(reading, alone)), reading.note ? h('p', {class: 'hint', text: reading.note}) : null, lastTime(line, reading),
    field, own.verdict, othersView(own));
  return own;
}

function lastTime(line, reading) {
  const before = PLAN.before?.[line.id]?.readings?.[reading.id];
  return before ? h('p', {class: 'last', text: `Last time: ${before[0]}, ${WORDS[before[1]].slice(2) || 'not read'}`}) : null;
}

/* What another person read: shown until somebody says which it is. */
function othersView(own) {
  const holder = h('div', {class: 'others'});
  const draw = () => {
    const entry = KINDS.reading.get(readingKey(own.line, own.reading));
    holder.replaceChildren(...(entry?.others || []).map(other => h('p', {}, `${other.by || 'somebody'} read ${shownTyped(other.typed)}. Both are handed over.`)));
  };
  draw();
  return holder;
}

const shownTyped = typed => Array.isArray(typed) ? typed.map(one => one || '–').join(', ') : typed;

/* An input whose every keystroke is kept; the key pad of numbers first, letters where somebody asks for them. */
function typingInput(own, spoken, value, typed, numeric) {
  const input = h('input', {type: 'text', id: own.id, autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false', enterkeyhint: 'next',
    inputmode: numeric ? 'decimal' : 'text', maxlength: LONGEST, 'aria-label': spoken, value: value ?? ''});
  input.addEventListener('input', () => typed(input.value, false));
  input.addEventListener('change', () => typed(input.value, true));
  return input;
}

/* Tells number pad from letters: a number pad may lack the signs for less, more, minus and about. */
function padSwitch(inputs) {
  const node = button('abc', () => {
    const letters = inputs[0].inputMode !== 'text';
    inputs.forEach(input => { input.inputMode = letters ? 'text' : 'decimal'; });
    node.textContent = letters ? '123' : 'abc';
    node.setAttribute('aria-label', letters ? '123: number pad' : 'abc: letters and signs');
    (inputs.find(input => !input.value) || inputs[0]).focus();
  }, {class: 'pad', 'aria-label': 'abc: letters and signs'});
  return node;
}

const spokenFor = own => [own.reading.code, own.reading.words, own.reading.printed || own.reading.unit].filter(Boolean).join(', ');

function textField(own) {
  const {reading} = own, numeric = isSet(reading.low) || isSet(reading.high) || reading.record === 'count' || Boolean(reading.unit && !reading.text);
  const input = typingInput(own, spokenFor(own), own.typed(), (text, strict) => own.set(text, strict), numeric);
  own.refill = () => { input.value = shownTyped(own.typed() ?? ''); };
  own.first = input;
  const unit = reading.printed || reading.unit;
  const asExpected = reading.text !== undefined && button('as expected', () => { own.set('ok', true); own.refill(); });
  return h('div', {class: 'field'}, h('span', {class: 'box'}, input, unit ? h('span', {class: 'unit', text: unit, 'aria-hidden': 'true'}) : null), numeric ? padSwitch([input]) : null, asExpected || null);
}

function seriesField(own) {
  const {reading} = own;
  const points = reading.series.map((point, at) => {
    const typed = own.typed();
    const input = typingInput({id: `${own.id}-${at}`}, `${reading.code || ''} ${reading.words} at ${point.at}`, Array.isArray(typed) ? typed[at] : at ? '' : typed, (text, strict) => {
      const list = reading.series.map((_, n) => { const before = own.typed(); return (Array.isArray(before) ? before[n] : n ? null : before) || null; });
      list[at] = text || null;
      own.set(list, strict);
    }, true);
    const mark = h('span', {class: 'mark', role: 'img', 'aria-label': ''});
    own.series.push(mark);
    return {point, input, mark};
  });
  own.first = points[0].input;
  own.refill = () => { const typed = own.typed(); points.forEach(({input}, at) => { input.value = (Array.isArray(typed) ? typed[at] : typed && !at ? typed : '') || ''; }); };
  const unit = reading.printed || reading.unit;
  return h('div', {class: 'series'},
    h('table', {}, h('thead', {}, h('tr', {}, h('th', {scope: 'col', text: 'at'}), h('th', {scope: 'col', text: 'good'}), h('th', {scope: 'col', text: unit ? `found, ${unit}` : 'found'}))),
      h('tbody', {}, points.map(({point, input, mark}) => h('tr', {}, h('th', {scope: 'row', text: point.at}), h('td', {text: point.good || ''}), h('td', {}, h('span', {class: 'in'}, input, mark)))))),
    padSwitch(points.map(one => one.input)));
}

/* Ok and not ok, and which part it is: each part that is bad is marked. */
function tickField(own) {
  const {reading} = own, good = wantsYes(reading) ? 'yes' : 'no', parts = reading.parts || [];
  const isGood = () => { const typed = own.typed(); return !isBlank(typed) && JUDGE.reading(reading, typed, '').v === 'pass'; };
  const isBad = () => { const typed = own.typed(); return Array.isArray(typed) || (!isBlank(typed) && JUDGE.reading(reading, typed, '').v === 'fail'); };
  const bad = () => badParts(parts, own.typed() ?? null) || [];
  const spoken = [reading.code, reading.words].filter(Boolean).join(' ');
  const answer = on => { own.set(on ? good : good === 'yes' ? 'no' : 'yes', true); own.refill(); };
  const ok = button('ok', () => isGood() ? (own.set('', true), own.refill()) : answer(true), {class: 'answer', 'aria-label': `${spoken}: ok`});
  const not = button('not ok', () => isBad() ? (own.set('', true), own.refill()) : answer(false), {class: 'answer', 'aria-label': `${spoken}: not ok`});
  const question = h('p', {text: 'Mark each part that is bad.'});
  const lookAt = h('p', {class: 'hint', text: `Look at: ${parts.join(', ')}.`});
  const chips = parts.map(part => button(part, () => {
    const now = bad(), next = now.includes(part) ? now.filter(one => one !== part) : [...now, part];
    own.set(typedParts(parts, parts.filter(one => next.includes(one))), true);
    own.refill();
  }, {class: 'part', 'aria-label': `${part} is bad`}));
  const shownParts = h('div', {class: 'parts', role: 'group', 'aria-label': `parts of ${spoken}`}, question, chips);
  const other = h('p', {class: 'typed'});
  own.first = ok;
  own.refill = () => {
    const on = bad();
    pressed(ok, isGood());
    pressed(not, isBad());
    chips.forEach((chip, at) => { pressed(chip, on.includes(parts[at])); });
    shownParts.hidden = !isBad();
    lookAt.hidden = isBad();
    const typed = own.typed();
    other.textContent = !isBlank(typed) && !isGood() && !isBad() ? `typed: ${shownTyped(typed)}` : '';
  };
  own.refill();
  return h('div', {}, parts.length ? lookAt : null, h('div', {class: 'answers', role: 'group', 'aria-label': spoken}, ok, not), parts.length ? shownParts : null, other);
}
