/* Numbers as people type them: 14,1 and ~14, >20, 12-13, 1 200, 8.2 knots. The same grammar by which findings are read. */

const AMOUNT = "(?:[0-9][0-9.,' \\u00a0\\u2009\\u202f]*[0-9]|[0-9]|[.,][0-9]+)";
const I = '[iİı]';
const ABOUT = new RegExp(`^(?:~|≈|ca\\.?|c${I}rca|approx\\.?|about)[${BLANK}]*`, 'iu');
const BOUND = new RegExp(`^([<>≤≥]=?|more than|over|at least|less than|under|at most)[${BLANK}]*`, 'iu');
const BELOW = ['<', '≤', 'less than', 'under', 'at most'];
const NUMBER = new RegExp(
  `^([+-]?${AMOUNT})(?:[${BLANK}]*(?:-|–|\\bto\\b|\\.\\.)[${BLANK}]*([+-]?${AMOUNT}))?[${BLANK}]*([^${BLANK}0-9].*)?$`, 'su');
const PARTED = /^[0-9]{1,3}(?:([.,' \u00a0\u2009\u202f])[0-9]{3})(?:\1[0-9]{3})*$/u;
const DIGITS = /^[0-9]+$/;
const EITHER = 'the comma may part thousands or decimals';
const NOT_APPLICABLE = ['n/a', 'n.a.', 'not applicable', 'does not apply', "doesn't apply"];

const saysNotApplicable = typed => typeof typed === 'string' && NOT_APPLICABLE.includes(squeeze(fold(typed)));

/* A number whose thousands may be parted, or why it may be one or another. */
function amount(written) {
  const sign = '+-'.includes(written[0]) ? written[0] : '';
  const digits = written.slice(sign.length);
  let whole = digits, decimals = '';
  for (const mark of [',', '.']) {
    const at = digits.lastIndexOf(mark);
    if (at < 0) continue;
    const head = digits.slice(0, at), tail = digits.slice(at + 1);
    if (DIGITS.test(tail) && !head.includes(mark) && (DIGITS.test(head) || !head || PARTED.test(head))) {
      [whole, decimals] = [head, tail];
      break;
    }
  }
  const parted = PARTED.exec(whole);
  if (parted && parted[1] === ',' && whole.split(',').length === 2 && !decimals) return EITHER;
  const last = digits.match(/[.,](?=[^.,]*$)/);
  if (last && last[0] === ',' && decimals.length === 3 && DIGITS.test(whole) && whole.length <= 3 && whole[0] !== '0') return EITHER;
  const plain = parted ? whole.replace(/[^0-9]/g, '') : whole;
  if ((plain && !DIGITS.test(plain)) || !(plain || decimals)) return 'no single number';
  return Number(`${sign}${plain || '0'}.${decimals || '0'}`);
}

/* A typed reading taken apart, or why that can't be done in one way. */
function parsed(typed) {
  const text = strip(typed);
  if (lengthOf(text) > 60) return 'no single number';
  const bare = text.replace(ABOUT, '');
  const about = bare !== text;
  const sign = BOUND.exec(bare);
  const match = NUMBER.exec(sign ? bare.slice(sign[0].length) : bare);
  if (!match || (sign && match[2])) return 'no single number';
  const first = amount(match[1]), last = match[2] ? amount(match[2]) : null;
  if (typeof first === 'string') return first;
  if (typeof last === 'string') return last;
  const below = sign !== null && BELOW.includes(fold(sign[1]).replace(/=+$/, ''));
  const unit = strip(strip(match[3] || '').replace(/\.+$/, ''));
  return {first, last, bound: !sign ? '' : below ? 'below' : 'above', about, unit};
}

const own = (table, key) => Object.hasOwn(table, key) ? table[key] : undefined;

/* The grammar with the units of a plan. */
function grammarOf(units) {
  const unitOf = label => own(units.labels, label) ?? 'dimensionless';
  const twelve = x => Number(x.toPrecision(12));

  function unitWritten(written) {
    const label = own(units.spelt, squeeze(fold(written))) ?? written;
    return own(units.labels, label) ?? own(units.folded, fold(label));
  }

  function rescaled(value, unit, toUnit) {
    const [base, factor, offset] = units.scales[unit], [toBase, toFactor, toOffset] = units.scales[toUnit];
    if (base === toBase && factor === toFactor && offset === toOffset) return value;
    let inBase = value * factor;
    if (offset || toOffset) inBase = twelve(inBase + offset) - toOffset;
    return twelve(inBase / toFactor);
  }

  /* The unit to convert from, nothing where the number is in the reading's own, or what is wrong with it. */
  function unitMeant(written, label) {
    if (!written || fold(written) === fold(label)) return {unit: null};
    let unit = unitWritten(written);
    if (unit === undefined && /\p{Nd}|[²³¹⁰⁴-⁹₀-₉]/u.test(written)) return {fault: 'no single number'};
    const wanted = unitOf(label);
    if (unit === undefined) {
      if (wanted === 'dimensionless' && label !== '%' && /^\p{L}+$/u.test(written)) return {unit: null};
      return {fault: `the unit ‘${written}’ isn’t known`};
    }
    if (wanted === 'kelvin' || wanted.startsWith('delta_')) unit = own(units.differences, unit) ?? unit;
    if (units.scales[unit][0] !== units.scales[wanted][0]) return {fault: `${written} is no unit for a reading in ${label || 'plain numbers'}`};
    return {unit};
  }

  /* What a typed reading comes to in the unit of the label: number, low, high, about; or fault. */
  function typedNumber(typed, label) {
    const none = {number: null, low: null, high: null, about: false, fault: ''};
    if (typeof typed !== 'string') return {...none, fault: 'no number'};
    const taken = parsed(typed);
    if (typeof taken === 'string') return {...none, about: ABOUT.test(strip(typed)), fault: taken};
    const meant = unitMeant(taken.unit, label);
    if (meant.fault) return {...none, about: taken.about, fault: meant.fault};
    const converted = x => meant.unit === null ? x : rescaled(x, meant.unit, unitOf(label));
    const first = converted(taken.first);
    if (taken.bound === 'above') return {...none, about: taken.about, low: first};
    if (taken.bound === 'below') return {...none, about: taken.about, high: first};
    if (taken.last === null) return {...none, about: taken.about, number: first};
    const [low, high] = [first, converted(taken.last)].sort((a, b) => a - b);
    return {...none, about: taken.about, number: (low + high) / 2, low, high};
  }

  /* What was typed, with the unit printed beside it where it has none. */
  function withUnit(typed, label) {
    if (own(units.labels, label) === undefined || typeof typed !== 'string') return typed;
    const taken = parsed(typed);
    return typeof taken === 'string' || taken.unit ? typed : `${typed} ${label}`;
  }

  return {typedNumber, withUnit};
}

const isSingle = number => number.number !== null && number.low === null && number.high === null;
