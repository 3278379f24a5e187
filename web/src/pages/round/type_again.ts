import { forget } from '../../state/acts.svelte';
import type { RoundModel } from './model.svelte';

/** A reading that the server refused comes back into the field. */
export async function typeAgain(model: RoundModel, id: string): Promise<void> {
  const found = model.work.refused.find((each) => each.act.id === id)?.act;
  await forget(id);
  if (found?.act !== 'reading') return;
  model.go(`${found.station}/${found.direction}`);
  model.put(found.text.replace(/ [↻↺]$/, ''));
}
