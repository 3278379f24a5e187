import type { RoundModel } from './model.svelte';

const field = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName);

/**
 * The keys of a keyboard, and of a gauge that types: digits and Enter land in the number wherever the focus is on this page, but
 * not in a field of its own. "*" and "/" turn the needle's side.
 */
export function typedKeys(event: KeyboardEvent, model: RoundModel): void {
  if (field(event.target) || event.ctrlKey || event.altKey || event.metaKey) return;
  if (model.heldBy !== null) return;
  const { typing, questions } = model.work;
  if (event.key === 'Enter') {
    // With nothing typed, Enter belongs to the key that has the focus; but a yes to an offer comes before that.
    const focused = document.activeElement;
    const free = focused === null || focused === document.body;
    if (typing.text === '' && !(free && questions.now?.offer != null)) return;
    event.preventDefault();
    if (!event.repeat) void model.enter();
    return;
  }
  if (event.key === 'Backspace') {
    event.preventDefault();
    model.back();
  } else if ((event.key === '*' || event.key === '/') && model.sided) {
    event.preventDefault();
    model.turn();
  } else if (/^[0-9]$/.test(event.key)) {
    event.preventDefault();
    model.press(event.key);
  } else if (event.key === '.' || event.key === ',') {
    event.preventDefault();
    model.press(model.mark);
  } else if (event.key.length === 1 && /^[-+½]$/.test(event.key)) {
    event.preventDefault();
    model.put(typing.text + event.key);
  }
}
