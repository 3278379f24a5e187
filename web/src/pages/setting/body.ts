import type { ActBody } from '../../api/acts';
import { asTyped } from '../../lib/decimal';
import { newId } from '../../lib/ids';
import type { SettingModel } from './model.svelte';

/** An id that none of the gauges has. */
export function freeId(gauges: readonly { readonly id: string }[], letter: 'g' | 'm'): string {
  const used = new Set(gauges.map((each) => each.id));
  let n = 1;
  while (used.has(`${letter}${n}`)) n += 1;
  return `${letter}${n}`;
}

/** The act of a setting: all that was typed, none of what it means. */
export function settingBody(model: SettingModel): Extract<ActBody, { act: 'setting' }> {
  const page = model.screens.value;
  const { set, zeros, part, master, lockedOn } = model.draft;
  return {
    act: 'setting',
    setting: page?.setting ?? `${model.gaugeId}-${newId().slice(0, 6)}`,
    gauge: model.gaugeId,
    ...(page?.master == null ? {} : { master: page.master }),
    ...(model.wanted === null ? {} : { wanted: model.size ?? model.typed(model.wanted) }),
    ...(lockedOn !== '' ? { locked_on: lockedOn } : set === '' ? {} : { set }),
    ...(zeros.length === 0 ? {} : { zeros: zeros.map((zero) => asTyped(zero.text, zero.side)) }),
    ...(part === '' ? {} : { part_temperature: `${part} °C` }),
    ...(master === '' ? {} : { master_temperature: `${master} °C` }),
    ...(model.gauge?.setting == null ? {} : { afresh_of: model.gauge.setting.id }),
  };
}
