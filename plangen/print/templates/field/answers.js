/* Answers in words: yes and no, with the parts that are bad. */

const YES = ['yes', 'y', 'true', 'ok', 'x', '1', 'on'];
const NO = ['no', 'n', 'false', '0', 'off'];
const GOOD = ['ok', 'okay', 'o.k.', 'good', 'pass', 'passed', 'fine', '✓', '✔'];
const BAD = ['not ok', 'nok', 'n.ok', 'not okay', 'not', 'not good', 'bad', 'fail', 'failed', '✗', '✘'];
const NOTHING = ['none', 'nothing'];
const NO_WITH_PARTS = new RegExp(`^(?:no|not)[${BLANK}]*[:;,-][${BLANK}]*(.+)$`, 'isu');
const BETWEEN_PARTS = new RegExp(`[${BLANK}]*[,;/][${BLANK}]*|[${BLANK}]+and[${BLANK}]+`, 'u');

function typedAnswer(typed) {
  const word = fold(strip(typed));
  return YES.includes(word) ? true : NO.includes(word) ? false : null;
}

function typedJudgement(typed) {
  const word = squeeze(fold(typed)).replace(/[.!]+$/, '');
  return GOOD.includes(word) ? true : BAD.includes(word) ? false : null;
}

function partMeant(typed, parts) {
  const name = slug(typed), bare = strip(typed);
  if (/^[0-9]+$/.test(bare)) return parts[Number(bare) - 1] ?? null;
  const exact = parts.find(part => slug(part) === name);
  if (exact !== undefined) return exact;
  const like = parts.filter(part => `-${slug(part)}-`.includes(`-${name}-`));
  return like.length === 1 ? like[0] : null;
}

/* The parts that were named as bad, or nothing where none was named. */
function badParts(parts, typed) {
  if (!parts || !parts.length || typed === null) return null;
  let named;
  if (Array.isArray(typed)) named = typed.filter(part => part !== null && part !== '');
  else {
    const match = NO_WITH_PARTS.exec(strip(typed));
    if (!match) return null;
    const whole = partMeant(match[1], parts);
    named = whole ? [whole] : match[1].split(BETWEEN_PARTS).filter(Boolean);
  }
  return named.map(part => partMeant(part, parts) ?? part).filter((part, at, all) => all.indexOf(part) === at);
}

/* Bad parts as they are typed on a line: in words where these are read back as the same parts, as a list otherwise. */
function typedParts(parts, bad) {
  if (!bad.length) return 'no';
  const words = `no: ${bad.join(', ')}`;
  const read = badParts(parts, words);
  return read && read.length === bad.length && bad.every(part => read.includes(part)) ? words : bad;
}

/* Whether yes is the good answer; it is where words are expected, too. */
function wantsYes(reading) {
  const text = fold(strip(reading.text || ''));
  return !NOTHING.includes(text) && typedAnswer(text) !== false;
}

/* Whether a reading is answered by good or not good alone. */
const isTick = reading => reading.text !== undefined && ['yes', 'no', ...NOTHING].includes(fold(strip(reading.text)));
