/** "2031-05-04T10:12:05Z" as people of the language write it; a text that is no time stays as it is. */
export function when(at: string, language: string): string {
  const time = new Date(at);
  if (!/^\d{4}-\d\d-\d\dT/.test(at) || Number.isNaN(time.getTime())) return at;
  const locale = language === 'de' ? 'de-DE' : 'en-GB';
  return new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short' }).format(time);
}
