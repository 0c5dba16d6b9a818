/* Handing over: one file with everything, sent or saved; and taking in what another device handed over. */

function handOverView() {
  const state = h('p', {text: 'The file is being made …'}), result = h('p', {role: 'status'});
  let ready = null;
  const done = words => { settings.handedOver = now(); keepSettings(); result.textContent = words; };
  const save = button('Save the file', () => { download(ready.pieces, ready.name); done('Saved among the downloads. See that it is there.'); }, {disabled: true});
  const send = button('Send …', async () => {
    try { await navigator.share({files: [ready.file], title: `${PLAN.boat.name}, plan ${SHORT}`}); done('Sent.'); }
    catch (fault) { if (fault.name !== 'AbortError') result.textContent = 'This device doesn’t send it. Save the file, and send that.'; }
  }, {class: 'main', hidden: true});
  const input = h('input', {type: 'file', id: 'take', accept: '.json,.txt,application/json,text/plain'});
  input.addEventListener('change', async () => {
    const [file] = input.files;
    if (!file) return;
    result.textContent = 'Taking in …';
    result.textContent = file.size > LARGEST_IMPORT ? 'This file is too large.' : await takeIn(await file.text());
    input.value = '';
    make();
  });
  async function make() {
    const {pieces, counts} = await exportedPieces(), name = fileName();
    ready = {pieces, name, file: shareable(pieces, name)};
    save.disabled = false;
    send.hidden = !ready.file;
    save.className = ready.file ? '' : 'main';
    const size = new Blob(pieces).size;
    state.textContent = [`${counts.readings} readings`, `${counts.found} also found`, `${counts.photos} photos`, counts.gone && `${counts.gone} photos are on another device`, `${(size / 1e6).toFixed(size < 1e5 ? 3 : 1)} MB`].filter(Boolean).join(' · ');
    kept.textContent = await keptWords();
  }
  const kept = h('p', {class: 'quiet'}), older = h('div', {});
  make();
  otherPlans().then(files => older.replaceChildren(...files.map(file => h('section', {},
    h('h2', {text: `Typed on plan ${file.about.plan.slice(0, 8)}${file.about.attempt > 1 ? `, attempt ${file.about.attempt}` : ''}`}),
    h('p', {text: `${file.count} values of another version of this boat’s plan are kept on this device, too.`}),
    button('Save them too', async () => download((await file.make()).pieces, fileName(file.about)))))), () => {});
  setBar(button('Rounds', () => go('rounds')), send, save);
  return [
    h('h1', {tabindex: -1, text: 'Hand over'}),
    h('p', {text: 'One file with everything on this device. Send it to whoever keeps the plan: there, plangen collect puts everybody’s files together. Handing over twice does no harm.'}),
    state, result, kept, older,
    h('section', {}, h('h2', {text: 'Go on from another device'}), h('p', {text: 'Take in a file that was handed over from this plan. Nothing that was typed here is overwritten.'}),
      h('div', {class: 'labelled'}, h('label', {for: 'take', text: 'Take in a file'}), input)),
  ];
}

async function keptWords() {
  if (store.where === 'nowhere') return NOT_KEPT;
  if (store.where === 'small') return 'Kept in this browser’s small store: values yes, photos no. Hand over before you close the page.';
  try {
    const {usage, quota} = await navigator.storage.estimate();
    const safe = await navigator.storage.persisted();
    return `Kept on this device: ${(usage / 1e6).toFixed(1)} MB of ${(quota / 1e9).toFixed(1)} GB. ${safe ? '' : 'The browser may clear it when room is short: hand over each evening.'}`;
  } catch { return 'Kept on this device. Hand over each evening.'; }
}
