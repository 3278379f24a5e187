/** 32 hexadecimal digits by chance. The plain random source is there on plain http too, unlike the named-id helper. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** "2031-05-04T10:12:05+02:00": with the offset of where the person stands. */
export function nowWithOffset(now = new Date()): string {
  const two = (count: number): string => String(Math.abs(count)).padStart(2, '0');
  const east = -now.getTimezoneOffset();
  const day = `${String(now.getFullYear())}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  const time = `${two(now.getHours())}:${two(now.getMinutes())}:${two(now.getSeconds())}`;
  return `${day}T${time}${east < 0 ? '-' : '+'}${two(Math.trunc(Math.abs(east) / 60))}:${two(Math.abs(east) % 60)}`;
}
