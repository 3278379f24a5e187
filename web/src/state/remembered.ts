/** The browser's small store; a browser that has none forgets, and nothing breaks. */
export function remembered(key: string): string | null {
  try {
    return localStorage.getItem(`fettle.${key}`);
  } catch {
    return null;
  }
}

export function remember(key: string, value: string | null): void {
  try {
    if (value === null) localStorage.removeItem(`fettle.${key}`);
    else localStorage.setItem(`fettle.${key}`, value);
  } catch {
    // Full or forbidden: asked again next time.
  }
}
