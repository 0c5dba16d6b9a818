/* Verdicts by the decision rule of the assessment: ILAC-G8 with a guard band as wide as the instrument's uncertainty. */

const WORST_LAST = ['does-not-apply', 'recorded', 'pass', 'leaning-pass', 'limited', 'not-done', 'unclear', 'leaning-fail', 'fail'];
const OF_CONDITION = {pass: 'met', recorded: 'met', fail: 'not-met'};
const STATED = new RegExp(`(?:±|\\+\\/-|\\+-)[${BLANK}]*([0-9.,]+)[${BLANK}]*(%|[^${BLANK}0-9,;]+)?`, 'u');
const EXPANSION = 2 / Math.sqrt(3);

const worst = verdicts => verdicts.filter(v => WORST_LAST.includes(v)).reduce((a, b) => WORST_LAST.indexOf(b) > WORST_LAST.indexOf(a) ? b : a, '') || 'not-done';
const isSet = x => x !== undefined && x !== null;

function decide(reading, low, high, uncertainty) {
  if (!isSet(low) && !isSet(high)) return 'recorded';
  const band = uncertainty || 0;
  const margin = Math.min(isSet(high) ? high - reading : Infinity, isSet(low) ? reading - low : Infinity);
  if (margin >= band) return 'pass';
  if (margin >= 0) return 'leaning-pass';
  return margin >= -band ? 'leaning-fail' : 'fail';
}

