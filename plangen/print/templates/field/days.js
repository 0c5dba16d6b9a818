/* Days as people write them, read where there's one way only; given as 2027-03-14. */

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const YEAR_FIRST = /^([0-9]{4})[-/.]([0-9]{1,2})[-/.]([0-9]{1,2})$/;
const YEAR_LAST = new RegExp(`^([0-9]{1,2})[${BLANK}]*([-/.])[${BLANK}]*([0-9]{1,2})[${BLANK}]*\\2[${BLANK}]*([0-9]{4})$`, 'u');
const DAY_WORD = new RegExp(`^([0-9]{1,2})(?:st|nd|rd|th|\\.)?[${BLANK}]+([a-z]{3,9})\\.?,?[${BLANK}]+([0-9]{4})$`, 'u');
const WORD_DAY = new RegExp(`^([a-z]{3,9})\\.?[${BLANK}]+([0-9]{1,2})(?:st|nd|rd|th)?,?[${BLANK}]+([0-9]{4})$`, 'u');
const MONTH_WORD = new RegExp(`^([a-z]{3,9})\\.?,?[${BLANK}]+([0-9]{4})$`, 'u');

const lastOf = (year, month) => month === 2 ? (year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
const monthOf = word => MONTHS.indexOf(word.slice(0, 3)) + 1;

function madeDay(year, month, day) {
  const [y, m, d] = [Number(year), Number(month), Number(day)];
  if (y < 1 || m < 1 || m > 12 || d < 1 || d > lastOf(y, m)) return null;
  return `${String(y).padStart(4, '0')}-${String(m).padStart(2, '0')}-${String(d).padStart(2, '0')}`;
}

function dayOf(text) {
  const written = fold(strip(text));
  let m = YEAR_FIRST.exec(written);
  if (m) return madeDay(m[1], m[2], m[3]);
  m = YEAR_LAST.exec(written);
  if (m) {
    const [, first, mark, second, year] = m;
    if (mark === '.' || first === second || Number(first) > 12) return madeDay(year, second, first);
    return Number(second) > 12 ? madeDay(year, first, second) : null;
  }
  m = DAY_WORD.exec(written);
  if (m) return madeDay(m[3], monthOf(m[2]), m[1]);
  m = WORD_DAY.exec(written);
  return m ? madeDay(m[3], monthOf(m[1]), m[2]) : null;
}

/* How many years before a day lies what was typed as a date, month or year; null for any other number. */
function yearsSince(text, day) {
  if (!day || Array.isArray(text)) return null;
  const then = dayOf(text) || lastDayOf(text), written = strip(text);
  if (then) return Math.round((Date.parse(day) - Date.parse(then)) / 864e5 / 365.25 * 100) / 100;
  return /^(19|20)[0-9]{2}$/.test(written) ? Number(day.slice(0, 4)) - Number(written) : null;
}

/* The last day of a month that was written with its year, as expiry dates are. */
function lastDayOf(text) {
  const written = fold(strip(text));
  let year, month, m;
  if ((m = /^([0-9]{4})[-/.]([0-9]{1,2})$/.exec(written))) [year, month] = [m[1], m[2]];
  else if ((m = /^([0-9]{1,2})[-/.]([0-9]{4})$/.exec(written))) [year, month] = [m[2], m[1]];
  else if ((m = MONTH_WORD.exec(written))) [year, month] = [m[2], monthOf(m[1])];
  else return null;
  return madeDay(year, month, 1) && madeDay(year, month, lastOf(Number(year), Number(month)));
}
