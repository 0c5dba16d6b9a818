/* One line: what to do, its readings, and on demand remark, photos, method and more. */

const GRADE_TAGS = {'stop': 'Stop', 'before-handover': 'Before handover'};

function lineView(line, round, progressed) {
  const parts = line.readings.map(reading => readingView(line, reading, changed));
  let before = isDone(line);
  function show() {
    const verdicts = judged(line);
    parts.forEach(part => part.show(verdicts));
    return verdicts;
  }
  function changed(part, strict) {
    const verdict = show().get(part.reading.id), done = isDone(line);
    if (strict) say([part.reading.code, WORDS[verdict.v].slice(2), verdict.why].filter(Boolean).join(', '), false);
    if (strict || done !== before) { before = done; node.dataset.done = done; progressed(); }
  }
  const node = h('article', {class: 'line', id: `line-${line.code || line.id}`, 'aria-label': `Line ${line.code || ''}`, 'data-done': String(before)},
    h('div', {class: 'does'}, h('h2', {}, line.code ? h('span', {class: 'code', text: line.code}) : null, h('span', {}, line.do)),
      h('p', {class: 'about'}, line.grade ? h('b', {class: 'grade', text: GRADE_TAGS[line.grade]}) : null, [line.item, line.people && `${line.people} people`].filter(Boolean).join(' · '))),
    h('div', {class: 'reads'}, PLAN.before?.[line.id]?.note ? h('p', {class: 'last', text: `Last time: ${PLAN.before[line.id].note}`}) : null, parts.map(part => part.node), lineMore(line, show, parts)));
  show();
  return {node, line, parts, first: () => (parts.find(part => isBlank(part.typed())) || parts[0])?.first};
}

/* A part that opens and closes below its button. */
function folded(text, spoken, fill) {
  const holder = h('div', {class: 'folded', hidden: true});
  const open = (on, filled = on) => {
    holder.hidden = !on;
    node.setAttribute('aria-expanded', String(on));
    if (filled && !holder.childNodes.length) holder.append(...[fill(holder)].flat().filter(Boolean));
  };
  const node = button(text, () => { open(holder.hidden); holder.querySelector('textarea,input')?.focus(); }, {'aria-expanded': 'false', 'aria-label': spoken});
  return {node, holder, open};
}

function lineMore(line, show, parts) {
  const code = line.code || line.id, about = () => KINDS.line.get(line.id) || {};
  const remark = folded('Remark', `Remark on ${code}`, () => remarkField(line));
  const method = folded('Method', `Method of ${code}`, () => methodView(line));
  const other = folded('More', `More on ${code}`, () => moreView(line, show, parts));
  const strip = h('div', {});
  const drawPhotos = () => strip.replaceChildren(...(about().photos?.length ? [photoStrip(about().photos, name => { change('line', line.id, {photos: about().photos.filter(one => one !== name)}, true); drawPhotos(); })] : []));
  const photo = camera(line.code || 'line', `Photo for ${code}`, names => { change('line', line.id, {photos: [...(about().photos || []), ...names]}, true); drawPhotos(); });
  drawPhotos();
  if (about().note) remark.open(true);
  if (about().with) other.open(true);
  return h('div', {class: 'more'}, h('div', {class: 'row four'}, remark.node, photo, method.node, other.node), remark.holder, strip, method.holder, other.holder);
}

function remarkField(line) {
  const id = `f${fieldCount += 1}`, area = h('textarea', {id, rows: 2, maxlength: LONGEST, autocapitalize: 'sentences', value: KINDS.line.get(line.id)?.note || ''});
  area.addEventListener('input', () => change('line', line.id, {note: area.value}));
  area.addEventListener('change', () => change('line', line.id, {note: area.value}, true));
  return [h('label', {for: id, text: `Remark, ${line.code || line.do}`}), area];
}

function methodView(line) {
  const method = PLAN.methods?.[line.method] || {};
  const list = (items, tag) => items?.length ? h(tag, {}, items.map(text => h('li', {text}))) : null;
  const sources = [...new Set(line.readings.filter(r => r.source).map(r => `${PLAN.sources?.[r.source[0]] || r.source[0]}${r.source[1] ? `, ${r.source[1]}` : ''}`))];
  const tools = (method.instruments || []).map(id => PLAN.instruments?.[id]).filter(Boolean).map(one => one.accuracy ? `${one.title} (${one.accuracy})` : one.title);
  return h('div', {class: 'method'}, method.title ? h('h3', {text: method.title}) : null, method.why ? h('p', {text: method.why}) : null,
    method.watchOut ? h('p', {}, h('b', {text: method.watchOut})) : null, list(method.steps, 'ol'), list(method.older, 'ul'),
    tools.length ? h('p', {text: `With: ${tools.join(', ')}.`}) : null, sources.length ? h('p', {class: 'quiet', text: `Limits from ${sources.join('; ')}.`}) : null);
}

/* Which instrument it was, and that nothing of this line applies. */
function moreView(line, show, parts) {
  const used = instrumentField(`Read with, ${line.code || line.do}`, KINDS.line.get(line.id)?.with, (text, strict) => { change('line', line.id, {with: text}, strict); show(); });
  const none = button('Does not apply to her', () => {
    for (const part of parts) if (isBlank(part.typed())) { change('reading', readingKey(line, part.reading), {typed: 'n/a'}, true); part.fill(); }
    show();
  });
  return [used, none];
}

function instrumentField(label, value, typed) {
  const id = `f${fieldCount += 1}`, input = h('input', {type: 'text', id, list: 'instruments', autocomplete: 'off', maxlength: 200, value: value || '', placeholder: 'name, ± accuracy'});
  input.addEventListener('input', () => typed(input.value, false));
  input.addEventListener('change', () => typed(input.value, true));
  return h('div', {class: 'labelled'}, h('label', {for: id, text: label}), input);
}
