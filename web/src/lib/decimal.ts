/** A reading while it is typed. It is text from the key to the server: nothing here knows what it is worth. */
export type Side = 'clockwise' | 'anticlockwise';

export const arrowOf = (side: Side): string => (side === 'clockwise' ? '↻' : '↺');
export const otherSide = (side: Side): Side => (side === 'clockwise' ? 'anticlockwise' : 'clockwise');

/** A number of digits that no gauge of the trade shows; more is a key that stuck. */
const most = 12;

/** The text after a key of the keypad: a digit, the mark, or a half (one only, and nothing behind it). */
export function withKey(text: string, key: string): string {
  if (text.length >= most || text.endsWith('½')) return text;
  if ((key === '.' || key === ',') && /[.,]/.test(text)) return text;
  return text + key;
}

/** A height above its datum or below it: the sign that a key turns. */
export const withSign = (text: string): string => (text.startsWith('-') ? text.slice(1) : `-${text}`);

export const withoutLast = (text: string): string => text.slice(0, -1);

/** As it goes to the server: "71" with the needle's side, "78.069" without. A text that names its side or sign itself stays. */
export function asTyped(text: string, side: Side | null): string {
  const plain = text.trim();
  if (side === null || /^0+(?:[.,]0+)?$/.test(plain) || !/^[0-9.,½ ]+$/.test(plain)) return plain;
  return `${plain} ${arrowOf(side)}`;
}

/** A text that the server wrote in the language's mark, written with the mark that the job states; nothing stated: as it is. */
export function inMarkOfJob(text: string, mark: 'point' | 'comma' | null): string {
  if (mark === null) return text;
  return mark === 'point'
    ? text.replace(/(\d),(?=\d)/g, '$1.').replace(/^,(?=\d)/, '.')
    : text.replace(/(\d)\.(?=\d)/g, '$1,').replace(/^\.(?=\d)/, ',');
}

/** Digits and a unit chosen beside them; a text that has a unit of its own stays. */
export const withUnit = (text: string, unit: string): string => {
  const plain = text.trim();
  return plain === '' || /[a-zµ"″]/i.test(plain) ? plain : `${plain} ${unit}`;
};
