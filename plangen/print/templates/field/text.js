/* Text compared as the findings are read: what counts as a blank, and letters that mean the same. */

const BLANK = '\\t-\\r\\x1c- \\x85\\xa0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000';
const BLANKS = new RegExp(`[${BLANK}]+`, 'gu');
const OUTER_BLANKS = new RegExp(`^[${BLANK}]+|[${BLANK}]+$`, 'gu');

const strip = text => text.replace(OUTER_BLANKS, '');
const squeeze = text => strip(text).replace(BLANKS, ' ');

/* Letters in the one form in which two are compared; the dotless i is a letter of its own. */
const fold = text => text.split('ı').map(part => part.toLowerCase().toUpperCase().toLowerCase()).join('ı');

const lengthOf = text => Array.from(text).length;

/* A name fit for an id, accents left off. */
function slug(name) {
  const plain = fold(name).normalize('NFKD').replace(/\p{Mn}/gu, '');
  return plain.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '') || 'item';
}
