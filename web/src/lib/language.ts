export type Language = 'en' | 'de';

export const isLanguage = (value: unknown): value is Language => value === 'en' || value === 'de';

/** The first of the browser's languages that we speak. */
export function languageOf(wanted: readonly string[]): Language {
  for (const each of wanted) {
    const short = each.slice(0, 2).toLowerCase();
    if (isLanguage(short)) return short;
  }
  return 'en';
}

/** The mark between whole and parts on the keypad. */
export const decimalMark = (language: Language): '.' | ',' => (language === 'de' ? ',' : '.');

/** "{name}" is filled in; "{n|one|other}" chooses by a whole number. The same rules as the program's own sentences. */
export function filled(pattern: string, words: Readonly<Record<string, string | number>> | null): string {
  return pattern.replace(
    /\{([a-z_]+)(?:\|([^|{}]*)\|([^|{}]*))?\}/g,
    (_all, name: string, one?: string, other?: string) => {
      const word = words?.[name] ?? '';
      if (one === undefined || other === undefined) return String(word);
      return String(word) === '1' ? one : other;
    },
  );
}

/** The mark of a number that is typed here: the job's, else the language's. */
export function markOf(stated: 'point' | 'comma' | null, language: Language): '.' | ',' {
  if (stated === null) return decimalMark(language);
  return stated === 'comma' ? ',' : '.';
}
