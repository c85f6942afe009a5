/** Counts and times as people say them. */

const whole = new Intl.NumberFormat('en');
const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' });
const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', hour12: false });
const bytes = new Intl.NumberFormat('en', { maximumFractionDigits: 1 });

/** "1 piece", "4 primaries"; the plural is the singular with an s unless given. */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${whole.format(count)} ${count === 1 ? one : many}`;
}

/** A time label of the store (ISO 8601, UTC) in the reader's own time; as it came when it is no time. */
export function showTime(label: string): string {
  const time = new Date(label);
  return Number.isNaN(time.getTime()) ? label : `${day.format(time)}, ${clock.format(time)}`;
}

export function showDay(label: string): string {
  const time = new Date(label);
  return Number.isNaN(time.getTime()) ? label : day.format(time);
}

/** Sizes of files in decimal units: "40 kB", "1.2 MB". */
export function showBytes(count: number): string {
  if (count < 1e6) return `${bytes.format(Math.ceil(count / 1e3))} kB`;
  return `${bytes.format(count / 1e6)} MB`;
}
