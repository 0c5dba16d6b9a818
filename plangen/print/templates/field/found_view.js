/* What was found beside all lines: what, where, how grave, with photos. Kept as it is typed. */

let editedFound = null;

function foundView(id) {
  const round = ROUNDS.find(one => String(one.number) === id);
  const item = KINDS.found.get(id) || (editedFound && !KINDS.found.has(editedFound.id) && !id.startsWith('x') ? editedFound : null)
    || {id: `x${randomName(6)}`, what: '', place: round?.place || '', grade: '', photos: []};
  editedFound = item;
  const save = (more, strict) => { Object.assign(item, more); if (item.what || item.photos.length || KINDS.found.has(item.id)) change('found', item.id, item, strict); };
  const field = (name, label, tag, given) => {
    const node = h(tag, {id: name, maxlength: LONGEST, value: item[name], ...given});
    node.addEventListener('input', () => save({[name]: node.value}, false));
    node.addEventListener('change', () => save({[name]: node.value}, true));
    return h('div', {class: 'labelled'}, h('label', {for: name, text: label}), node);
  };
  const grades = (PLAN.grades || []).map(([grade, words]) => button(words, () => { save({grade: item.grade === grade ? '' : grade}, true); marks(); }, {'data-id': grade}));
  const marks = () => grades.forEach(node => pressed(node, node.dataset.id === item.grade));
  marks();
  const strip = h('div', {});
  const drawPhotos = () => strip.replaceChildren(...(item.photos.length ? [photoStrip(item.photos, name => { save({photos: item.photos.filter(one => one !== name)}, true); drawPhotos(); })] : []));
  drawPhotos();
  setBar(button('Back', () => go(round ? `round=${round.number}` : 'rounds')), button('Another', () => { editedFound = null; if (location.hash === '#found') draw(); else go('found'); }, {class: 'main'}));
  const others = [...KINDS.found.values()].filter(one => one.id !== item.id);
  return [
    h('h1', {tabindex: -1, text: 'Also found'}), h('p', {text: 'What belongs to no line of the plan.'}),
    field('what', 'What', 'textarea', {rows: 3, autocapitalize: 'sentences'}),
    field('place', 'Where in her', 'input', {type: 'text', list: 'places', autocomplete: 'off'}),
    h('div', {class: 'labelled', role: 'group', 'aria-labelledby': 'grade'}, h('span', {id: 'grade', class: 'label', text: 'How grave'}), h('div', {class: 'row'}, grades)),
    h('div', {class: 'row'}, camera('found', 'Photo of what was found', names => { save({photos: [...item.photos, ...names]}, true); drawPhotos(); })), strip,
    others.length ? h('section', {}, h('h2', {text: 'So far'}), h('ul', {class: 'rounds'}, others.map(one => h('li', {}, h('a', {href: `#found=${one.id}`},
      h('span', {class: 'what'}, h('b', {text: one.what || 'photo'}), h('span', {class: 'where', text: [one.place, gradeWords(one.grade), one.photos?.length && `${one.photos.length} photo`].filter(Boolean).join(' · ')})))))) ) : null,
  ];
}

/* Of a retest: what was found beside all lines, and whether it is seen mended. */
function seenView() {
  setBar(button('Rounds', () => go('rounds'), {class: 'main'}));
  return [h('h1', {tabindex: -1, text: 'Found beside the lines'}), h('div', {class: 'lines'}, PLAN.alsoFound.map(seenLine))];
}

function seenLine({id, number, what, place, note}) {
  const about = () => KINDS.seen.get(id), field = `f${fieldCount += 1}`;
  const set = mended => { change('seen', id, {mended: about()?.mended === mended ? undefined : mended}, true); marks(); };
  const yes = button('seen mended', () => set(true), {class: 'answer', 'aria-label': `${what}: seen mended`}), no = button('not yet', () => set(false), {class: 'answer', 'aria-label': `${what}: not yet`});
  const marks = () => { pressed(yes, about()?.mended === true); pressed(no, about()?.mended === false); };
  const area = h('textarea', {id: field, rows: 2, maxlength: LONGEST, value: about()?.note || ''});
  area.addEventListener('input', () => change('seen', id, {note: area.value}));
  area.addEventListener('change', () => change('seen', id, {note: area.value}, true));
  marks();
  return h('article', {class: 'line', 'aria-label': what},
    h('div', {class: 'does'}, h('h2', {}, h('span', {class: 'code', text: String(number)}), h('span', {text: what})), h('p', {class: 'about', text: [place, note].filter(Boolean).join(' · ')})),
    h('div', {class: 'reads'}, h('div', {class: 'answers'}, yes, no), h('div', {class: 'labelled'}, h('label', {for: field, text: 'Remark'}), area)));
}

const gradeWords = grade => (PLAN.grades || []).find(([id]) => id === grade)?.[1] || '';
