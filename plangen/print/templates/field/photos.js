/* Photos: scaled down to what a report needs, without what a camera adds, and kept. */

const LONGEST_SIDE = 1600;
const shownPhotos = new Map();

async function scaledDown(file) {
  const picture = await createImageBitmap(file, {imageOrientation: 'from-image'});
  const scale = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height));
  const canvas = h('canvas', {width: Math.max(1, Math.round(picture.width * scale)), height: Math.max(1, Math.round(picture.height * scale))});
  const on = canvas.getContext('2d');
  on.fillStyle = '#fff';
  on.fillRect(0, 0, canvas.width, canvas.height);
  on.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const blob = await new Promise(done => canvas.toBlob(done, 'image/jpeg', 0.8));
  return {bytes: await blob.arrayBuffer(), width: canvas.width, height: canvas.height};
}

/* Keeps photos that were taken for something, and returns their names. */
async function takePhotos(files, label) {
  const names = [];
  for (const file of files) {
    let made;
    try { made = await scaledDown(file); } catch {
      say('This picture can’t be read here. Set the camera to JPEG, or take it again with Photo.');
      continue;
    }
    settings.photos += 1;
    const name = `${label}-${settings.photos}-${settings.device}.jpg`;
    try { await store.putPhoto(name, made.bytes); } catch {
      trouble('The photo was not kept: the store is full. Hand over, then go on.');
      continue;
    }
    keepSettings();
    change('photo', name, {width: made.width, height: made.height, size: made.bytes.byteLength}, true);
    names.push(name);
  }
  return names;
}

async function pictureOf(name) {
  if (!shownPhotos.has(name)) {
    const bytes = await store.photo(name);
    if (!bytes) return null;
    shownPhotos.set(name, URL.createObjectURL(new Blob([bytes], {type: 'image/jpeg'})));
  }
  return shownPhotos.get(name);
}

/* The photos of something: small pictures, each of which can be taken away. */
function photoStrip(names, remove) {
  return h('div', {class: 'photos'}, names.map(name => {
    const picture = h('img', {alt: `photo ${name}`, width: 120, height: 90});
    pictureOf(name).then(url => url ? picture.setAttribute('src', url) : picture.replaceWith(h('span', {text: `photo ${name} isn’t on this device`})));
    return h('figure', {}, picture, h('figcaption', {text: name}), button('Remove', () => remove(name), {'aria-label': `Remove photo ${name}`}));
  }));
}

/* A button that opens the camera; the album is asked where no camera answers. */
function camera(label, spoken, taken) {
  const input = h('input', {type: 'file', accept: 'image/*', capture: 'environment', class: 'unseen', tabindex: -1, 'aria-hidden': 'true'});
  input.addEventListener('change', async () => {
    const files = [...input.files];
    input.value = '';
    const names = await takePhotos(files, label);
    if (names.length) taken(names);
  });
  return [button('Photo', () => input.click(), {'aria-label': spoken}), input];
}