/* Judges typed readings of one plan. */
function judgeOf(plan) {
  const grammar = grammarOf(plan.unitTable);
  const instruments = plan.instruments || {};
  const isNumeric = r => isSet(r.low) || isSet(r.high) || (r.series || []).some(p => isSet(p.low) || isSet(p.high));
  const verdict = (v, why = '', more = {}) => ({v, why, ...more});

  function named(used) {
    const folded = fold(used);
    return Object.entries(instruments).find(([id, one]) => folded === id || folded === fold(one.title))?.[1];
  }

  /* The error limit that somebody wrote down, as in ± 0.5 %. */
  function stated(used, x, label) {
    const match = STATED.exec(used);
    if (!match) return null;
    const unit = match[2] || '', number = grammar.typedNumber(match[1], '').number;
    if (number === null) return null;
    if (unit === '%' && label !== '%') return Math.abs(x) * number / 100;
    if (label === '°C' && ['K', '°C', '°F'].includes(unit)) return number * (unit === '°F' ? 5 / 9 : 1);
    return grammar.typedNumber(strip(`${match[1]} ${unit}`), label).number;
  }

  /* The expanded uncertainty at a reading: null where it isn't known, and which instrument it is that of. */
  function accuracy(r, x, used) {
    const planned = own(instruments, r.instrument || '');
    let item = used ? named(used) : planned;
    const limit = used ? stated(used, x, r.unit || '') : null;
    if (limit !== null) return {title: used, uncertainty: limit ? 2 * limit / Math.sqrt(3) : 0};
    item = item || planned;
    if (!item) return used ? {title: used, uncertainty: null} : null;
    const limits = own(item.limits || {}, r.unit || '');
    const error = limits ? Math.abs(x) * limits[0] / 100 + limits[1] : null;
    return {title: used || item.title, uncertainty: error === null ? null : error ? 2 * error / Math.sqrt(3) : 0};
  }

  function number(r, typed, used) {
    const n = grammar.typedNumber(typed, r.unit || '');
    if (n.fault) return verdict('unclear', n.fault);
    if (!isSingle(n)) return between(r, n, used);
    const a = accuracy(r, n.number, used), u = a ? a.uncertainty : null;
    const v = decide(n.number, r.low, r.high, u);
    return verdict(v, v.startsWith('leaning') ? closeness(r, n.number, a) : '', {number: n.number, uncertainty: u});
  }

  function closeness(r, x, a) {
    const margin = Math.min(...[r.low, r.high].filter(isSet).map(limit => Math.abs(limit - x)));
    const unit = r.unit ? ` ${r.unit}` : '';
    const wanted = margin === 0 ? 'it stands on the limit' : `an instrument good to ± ${brief(margin / EXPANSION)}${unit} would decide`;
    return a && a.uncertainty ? `${a.title} is good to ± ${brief(a.uncertainty)}${unit}; ${wanted}` : wanted;
  }

  function between(r, n, used) {
    const ends = [n.low, n.high].filter(isSet), far = ends.reduce((a, b) => Math.abs(b) > Math.abs(a) ? b : a);
    const a = accuracy(r, far, used), u = a ? a.uncertainty : null;
    const beyond = (end, low, high) => end !== null && (isSet(low) || isSet(high)) && decide(end, low, high, u) === 'fail';
    const within = (end, low, high) => !isSet(low) && !isSet(high) ? 'pass' : end === null ? 'unclear' : decide(end, low, high, u);
    let v = 'fail';
    if (!beyond(n.low, null, r.high) && !beyond(n.high, r.low, null)) {
      v = worst([within(n.low, r.low, null), within(n.high, null, r.high)]);
      if (v !== 'pass' && v !== 'leaning-pass') v = 'unclear';
    }
    return verdict(v, v === 'pass' || v === 'fail' ? '' : 'it may lie within the limits or outside: read again');
  }

  function series(r, typed, used) {
    const values = Array.isArray(typed) ? typed : [typed];
    const points = r.series.map((point, at) => {
      const value = values[at];
      if (!value) return verdict('not-done');
      const n = grammar.typedNumber(value, r.unit || '');
      if (!isSingle(n)) return verdict('unclear', n.fault || 'no single number');
      const a = accuracy(r, n.number, used);
      return verdict(decide(n.number, point.low, point.high, a ? a.uncertainty : null));
    });
    const missing = points.filter(p => p.v === 'not-done').length;
    if (r.anyPoint && missing < points.length) return verdict(worst(points.map(p => p.v).filter(v => v !== 'not-done')), '', {points});
    return verdict(worst(points.map(p => p.v)), missing ? `${missing} of ${points.length} still to read` : '', {points});
  }

  function words(r, typed) {
    const bad = badParts(r.parts, typed);
    if (bad) return verdict('fail', bad.length ? `bad: ${bad.join(', ')}` : '');
    if (Array.isArray(typed)) return verdict('unclear', 'a list for a reading that has one value');
    const wanted = fold(strip(r.text || ''));
    const judged = typedJudgement(typed), said = typedAnswer(typed);
    if (judged !== null) return verdict(judged ? 'pass' : 'fail');
    const wantedAnswer = NOTHING.includes(wanted) ? false : typedAnswer(wanted);
    if (wantedAnswer !== null && said !== null) return verdict(said === wantedAnswer ? 'pass' : 'fail');
    if (fold(strip(typed)) === wanted || said === true) return verdict('pass');
    return said === false ? verdict('fail') : verdict('unclear', `neither yes, no nor ‘${r.text}’`);
  }

  function identity(r, typed) {
    if (r.record !== 'expiry-date') return verdict('recorded');
    if (Array.isArray(typed)) return verdict('unclear', 'a list for one date');
    const day = dayOf(typed) || lastDayOf(typed);
    if (!day) return verdict('unclear', 'no date such as 2027-05-14');
    if (!plan.day) return verdict('recorded');
    return day >= plan.day ? verdict('pass') : verdict('fail', `expired before the trial, ${plan.day}`);
  }

  /* The verdict on one reading as it was typed, conditions of the trial left aside. */
  function reading(r, typed, used) {
    if (!isSet(typed) || typed === '' || (Array.isArray(typed) && !typed.some(Boolean) && !(r.parts || []).length)) return verdict('not-done');
    if (Array.isArray(typed) && !typed.length) return verdict('not-done');
    if (saysNotApplicable(typed)) return verdict('does-not-apply');
    if (r.printed) typed = Array.isArray(typed) ? typed.map(one => grammar.withUnit(one, r.printed)) : grammar.withUnit(typed, r.printed);
    if (r.series) return series(r, typed, used);
    if (r.text !== undefined) return words(r, typed);
    if (r.record !== undefined && r.record !== 'count') return identity(r, typed);
    const age = r.unit === 'years' ? yearsSince(typed, plan.day) : null;
    if (age !== null) return number(r, String(age), used);
    if (!isNumeric(r) && !isSingle(grammar.typedNumber(typed, r.unit || ''))) return verdict('recorded');
    return number(r, typed, used);
  }

  /* The verdicts on all readings of a line, by their ids; typed and used give what was typed and with what. */
  function line(readings, typed, used) {
    const found = new Map(readings.map(r => {
      const judged = reading(r, typed(r), used(r));
      return [r.id, r.condition ? {...judged, v: OF_CONDITION[judged.v] || 'not-recorded', raw: judged.v} : judged];
    }));
    for (const r of readings) {
      const judged = found.get(r.id);
      if (['not-done', 'does-not-apply'].includes(judged.v)) continue;
      const needs = (r.validIf || []).map(id => readings.find(one => one.id === id && one.condition)).filter(Boolean);
      const outside = needs.filter(one => found.get(one.id).v === 'not-met');
      const unknown = needs.filter(one => found.get(one.id).v === 'not-recorded');
      if (outside.length) found.set(r.id, {...judged, v: 'limited', why: `counts once read with ${outside.map(one => `${one.words} ${one.good}`).join(', ')}`});
      else if (unknown.length) found.set(r.id, {...judged, why: [judged.why, `fill in ${unknown.map(one => one.code || one.words).join(', ')}: it counts only under that condition`].filter(Boolean).join('; ')});
    }
    notNeeded(readings, found);
    return found;
  }

  /* Of readings of which one way suffices, what is still open is not needed once another way is done. */
  function notNeeded(readings, found) {
    const says = r => found.get(r.id).v;
    const sameWay = (r, other) => r.oneOf === other.oneOf && (r.way || r.id) === (other.way || other.id);
    const inWay = r => readings.filter(other => other.oneOf && sameWay(r, other));
    const finished = readings.filter(r => r.oneOf && inWay(r).every(one => says(one) !== 'not-done') && inWay(r).some(one => says(one) !== 'does-not-apply'));
    const decided = finished.filter(r => inWay(r).every(one => says(one) !== 'limited'));
    const others = {'not-done': finished, limited: decided};
    const spared = readings.filter(r => r.oneOf && (others[says(r)] || []).some(one => one.oneOf === r.oneOf && !sameWay(one, r)));
    spared.forEach(r => found.set(r.id, {...found.get(r.id), v: 'does-not-apply', why: 'not needed beside the other'}));
  }

  return {reading, line, worst: found => worst([...found.values()].map(one => one.v)), typedNumber: grammar.typedNumber, withUnit: grammar.withUnit};
}

/* A number with two digits that count. */
const brief = x => String(Number(x.toPrecision(2)));
