import { speech } from '../api/http';
import { texts, type TextArguments } from '../generated/texts';
import { filled, isLanguage, languageOf, type Language } from '../lib/language';
import { remember, remembered } from './remembered';

/** Language and light of this device. Light is the default whatever the phone says at night. */
const known = remembered('language');
let language = $state<Language>(isLanguage(known) ? known : languageOf(navigator.languages));
let light = $state<'sun' | 'lamp'>(remembered('light') === 'lamp' ? 'lamp' : 'sun');

export const look = {
  get language(): Language {
    return language;
  },
  get light(): 'sun' | 'lamp' {
    return light;
  },
  setLanguage(wanted: Language): void {
    language = wanted;
    remember('language', wanted);
    show();
  },
  setLight(wanted: 'sun' | 'lamp'): void {
    light = wanted;
    remember('light', wanted);
    show();
  },
};

function show(): void {
  document.documentElement.lang = language;
  document.documentElement.dataset['theme'] = light;
  speech.language = language;
}
show();

export type TextKey = keyof TextArguments;
type Given<Key extends TextKey> = TextArguments[Key] extends null ? [] : [TextArguments[Key]];

/** A sentence of src/text/<language>/page.txt. */
export function t<Key extends TextKey>(key: Key, ...given: Given<Key>): string {
  const words: Readonly<Record<string, string | number>> | null = given[0] ?? null;
  return filled(texts[language][key], words);
}
